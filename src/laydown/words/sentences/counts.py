"""How many coats, and why."""

from laydown.words.catalogue import Counted, Sentence, sentences

TABLE = sentences(
    Sentence("reasons", "{reasons:; }"),
    # the ground coat of panel and car
    Sentence("ground-seen-off", "the eye calls the ground coat off"),
    Sentence("ground-seen-match", "the eye calls the ground coat a match"),
    Sentence("ground-seen-slightly-off", "the eye calls the ground coat slightly off"),
    Sentence("ground-out-of-reach", "no bare ground coat of the car can be reached"),
    Sentence(
        "ground-other-batch",
        "the ground coat was checked on batch {checked}, but batch {sprayed} is to be sprayed",
    ),
    Sentence("ground-not-compared", "nobody has compared the ground coat of the panel with that of the car"),
    Sentence(
        "ground-half-read", "the car's ground coat was read, but no field of the panel without effect coat"
    ),
    Sentence(
        "ground-read-wrong",
        "the grounds of car and panel differ by {difference:.1f} dE00, which would shift the count by {shift:+.1f} coats",
    ),
    Sentence(
        "ground-read-carried",
        "the grounds of car and panel differ by {difference:.1f} dE00: carried through the count",
    ),
    Sentence(
        "ground-read-match",
        "the grounds of car and panel differ by {difference:.1f} dE00: a match, carried through the count",
    ),
    # the fields by eye
    Sentence("ground-too-many", "the bare ground coat already looks as if it had too many effect coats"),
    Sentence("fields-all-few", "every field has too few coats"),
    Sentence(
        "fields-contradict", "fields contradict each other: a lower one has too many, a higher one too few"
    ),
    Sentence("fields-all-match", "every field matches: nothing was told apart"),
    Sentence("face-against-flop", "face and flop ask for different numbers of coats"),
    Sentence("look-again", "look again at fields {pairs}"),
    Sentence("two-fields", "{lower:g} and {higher:g} at {geometry}"),
    Sentence("eye-half-a-coat", "by eye, right to about half a coat"),
    Sentence("eye-few-fields", "fewer than three fields were judged"),
    Sentence("eye-one-way", "only one way of looking: judge face and flop"),
    Sentence("by-eye", "by eye: {reason}"),
    Sentence(
        "eye-against-instrument",
        "instrument and eye contradict each other: {read:.1f} coats read, {seen:.1f} seen",
    ),
    # the fields by instrument
    Sentence(
        "effect-does-nothing",
        "from the first to the last field the colour changes by no more than {difference:.1f} dE00: the effect coat does "
        "nothing that could be counted",
    ),
    Sentence(
        "fields-too-few", "{fields} field of the panel was read, two at least are needed and three are better"
    ),
    Sentence(
        "field-beyond-curves",
        "a field of {coats:g} coats lies beyond the {most:g} for which curves are drawn",
    ),
    Sentence("car-not-read", "the panel was read, the car was not"),
    Sentence("no-common-angle", "no angle was read on every field and on the car"),
    Sentence("readings-not-at-hand", "the file of readings was not at hand"),
    Sentence("angle-read", "{angle_deg:g}°"),
    # spectra
    Sentence(
        "spectra-of-other-light",
        "holds spectra beside colours of {light}, for which there are no weights",
    ),
    Sentence("do.export-colours", "export the colours too, or take one of {lights}"),
    Sentence(
        "spectrum-per-cent",
        "reflectance must be a factor up to {highest:g}; these numbers look like per cent",
    ),
    Sentence("do.see-spectra", "see spectra in the mapping"),
    # a zone of the car
    Sentence("car-beyond-panel", "the car has more coats than the {last:g} of the last field"),
    Sentence(
        "car-below-ground",
        "the car looks like bare ground coat or less, {difference:.1f} dE00 away from it",
    ),
    Sentence(
        "car-fits-nowhere",
        "the nearest number of coats still leaves {difference:.1f} dE00 at {angle_deg:g}°",
    ),
    Sentence(
        "car-has-coats", "the car has {mean:.1f} coats of the panel, {low:.1f} to {high:.1f} ({chances})"
    ),
    Sentence("half-chance", "{coats:g} in {half_chance:~.0f} of 100 cases"),
    Sentence("difference-left", "what is left is {difference:.1f} dE00 at the most"),
    Sentence(
        "car-looks",
        "{looks} (dL* {lightness:+.1f}, dC* {chroma:+.1f}, dH* {hue:+.1f}, da* {redness:+.1f}, db* {yellowness:+.1f})",
    ),
    Sentence(
        "car-looks-alike",
        "nothing to be seen (dL* {lightness:+.1f}, dC* {chroma:+.1f}, dH* {hue:+.1f}, da* {redness:+.1f}, "
        "db* {yellowness:+.1f})",
    ),
    # what no number of coats explains
    Sentence("perhaps", "perhaps {cause} ({explained_share:.0f} of what is left): {remedy}"),
    Sentence(
        "no-single-cause",
        "no single cause stands out: read panel and car again; then try another variant, or blend",
    ),
    Sentence("cause.ground-lighter", "the car's ground coat looks lighter"),
    Sentence("cause.ground-darker", "the car's ground coat looks darker"),
    Sentence("cause.ground-yellower", "the car's ground coat looks yellower, or its clear has aged"),
    Sentence("cause.ground-bluer", "the car's ground coat looks bluer"),
    Sentence(
        "cause.flakes-flatter", "the flakes of the car lie flatter: lighter at the face, darker at the flop"
    ),
    Sentence(
        "cause.flakes-steeper", "the flakes of the car lie steeper: darker at the face, lighter at the flop"
    ),
    Sentence("cause.redder", "the car is redder at every angle: the tint differs"),
    Sentence("cause.greener", "the car is greener at every angle: the tint differs"),
    # what to do next at the panel
    Sentence(
        "do.compare-ground-first",
        "compare field 0 of the panel with bare ground coat of the car first: filler flap, sill, behind a trim",
    ),
    Sentence(
        "do.another-ground-variant",
        "choose another ground variant and spray a new let-down panel; do not change the effect count",
    ),
    Sentence("do.spray-further-fields", "spray further fields and compare again"),
    Sentence(
        "do.check-ground-variant",
        "check the ground coat: another variant, or a car that is no three-stage colour",
    ),
    Sentence("do.spray-lower-unseen", "the difference will not be seen: spray the lower number"),
    Sentence("do.check-ground-again", "check the ground coat once more; try the next ground variant"),
    Sentence(
        "do.polish-reference", "polish the place of reference and read again; try the next ground variant"
    ),
    Sentence(
        "do.strip-with-car-settings",
        "spray a new strip with the gun settings of the car; wetness, pressure and distance turn flakes, coats do not",
    ),
    Sentence("do.another-effect-variant", "try another variant of the effect coat, or blend"),
    Sentence("do.read-again", "read panel and car again; then try another variant, or blend"),
    Sentence(
        "do.look-again-or-read",
        "look again in daylight, at face and flop, dry and only at the cleared half; or read with an instrument",
    ),
    Sentence("halves-not-told-apart", "on the panel {lower:g} cannot be told from {higher:g}"),
    Sentence(
        "likelier-but-too-many",
        "{likelier:g} of the panel is likelier, but a coat too many cannot be taken off",
    ),
    Sentence(
        "do.spray-lower-first",
        "{because}: spray {first:g}, let it dry, compare with the car, and keep half a coat ready; an instrument or a "
        "second strip would tell more",
    ),
    Sentence(
        "do.spray-lower-first-read",
        "{because}: spray {first:g}, let it dry, compare with the car, and keep half a coat ready; sure to {now:.2f} "
        "coats now, to {readings:.2f} with more readings, to {strip:.2f} with a second strip, to {field:.2f} with one "
        "more field",
    ),
    Sentence(
        "do.spray-panel",
        "spray a let-down panel with fields of 0 to 5 coats and clear half of it: it tells the count to half a coat",
    ),
    # the count that is planned
    Sentence(
        "no-panel-decides",
        "no let-down panel decides: the sheet's least, range {least:g} to {most:g}; too few can be added, too many not "
        "taken off",
    ),
    Sentence("coats-fixed", "{coats:g} coats as fixed by the user"),
    Sentence("sheet-allows", "the sheet allows {least:g} to {most:g}"),
    # what there is to fear of the effect coats
    Sentence(
        "ground-wrong", "The ground coat does not match the car: no number of effect coats puts that right."
    ),
    Sentence(
        "below-ground",
        "The car looks like bare ground coat or less: the ground coat of the panel is not that of the car.",
    ),
    Sentence(
        "ground-unchecked",
        "The let-down panel gives no count before its ground coat has been compared with the car's.",
    ),
    Sentence("beyond-panel", "The car has more effect coats than the let-down panel shows."),
    Sentence("no-fit", "No number of effect coats gives the colour of the car."),
    Sentence("coats-undecided", "The let-down panel does not tell two half coats apart."),
    Sentence("coats-provisional", "The number of effect coats is provisional: {low:g} to {high:g}."),
    Sentence("do.write-count", "write the count you decide on as choices.effect_coats"),
    Sentence("effect-beyond-sheet", "{coats:g} effect coats lie outside the sheet's {least:g} to {most:g}."),
    Sentence("effect-beyond-sheet.why", "the sheet's range of coats"),
    Sentence("do.read-panel-again", "read the let-down panel again"),
    Sentence("fixed-too-many", "{coats:g} effect coats, as fixed, are too many by the let-down panel."),
    Sentence("fixed-too-few", "{coats:g} effect coats, as fixed, are too few by the let-down panel."),
    Sentence("fixed-against-panel.why", "the panel says {coats:g}, {low:g} to {high:g}"),
    Sentence("do.leave-count-out", "leave choices.effect_coats out"),
    Sentence("do.compare-in-daylight", "compare once more in daylight, at face and flop"),
    Sentence("film-per-coat", "A coat of the plan has {factor:.2f} times the film of a coat of the panel."),
    Sentence(
        "film-per-coat-counted",
        "A coat of the plan has {factor:.2f} times the film of a coat of the panel; {coats:g} coats of the plan are "
        "{panel:g} of the panel.",
    ),
    Sentence(
        "film-per-coat.why",
        "the colour of an effect coat goes with its film: another overlap, speed or flow is another number of coats",
    ),
    Sentence("do.spray-like-panel", "spray the car with overlap, speed and flow of the panel"),
    Sentence("do.panel-like-car", "spray a new panel with those of the car"),
    Sentence("do.weigh-panel", "weigh the panel before and after a coat: coat_g_m2 settles it"),
    Sentence("zones-differ", "Other zones of the car need a count of their own: {zones}."),
    Sentence("zone-counted", "{zone} {coats:g}"),
    Sentence("zone-uncounted", "{zone} {uncounted}"),
    Sentence("unnamed-zone", "unnamed"),
    Sentence("this-side", "this side"),
    Sentence("zones-differ.why", "{zone} is planned with {coats:g}; faded clear and plastic look otherwise"),
    Sentence("do.change-at-gap", "change the count at a gap, never on a panel"),
    Sentence("do.zone-as-job", "plan such a zone as a job of its own"),
    # what makes the panel doubtful
    Sentence("readings-unusable", "No count from the readings: {why}."),
    Sentence("do.mend-readings", "mend the file of readings"),
    Sentence("do.judge-by-eye", "judge the fields by eye: face and flop"),
    Sentence(
        "panel-settings",
        "The let-down panel was not sprayed with the settings of this job: its count is less sure.",
    ),
    Sentence(
        "panel-settings.why",
        "a coat of the panel is taken to scatter by {scatter:g} instead of {usual:g} coats",
    ),
    Sentence("do.strip-like-job", "spray a strip with gun, adjustment and air of the job"),
    Sentence("do.weigh-strip", "weigh it: coat_g_m2"),
    Sentence(
        "fields-uneven",
        "The fields of the let-down panel do not lie on one curve: their coats were not alike.",
    ),
    Sentence("fields-uneven.why", "misfit over 25 times the scatter of reading"),
    Sentence("do.look-at-field", "look at the field of {coats:g} coats first"),
    Sentence("do.weigh-every-coat", "spray a new panel, weigh every coat"),
    Sentence("panel-rough", "Only two fields were read: how the colour bends between them is a guess."),
    Sentence("panel-rough.why", "a straight line was drawn"),
    Sentence("do.read-three-fields", "read three fields or more"),
    Counted(
        "readings-far-off",
        "{count} reading lay far off and did not count.",
        "{count} readings lay far off and did not count.",
    ),
    Sentence("readings-far-off.why", "median and spread of each spot"),
    Sentence("do.read-spot-again", "read the spot again"),
    Sentence("angles-left-out", "Angles that were not read everywhere did not count: {angles}."),
    Sentence("angles-left-out.why", "panel and car are compared angle by angle"),
    Sentence("do.read-all-angles", "read all angles"),
    # how the ground coat hides
    Sentence("by-hiding-card", "the hiding card, alike after coat {coat}"),
    Sentence(
        "coats-to-hide",
        "over L* {lightness:.0f} ({panel}) the thinnest 5 % of the film, {thin_um:.1f} a coat, needs {coats:g} coats to "
        "hide ({source})",
    ),
    Sentence("coats-do-not-hide", "over L* {lightness:.0f} ({panel}) {most:g} coats do not hide"),
    Sentence("sheet-asks-more", "the sheet asks for {coats:g}"),
    Sentence(
        "half-coat-not-closed",
        "{coats:g} are sprayed, a coat and a half and one more, since a lone half coat does not close",
    ),
    # what there is to fear of the ground coats
    Sentence("ground-not-hiding", "{coats:g} ground coats, as fixed, may not hide on {panel}."),
    Sentence("do.plan-coats", "plan {coats:g} coats"),
    Sentence("do.card-beside-panel", "spray a hiding card beside the panel and look"),
    Sentence("do.lighter-undercoat", "choose a lighter undercoat"),
    Sentence("ground-beyond-sheet", "{coats:g} ground coats are more than the sheet's {most:g}."),
    Sentence("do.undercoat-nearer", "choose an undercoat nearer to the colour"),
    Sentence("do.spray-card", "spray a hiding card and look"),
    Sentence(
        "blind",
        "From coat {coat} on the ground coat is sprayed blind: the coat changes too little to see.",
    ),
    Sentence(
        "blind.why",
        "it changes the colour by {difference:.1f} dE00; below {seen_from:g} nobody sees where he was",
    ),
    Sentence("do.count-strokes", "count the strokes, watch the wet gloss in raking light"),
    Sentence("do.weigh-cup", "weigh the cup after each section: the plan gives the grams"),
    Sentence("do.card-on-masking", "stick a hiding card on the masking"),
    Sentence("islands", "Places with a darker undercoat still show after {coats:g} ground coats."),
    Sentence(
        "islands.why",
        "they stand out by {difference:.1f} dE00 where the film is thin; above {seen_from:g} it is seen",
    ),
    Sentence("do.islands-first", "one light coat more on those places first, then all over"),
    Sentence("do.one-undercoat", "one undercoat all over: islands decide the count, not the mean"),
    Sentence("do.look-at-card", "look at a hiding card"),
    Sentence(
        "undercoat-choice",
        "An undercoat of L* {lightness:.0f} would show where you were: its first coat changes {difference:.1f} dE00 and "
        "{coats:g} coats hide it.",
    ),
    Sentence(
        "undercoat-choice.why",
        "a lighter undercoat saves coats and blinds; a darker one shows the coats and costs more of them",
    ),
    Sentence(
        "do.choose-undercoat-before",
        "choose it before the undercoat is on; on the one that is there, count strokes and weigh",
    ),
)
