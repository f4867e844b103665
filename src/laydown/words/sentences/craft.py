"""What the craft says of mixing, times, panels and products."""

from laydown.words.catalogue import Sentence, sentences

TABLE = sentences(
    # windows that close
    Sentence("window.unknown", "unknown: ask the sheet"),
    Sentence("window.open", "the window is open"),
    Sentence("window.half-gone", "more than half of the window is gone"),
    Sentence("window.closing", "the window closes soon: go on now"),
    Sentence(
        "window.past",
        "past the window: sand first. An effect coat is scuffed lightly and gets one more effect coat "
        "before the clear, which changes the colour.",
    ),
    Sentence("mix.in-its-life", "in its life"),
    Sentence("mix.finish-the-coat", "finish the coat in hand"),
    Sentence("mix.no-new-coat", "begin no new coat with it"),
    Sentence("mix.dead", "dead: to waste, even if it is still thin"),
    # waits that end
    Sentence("wait.recoat_min.running", "not yet: the coat needs its time"),
    Sentence("wait.recoat_min.over", "the next coat may go on once the film looks right"),
    Sentence("wait.recoat_min.unknown", "unknown: ask the sheet"),
    Sentence("wait.flash_min.running", "not yet"),
    Sentence("wait.flash_min.over", "the time is over: look, it must be matt everywhere"),
    Sentence("wait.flash_min.unknown", "unknown: wait until it is matt everywhere"),
    Sentence("wait.bake_hold.running", "hold the metal temperature"),
    Sentence("wait.bake_hold.over", "held long enough: let it cool"),
    Sentence("wait.bake_hold.unknown", "unknown: ask the sheet"),
    Sentence("wait.clearance.running", "mist is still in the air: stay air-fed"),
    Sentence("wait.clearance.over", "the booth's own clearing time has passed"),
    Sentence("wait.clearance.unknown", "unknown: stay air-fed"),
    Sentence("wait.polish_from.running", "too soft to polish"),
    Sentence("wait.polish_from.over", "may be polished if it is at room temperature"),
    Sentence("wait.polish_from.unknown", "unknown: ask the sheet"),
    # the panel before the next coat
    Sentence(
        "warm-car", "warm car: {surface_c:.0f}, wanted {high_c:.0f} or less; the wet edge would be short"
    ),
    Sentence(
        "cold-car", "cold car: {surface_c:.0f}, dew point {dew_point_c:.0f}; wanted {above_k:.0f} above it"
    ),
    # the bake
    Sentence("heated-part.skin", "skin"),
    Sentence("heated-part.folds", "folds and double skin"),
    Sentence("heated-part.plastic", "plastic parts"),
    Sentence(
        "bake-verdict.ask-the-vehicle-maker",
        "Traction battery: ask the vehicle maker for the highest temperature. No bake time is approved.",
    ),
    Sentence(
        "bake-verdict.never-reached",
        "{part} ends at {goal_c:.0f}, walls counted in, and never holds {metal_c:g}: "
        "more air temperature, warmer walls or a longer cure at a lower temperature by the sheet.",
    ),
    Sentence(
        "bake-verdict.too-hot",
        "Too hot for {parts:, }: lower the air below the limit of the sheet and of the vehicle maker.",
    ),
    Sentence(
        "bake-verdict.measured", "The slowest part is {part}; its temperature is read on the slowest part."
    ),
    Sentence(
        "bake-verdict.estimated",
        "The slowest part is {part}; its temperature is computed, with one reading to set it.",
    ),
    Sentence(
        "bake-verdict.guess",
        "The slowest part is {part}; its temperature is computed only: put a thermometer on the slowest part.",
    ),
    # what is left of a mix
    Sentence(
        "left-over.hardened",
        "Hardener is in it: never back into a tin. Let it set in an open, vented container and give it to waste.",
    ),
    Sentence(
        "left-over.returnable",
        "Close the tin, write colour, date and mixing ratio on it, keep it free of frost.",
    ),
    # after a pour
    Sentence("pour.leave", "Within tolerance: leave it and pour on by the sheet."),
    Sentence(
        "pour.scoop-back",
        "Too much {lines: and }: only the base colour is in the cup, so {back_g:.1f} may still be scooped back. Or keep it and pour the rest to a batch that is {extra_g:.1f} larger.",
    ),
    Sentence(
        "pour.more-than-the-cup-holds",
        "Too much {lines: and }: putting it right makes {extra_g:.1f} more, which is more than the cup holds. Start again.",
    ),
    Sentence(
        "pour.more-than-the-job-uses",
        "Too much {lines: and }: putting it right makes {extra_g:.1f} more, which is more than the job can use. Start again.",
    ),
    Sentence(
        "pour.scale-up",
        "Too much {lines: and }: do not scoop from a mix, the surplus would stay. Pour the other lines up to match; the batch grows by {extra_g:.1f}.",
    ),
    Sentence(
        "pour.hardener-is-in",
        "Hardener is in: nothing goes back into any tin, and the clock runs since it first touched.",
    ),
    # why the solvent content cannot be told
    Sentence("solvent.sheet-is-silent", "the sheet leaves figures out"),
    Sentence("solvent.nothing-mixed", "nothing is mixed"),
    Sentence("solvent.almost-all-water", "almost all of it is water or exempt: use the material number"),
    # prices nobody gave
    Sentence("price-of", "price of {layer}"),
    Sentence("price-of-consumables", "price of consumables"),
    Sentence("rate-of-the-booth", "booth rate"),
    Sentence("rate-of-the-bake", "bake rate"),
    Sentence("wage", "wage"),
    Sentence("cost-of-doing-it-again", "cost of doing it again"),
    Sentence("chance-of-doing-it-again", "chance of doing it again"),
    # what keeps a recipe from becoming grams, and how to mend it
    Sentence("recipe-faults", "{faults:; }"),
    Sentence("recipe.no-line", "the recipe has no line"),
    Sentence("recipe.start-with-the-base", "start with the base colour"),
    Sentence("recipe.first-line-is-not-the-base", "the first line is not the base colour in parts"),
    Sentence("recipe.base-first", "put the base colour first, in parts above 0"),
    Sentence("recipe.amount-below-nothing", "the amount of {line} is not 0 or more"),
    Sentence("recipe.write-a-number", "write a number"),
    Sentence("recipe.no-basis", "{line} is neither by volume nor by mass"),
    Sentence("recipe.ask-for-the-basis", "ask the sheet: volume or mass"),
    Sentence("recipe.percent-of-what", "{line}: percent of what?"),
    Sentence("recipe.ask-for-the-reference", "ask the sheet: of base, of all before, or of final"),
    Sentence("recipe.share-outside", "a share of {line} is outside 0 to 1"),
    Sentence("recipe.how-shares-are-written", "0.55 is 55 %"),
    Sentence(
        "recipe.shares-above-the-whole", "solvent, water and exempt solvent of {line} are more than the whole"
    ),
    Sentence("recipe.shares-add-up-to-one", "shares of one mass add up to 1 at most"),
    Sentence(
        "recipe.density-outside",
        "the density of {line}, {density_g_ml:g}, is outside {low_g_ml:~g} to {high_g_ml:~g}",
    ),
    Sentence("recipe.density-missing", "the density of {line} is missing and a volume must become grams"),
    Sentence("weigh-for-the-density", "weigh 100 mL of it and divide the grams by 100"),
    Sentence(
        "recipe.line-after-the-final-ones", "a line follows one that is in per cent of the finished mix"
    ),
    Sentence("recipe.final-ones-last", "put lines in per cent of the finished mix last"),
    Sentence("recipe.final-ones-differ-in-basis", "lines in per cent of the finished mix differ in basis"),
    Sentence("recipe.one-basis-for-all", "write them all by volume or all by mass"),
    Sentence(
        "recipe.no-room-for-the-base", "lines in per cent of the finished mix leave no room for the base"
    ),
    Sentence("recipe.together-below-a-hundred", "together they stay below 100"),
    Sentence("recipe.ratio-without-basis", "the ratio has no basis"),
    Sentence("recipe.write-volume-or-mass", "write volume or mass"),
    # how far the layers reach on a panel, and why
    Sentence("reach.because", "{reasons:; }"),
    Sentence("reach.untouched", "not touched: masked"),
    Sentence("reach.ground-stays", "{panel_state}: ground coat stays on this panel"),
    Sentence("reach.no-room", "no room for a fade from the {panel}: the effect coat stops at the border"),
    Sentence("reach.fades", "the effect coat fades over {length_m:cm .0f} away from the {panel}"),
    Sentence(
        "reach.between-two",
        "lies between two damaged panels: {length_m:cm .0f} cannot hold two fades, so the effect coat goes across",
    ),
    Sentence("reach.effect-as-set", "effect coat as you set it"),
    Sentence("reach.clear-to-a-narrow-place", "clear coat to the gaps or to the narrow place"),
    Sentence("reach.clear-to-gaps", "clear coat over the whole panel, to its gaps"),
    Sentence("reach.clear-to-edges", "clear coat over the whole panel, to its edges"),
    # what there is to fear of how far the layers reach
    Sentence("nothing-damaged", "No panel is new or repaired."),
    Sentence(
        "nothing-damaged.why",
        "Ground coat is proposed only inside a damaged panel, so nothing is proposed here.",
    ),
    Sentence("effect-within-ground", "On the {panel} the effect coat does not cover the ground coat."),
    Sentence(
        "effect-within-ground.why",
        "Bare ground coat has another colour than the car; the effect coat must reach at least as far.",
    ),
    Sentence("clear-missing", "The {panel} gets colour but no clear coat."),
    Sentence(
        "clear-missing.why", "Waterborne colour without clear coat is neither glossy nor fast to weather."
    ),
    Sentence(
        "clear-in-the-open.set-to-fade",
        "The clear coat ends in the open on the {panel}: it is set to fade on the panel.",
    ),
    Sentence(
        "clear-in-the-open.no-gap",
        "The clear coat ends in the open on the {panel}: no gap parts it from the {beyond}.",
    ),
    Sentence(
        "clear-in-the-open.why",
        "A clear edge in the open stays visible and lifts with time; it belongs in a gap or a narrow place.",
    ),
    Sentence("ground-on-sound", "Ground coat is set on the {panel}, which is sound."),
    Sentence(
        "ground-on-sound.why",
        "Beyond the damage every ground coat must match the car by itself; the effect coat alone hides the step.",
    ),
    Sentence("ground-missing", "The {panel} is {panel_state} but gets no ground coat."),
    Sentence("ground-missing.why", "The effect coat is translucent: the undercoat would show through."),
    Sentence(
        "ground-fade-place", "The ground coat fades on the {panel}; it is planned over the whole panel."
    ),
    Sentence(
        "ground-fade-place.why",
        "Where the repair lies on the panel is not known to laydown, so seconds and grams are those of all of it.",
    ),
    Sentence("fade-nowhere", "The effect coat fades on the {panel}, but no neighbour carries it in full."),
    Sentence(
        "fade-nowhere.why",
        "A fade starts where the layer is full; without one the whole panel is planned as full.",
    ),
    Sentence("fade-short.as-set", "The fade on the {panel} has only {length_m:cm .0f}."),
    Sentence("fade-short.open-border", "The effect coat has only {length_m:cm .0f} to fade in the {panel}."),
    Sentence("fade-short.no-room", "The {panel} has {length_m:cm .0f} of room: too short for a fade."),
    Sentence(
        "fade-short.shows-as-a-ring",
        "A three-stage colour wants {fade_m:cm .0f} to fade; a shorter fade shows as a ring.",
    ),
    Sentence(
        "fade-short.no-gap",
        "There is no gap between the panels to stop in, and a three-stage colour wants {fade_m:cm .0f}.",
    ),
    Sentence("effect-stops-with-ground", "The effect coat stops with the ground coat at {panel}|{beyond}."),
    Sentence(
        "effect-stops-with-ground.why",
        "Ground and effect then step in one line, and any difference to the car shows there at once.",
    ),
    # what to do about how far the layers reach
    Sentence("do.name-the-damaged-panel", "give the damaged panel the state new or repaired"),
    Sentence("do.set-effect-full-here", "set effect = full on this panel"),
    Sentence("do.set-clear-full-here", "set clear = full on this panel"),
    Sentence("do.clear-to-the-next-gap", "take the clear coat to the next gap"),
    Sentence("do.clear-to-a-narrow-place", "end it at the narrowest place of a pillar"),
    Sentence(
        "do.keep-ground-inside-the-damage",
        "keep the ground coat inside the damaged panel and let the effect coat fade here",
    ),
    Sentence("do.set-ground-full", "set ground = full"),
    Sentence("do.set-effect-full-on-the-neighbour", "set effect = full on the damaged neighbour"),
    Sentence("do.set-effect-none", "set effect = none here"),
    Sentence("do.set-effect-none-to-the-gap", "set effect = none here: the effect coat stops in the gap"),
    Sentence("do.set-effect-full-and-fade-beyond", "set effect = full here and fade beyond it"),
    Sentence(
        "do.fade-on-the-neighbour", "let the effect coat fade on the {panel} over at least {fade_m:cm .0f}"
    ),
    Sentence("do.take-in-the-panel-beyond", "take in the panel beyond the {panel}"),
    Sentence(
        "do.stop-at-the-gap",
        "let the effect coat stop at the gap {panel}|{beyond}: one panel fewer, the step lies in the gap",
    ),
    Sentence(
        "do.stop-at-the-narrow-place",
        "let the effect coat stop at the narrow place {panel}|{beyond}: one panel fewer, the step lies in the narrow place",
    ),
    Sentence(
        "do.effect-over-the-whole-panel",
        "carry the effect coat over the whole {panel} and let it fade or stop beyond it",
    ),
    # shapes and tape measures
    Sentence("shape.unknown", "there is no shape '{shape}'"),
    Sentence("shape.near", "did you mean '{near}'? shapes: {shapes:, }"),
    Sentence("shape.known", "shapes: {shapes:, }"),
    Sentence("measure.unknown", "this shape has no such measure"),
    Sentence("measure.near", "did you mean '{near}'?"),
    Sentence("measure.known", "measures: {measures:, }"),
    Sentence("measure.outside", "{length_m:.3f}: allowed {allowed_m:.3f}"),
    Sentence(
        "measure.outside-carried",
        "{length_m:.3f} (kept in proportion to your own measures): allowed {allowed_m:.3f}",
    ),
    Sentence("measure.nothing-fits", "{length_m:.3f}: no value fits the others"),
    Sentence(
        "measure.nothing-fits-carried",
        "{length_m:.3f} (kept in proportion to your own measures): no value fits the others",
    ),
    Sentence("measure.girth-outside", "{girth:.3f}: allowed {allowed:.3f}"),
    Sentence("measure.again", "measure again from the ground"),
    Sentence("measure.give-this-too", "give this measure too, or measure again from the ground"),
    Sentence("measure.no-side", "these measures make no side together: {part} {fault}"),
    Sentence("measure.again-first", "measure again from the ground, first {measures:, }"),
    Sentence("measure.again-wheelbase", "measure again from the ground, first the wheelbase"),
    # panels by name
    Sentence("panel.unknown", "{side} has no panel '{panel}'"),
    Sentence("panel.near", "did you mean '{near}'? panels: {panels:, }"),
    Sentence("panel.known", "panels: {panels:, }"),
    Sentence("panel.twice", "'{panel}' is the same panel as {other}"),
    Sentence("panel.keep-one", "keep one of the two"),
    # what makes a drawn side unusable
    Sentence("side.too-many-points", "{points:~.0f} points"),
    Sentence("side.fewer-points", "at most {most:~.0f}: draw with fewer points"),
    Sentence("side.no-panel", "no panel"),
    Sentence("side.draw-a-panel", "draw at least one closed panel"),
    Sentence("side.id-twice", "this id stands twice"),
    Sentence("side.own-ids", "give every part its own id"),
    Sentence("side.strange-panels", "names no panel of this side: {panels:, }"),
    Sentence("side.two-points", "needs two points or more"),
    Sentence("side.three-points", "needs a closed outline of three points or more"),
    Sentence("side.strange-area", "{skin_m2:.3g} of skin"),
    Sentence("side.is-the-scale-right", "between {low_m2:~g} and {high_m2:.0f}: is the scale right?"),
    Sentence("side.crosses-itself", "its outline crosses itself"),
    Sentence("side.without-loops", "draw round the panel once, without loops"),
    Sentence("side.hole-outside", "a hole lies outside its panel"),
    Sentence("side.move-the-hole", "move the hole inside the outline"),
    Sentence("side.holes-overlap", "two holes overlap"),
    Sentence("side.join-holes", "join them to one"),
    Sentence("side.panels-overlap", "overlaps {panel} by {area_m2:cm² .0f}"),
    Sentence("side.end-on-one-line", "let both panels end on the same line"),
)
