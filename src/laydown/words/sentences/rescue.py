"""What may go wrong, how it is seen, and the ways out."""

from laydown.words.catalogue import Sentence, sentences

TABLE = sentences(
    # ways out: what to do, and what it leads to
    Sentence("way.even-out-wet", "Even it out with one light pass across, while the film is wet"),
    Sentence("way.even-out-wet.then", "a little more film there; nothing else changes"),
    Sentence("way.wet-over", "Put wet ground coat over the band at once"),
    Sentence("way.wet-over.then", "the dust is taken up by the wet film"),
    Sentence(
        "way.air-and-wait",
        "Give it moving air and wait until it is matt everywhere, lower edge and recesses too; "
        "judge only then",
    ),
    Sentence("way.air-and-wait.then", "only time; a damp ground coat reads too dark"),
    Sentence("way.next-ground-coat", "Let it get matt, then one more ground coat gap to gap"),
    Sentence("way.next-ground-coat.then", "one ground coat more, no colour changes once it hides"),
    Sentence(
        "way.ground-leave-and-de-nib",
        "Leave it, do not pick. Let it dry and cool, de-nib dry with P600 to P800, tack, spot "
        "in with ground coat mixed as before",
    ),
    Sentence("way.ground-leave-and-de-nib.then", "nearly free: the effect coat is not on yet"),
    Sentence(
        "way.ground-de-nib",
        "De-nib dry with P600 to P800, tack, spot in with ground coat mixed as before, "
        "hardener too, once dry and cool",
    ),
    Sentence("way.ground-de-nib.then", "nearly free: the effect coat is not on yet"),
    Sentence(
        "way.ground-sand-flat",
        "Let it dry through, sand it flat dry with P600 to P800, tack, one ground coat gap to gap",
    ),
    Sentence("way.ground-sand-flat.then", "some minutes; nothing shows later"),
    Sentence(
        "way.ground-sand-craters",
        "Stop, let it dry, sand the craters out dry, then two mist coats and one normal ground coat",
    ),
    Sentence(
        "way.ground-sand-craters.then",
        "find where the oil, silicone or water comes from first, or it comes back",
    ),
    Sentence(
        "way.ground-edge-back",
        "Sand the ground edge back dry, so that it stays inside the repair and each layer "
        "above reaches farther",
    ),
    Sentence("way.ground-edge-back.then", "the effect coat can then run out beyond it"),
    Sentence(
        "way.ground-leave-edges",
        "Leave the edges out of the coats that follow: trigger off beyond the panel, no second band",
    ),
    Sentence("way.ground-leave-edges.then", "edges even out with the coats to come"),
    Sentence("way.finish-at-gap", "Stop at the nearest gap, refill from the same batch and go on there"),
    Sentence(
        "way.finish-at-gap.then",
        "a join at a gap is not seen; a second batch is boxed with the rest before use",
    ),
    Sentence(
        "way.drop-coat-wet",
        "One drop coat at {gun_bar:.1f} from farther away, still wet or as soon as it is "
        "tacky, over the whole section",
    ),
    Sentence("way.drop-coat-wet.then", "counts for half an effect coat; leave out the planned one"),
    Sentence("way.light-coat-across", "One light coat across at 75 % overlap, over the whole section"),
    Sentence("way.light-coat-across.then", "counts for half an effect coat; leave out the planned one"),
    Sentence("way.wet-band", "Wet the band at once, while the edge is open"),
    Sentence("way.wet-band.then", "helps only on an open edge; on a set one it makes a second dry band"),
    Sentence(
        "way.stop-and-dry-band",
        "Stop at the gap and let it get matt. De-nib the band dry with P800 to P1000, tack, "
        "one light effect coat over a wider band",
    ),
    Sentence("way.stop-and-dry-band.then", "counts for half an effect coat on the section"),
    Sentence(
        "way.wet-bed-and-arcs",
        "Lay a wet bed beyond the edge, then shorter fades in arcs without a flick of the "
        "wrist, at least {fade_m:cm .0f} in all",
    ),
    Sentence("way.wet-bed-and-arcs.then", "the fade gets longer; check that the panel has the room"),
    Sentence(
        "way.effect-leave-and-de-nib",
        "Leave it and let it dry. De-nib dry with P600 to P800, tack, two effect coats over the spot",
    ),
    Sentence(
        "way.effect-leave-and-de-nib.then",
        "the spot counts up to two effect coats more: hold the let-down panel to it",
    ),
    Sentence("way.effect-de-nib", "De-nib dry with P600 to P800, tack, two effect coats over the spot"),
    Sentence(
        "way.effect-de-nib.then", "the spot counts up to two effect coats more: hold the let-down panel to it"
    ),
    Sentence(
        "way.wash-off",
        "Wash the whole effect coat off from gap to gap, down to the hardened ground coat, let "
        "it dry and spray the effect coats again",
    ),
    Sentence(
        "way.wash-off.then",
        "the planned count again, no sanding mark; the ground coat below is dry and not harmed",
    ),
    Sentence("way.effect-mist-craters", "Mist coats on the craters, let each dry, then go on normally"),
    Sentence("way.effect-mist-craters.then", "counts for half an effect coat; craters may stay"),
    Sentence(
        "way.set-gun", "Set pressure, distance and speed as on the let-down panel for the coats that follow"
    ),
    Sentence(
        "way.set-gun.then",
        "drier stands the flakes up, wetter lays them down; look again after the next coat",
    ),
    Sentence(
        "way.effect-leave-edges",
        "Trigger off beyond the panel and leave the edges out of the next effect coat, then mist over all",
    ),
    Sentence("way.effect-leave-edges.then", "counts for half an effect coat on the panel"),
    Sentence("way.add-effect-coat", "Let it get matt and add one effect coat, gap to gap"),
    Sentence("way.add-effect-coat.then", "one effect coat more: the cheapest of all faults"),
    Sentence(
        "way.stop-counting", "Stop: no further effect coat. Let it get matt and hold the let-down panel to it"
    ),
    Sentence(
        "way.stop-counting.then", "if it already reads too strong, only ground coat and the right count help"
    ),
    Sentence("way.take-coat-off", "Take one effect coat off again"),
    Sentence("way.take-coat-off.then", "effect coats cannot be taken off one by one; sanding leaves patches"),
    Sentence(
        "way.ground-and-right-count",
        "One ground coat over it to hiding, then effect coats in the right count, gap to gap",
    ),
    Sentence("way.ground-and-right-count.then", "the only way back from too much effect; watch the film"),
    Sentence(
        "way.resume-next-coat",
        "Fall back to the last gap, wait until matt, spray the rest with the next coat from the other end",
    ),
    Sentence(
        "way.resume-next-coat.then",
        "never stop in open panel; the panel beyond the gap lacks this coat until then",
    ),
    Sentence("way.drop-coat-dry", "One drop coat at {gun_bar:.1f} over the whole section"),
    Sentence("way.drop-coat-dry.then", "counts for half an effect coat: hold the let-down panel to it"),
    Sentence(
        "way.ground-and-effect-again",
        "Sand dry with P600 to P800, tack, ground coat and all effect coats again, gap to gap",
    ),
    Sentence("way.ground-and-effect-again.then", "the planned count again; some film more"),
    Sentence(
        "way.ground-local-effect-whole",
        "One ground coat over the spot, then the effect coats again on the whole section",
    ),
    Sentence("way.ground-local-effect-whole.then", "late: effect coats never hide"),
    Sentence(
        "way.feather-ring",
        "Feather the ring dry with P1000 or finer, tack, effect coat farther out, fading over "
        "at least {fade_m:cm .0f}",
    ),
    Sentence("way.feather-ring.then", "one effect coat more along the fade"),
    Sentence("way.dehydrate-longer", "Blow longer at {blower_c:g} until the water is out, then judge again"),
    Sentence("way.dehydrate-longer.then", "only time; a damp coat reads too dark and pops under clear"),
    Sentence(
        "way.ground-mist-on-edge", "Mist ground coat lightly on the edge, then one effect coat over the panel"
    ),
    Sentence("way.ground-mist-on-edge.then", "one effect coat more on the panel"),
    Sentence(
        "way.scuff-and-one-more", "Scuff the effect coat lightly, tack, one more effect coat, then clear"
    ),
    Sentence(
        "way.scuff-and-one-more.then",
        "the longest time to the clear has passed: the job gains one effect coat, which changes the colour",
    ),
    Sentence(
        "way.leave-tiny-nib",
        "Leave a tiny nib outside the light band, clear over it and cut it flat after the bake",
    ),
    Sentence(
        "way.leave-tiny-nib.then",
        "if it stands above the clear, cutting opens the effect coat: then it is a redo",
    ),
    Sentence("way.flat-after-bake", "Clear over it and cut it flat after the bake"),
    Sentence("way.flat-after-bake.then", "the flakes lie otherwise in a sag: it stays visible from the side"),
    Sentence(
        "way.keep-pop-away",
        "Nothing is to be mended yet: dry the base out, first clear coat thin, flash before "
        "the heat, raise it slowly",
    ),
    Sentence("way.keep-pop-away.then", "only time"),
    Sentence(
        "way.new-batch",
        "Mix again, box it with the rest, spray a let-down strip of the new batch, then go on from a gap",
    ),
    Sentence("way.new-batch.then", "two batches are never quite one: the strip decides"),
    Sentence(
        "way.finish-clear-then-redo",
        "Nothing helps the colour under wet clear: finish the clear, bake, then do the panel again",
    ),
    Sentence(
        "way.finish-clear-then-redo.then",
        "dear, but known; look first whether the customer's eye finds it in daylight",
    ),
    Sentence("way.wipe-clear-off", "Wipe the wet clear off"),
    Sentence("way.wipe-clear-off.then", "the cleaner takes the waterborne base along"),
    Sentence(
        "way.needle-out",
        "Hair or insect: lift it out with a needle at once, let the clear close over it; all else is left",
    ),
    Sentence("way.needle-out.then", "a small mark may need polishing"),
    Sentence(
        "way.leave-and-polish", "Leave it, bake, then flat with P1500 to P3000 and polish once cooled through"
    ),
    Sentence("way.leave-and-polish.then", "good as long as it lies in the clear alone"),
    Sentence("way.slow-heat", "Let it flash longer before the heat and raise the heat slowly"),
    Sentence("way.slow-heat.then", "later, but no more blisters; those there stay"),
    Sentence(
        "way.clear-to-gap",
        "Finish the clear at the nearest gap, mix the same hardener again and clear the panels "
        "beyond it from that gap",
    ),
    Sentence("way.clear-to-gap.then", "clear ends at an edge or gap, never in open panel"),
    Sentence("way.clear-again", "Let it bake and cool, sand to a sound layer, clear the whole panel again"),
    Sentence(
        "way.clear-again.then", "only if the sanding stays in the clear; into the effect coat it is a redo"
    ),
    Sentence("way.polish", "Flat with P1500 to P3000 and polish, once cooled through"),
    Sentence(
        "way.polish.then", "good only if it lies in the clear; stop before the effect coat shows on the pad"
    ),
    Sentence("way.redo", "Sand the panel, ground, effect and clear again, gap to gap"),
    Sentence("way.redo.then", "prep is most of it, paint the least"),
    Sentence(
        "way.effect-and-clear-again",
        "Scuff, effect coat again gap to gap or faded over at least {fade_m:cm .0f}, then "
        "clear the whole panel",
    ),
    Sentence(
        "way.effect-and-clear-again.then",
        "one effect coat on top: hold the let-down panel to it before the clear",
    ),
    Sentence(
        "way.blend-wider",
        "Sand, blend the effect coat out over the next panel, at least {fade_m:cm .0f}, and clear both whole",
    ),
    Sentence("way.blend-wider.then", "one panel more; hides a difference, does not remove it"),
    Sentence("way.strip", "Strip to a sound layer and build up again"),
    Sentence("way.strip.then", "nothing above a layer that lets go can hold"),
    Sentence("way.clear-over-cut", "Put more clear over the spot"),
    Sentence(
        "way.clear-over-cut.then",
        "clear alone does not hide a cut into the effect coat: the effect coat must be sprayed again",
    ),
    Sentence("way.stop-and-ask", "No known way: stop at the gap, let it flash, ask"),
    Sentence(
        "way.stop-and-ask.then", "as a rule this fault cannot show yet: look which other fault it may be"
    ),
    Sentence("way.on-shows-through", "Carry on"),
    Sentence(
        "way.on-shows-through.then",
        "the effect coat shows everything below it; found after the clear it is a redo, 25 to "
        "40 times dearer",
    ),
    Sentence("way.on-may-even-out", "Carry on"),
    Sentence(
        "way.on-may-even-out.then",
        "it may even out under the next coat; if not, the price rises with every stage",
    ),
    Sentence("way.on-take-it-out-dry", "Carry on with this coat and take it out when it is dry"),
    Sentence(
        "way.on-take-it-out-dry.then", "nothing is lost as long as it is taken out before the next layer"
    ),
    Sentence("way.on-stays", "Carry on"),
    Sentence("way.on-stays.then", "it stays and is seen under the clear; after that only a redo helps"),
    Sentence("way.on-damp", "Carry on"),
    Sentence("way.on-damp.then", "water shut in: milky film, popping, colour judged too dark"),
    Sentence("way.on-dry-edge", "Carry on from where it stopped, in open panel"),
    Sentence("way.on-dry-edge.then", "the edge in open panel goes dry: its band is seen under the clear"),
    Sentence("way.on-cannot-show", "Carry on"),
    Sentence("way.on-cannot-show.then", "this fault cannot show at this stage; look again at the next gate"),
    Sentence("way.on-under-clear", "Carry on: finish the clear"),
    Sentence(
        "way.on-under-clear.then", "clear makes it plainer, not better; decide after the bake, in daylight"
    ),
    Sentence("way.on-polish-later", "Carry on and look after the bake"),
    Sentence("way.on-polish-later.then", "what lies in the clear alone is polished out"),
    Sentence("way.on-pops", "Carry on"),
    Sentence("way.on-pops.then", "more heat makes more blisters"),
    Sentence("way.on-live-with-it", "Leave it as it is"),
    Sentence(
        "way.on-live-with-it.then",
        "the owner may find it in daylight: show it before the car leaves, do not hope",
    ),
    Sentence("way.on-lets-go", "Leave it as it is"),
    Sentence("way.on-lets-go.then", "it goes on letting go"),
    # why a way is not possible or only risky in this job
    Sentence(
        "way-without-hardener", "not offered: the ground coat has no hardener, so washing would take it along"
    ),
    Sentence(
        "way-too-late",
        "not any more: the longest time from effect coat to clear has passed, and nothing "
        "holds on it unscuffed",
    ),
    Sentence("way-with-patches", "{then}; several spots with other counts show as patches"),
    # what must be true or at hand
    Sentence("need.wet-without-curtain", "the film is still wet and shows no curtain"),
    Sentence("need.fresh-band", "the band is fresh and the edge still open"),
    Sentence("need.dry-and-cool", "dry and cool"),
    Sentence("need.sand-never-wet", "P600 to P800 dry, never wet"),
    Sentence("need.no-cleaner", "no cleaner on waterborne base"),
    Sentence("need.hardener-in-the-spot", "hardener in the spot where the coat has it"),
    Sentence("need.sand-dry", "P600 to P800 dry"),
    Sentence("need.cause-found", "cause found: air line, gloves, panel"),
    Sentence("need.same-batch", "same batch, or both batches boxed"),
    Sentence("need.join-still-open", "the count-down of this join has not run out"),
    Sentence("need.room-to-fade", "{fade_m:cm .0f} of room, else go on to the next gap"),
    Sentence("need.hardened-ground", "hardener in the ground coat, dried through"),
    Sentence("need.try-at-the-sill", "try it at the sill first"),
    Sentence("need.sheets-cleaner", "the sheet's cleaner for waterborne base, all of it dried off"),
    Sentence("need.letdown-panel-in-hand", "the let-down panel in hand"),
    Sentence("need.letdown-panel-read-again", "let-down panel read again"),
    Sentence("need.new-batch-boxed", "new batch boxed with the rest"),
    Sentence("need.sheets-longest-time", "the sheet's own words on its longest time"),
    Sentence("need.smaller-than-the-clear", "smaller than the clear is thick"),
    Sentence("need.hood-stays-on", "air-fed hood stays on"),
    Sentence("need.cooled-through", "cooled through, about an hour after the bake"),
    Sentence("need.film-measured", "film measured: sanding must stay inside the clear"),
    Sentence("need.thick-clear", "clear thick enough: {film_um:g} and more"),
    Sentence("need.run-out", "gap to gap or faded over at least {fade_m:cm .0f}"),
    Sentence(
        "need.run-out-of-many",
        "several spots: the whole panel, gap to gap or faded over at least {fade_m:cm .0f}",
    ),
    # faults: name, how it is seen, where it comes from
    Sentence("defect.clouds.title", "Clouds"),
    Sentence("defect.clouds.sign", "patches seen at a slant that move with the eye"),
    Sentence(
        "defect.clouds.causes", "too wet, flash too short, reducer too fast, pressure off, uneven overlap"
    ),
    Sentence("defect.stripes.title", "Stripes"),
    Sentence("defect.stripes.sign", "parallel bands in light from the side"),
    Sentence("defect.stripes.causes", "too little overlap, distance or speed changed, fan partly blocked"),
    Sentence("defect.dry_spray.title", "Dry spray at a join"),
    Sentence("defect.dry_spray.sign", "a rough, greyish matt band"),
    Sentence(
        "defect.dry_spray.causes", "join too old, gun too far, air too warm or fast, overspray on set paint"
    ),
    Sentence("defect.dark_ring.title", "Dark ring at the fade"),
    Sentence("defect.dark_ring.sign", "a ring seen from the side, where the fade ends"),
    Sentence(
        "defect.dark_ring.causes",
        "dry edge over bare old clear, ground coat fades too far, too many passes at the edge, no wet bed",
    ),
    Sentence("defect.not_hidden.title", "Ground coat does not hide"),
    Sentence("defect.not_hidden.sign", "dark spots over filler or primer; the hiding card still shows black"),
    Sentence("defect.not_hidden.causes", "undercoat of the wrong lightness, thinned too far, half overlap"),
    Sentence("defect.ground_damp.title", "Ground coat damp when judged or coated"),
    Sentence("defect.ground_damp.sign", "reads too dark, darkest at the lower edge"),
    Sentence("defect.ground_damp.causes", "impatience, cold or damp air"),
    Sentence("defect.too_many_effect_coats.title", "Too many effect coats"),
    Sentence("defect.too_many_effect_coats.sign", "yellow or dark from the side, against the let-down panel"),
    Sentence(
        "defect.too_many_effect_coats.causes", "wrong count, slow hand, overlap above that of the panel"
    ),
    Sentence("defect.too_few_effect_coats.title", "Too few effect coats"),
    Sentence(
        "defect.too_few_effect_coats.sign", "pale from the side, little sparkle, against the let-down panel"
    ),
    Sentence("defect.too_few_effect_coats.causes", "let-down panel sprayed with other settings, fast hand"),
    Sentence("defect.flop_off.title", "Colour is off from the side"),
    Sentence("defect.flop_off.sign", "matches from the front, not from 15 or 110 degrees"),
    Sentence("defect.flop_off.causes", "flakes stand (dry, high pressure) or lie (wet)"),
    Sentence("defect.dark_edges.title", "Dark edges"),
    Sentence("defect.dark_edges.sign", "a dark outline of panels and gaps"),
    Sentence("defect.dark_edges.causes", "double passes at turns, band laid too wet"),
    Sentence("defect.dirt.title", "Dirt nib"),
    Sentence("defect.dirt.sign", "a lamp at a slant, a finger on dry film"),
    Sentence("defect.dirt.causes", "not blown off, overall, filter, static"),
    Sentence("defect.craters.title", "Craters"),
    Sentence("defect.craters.sign", "round holes that open while the film is wet"),
    Sentence("defect.craters.causes", "oil, silicone or water on the panel or in the air line"),
    Sentence("defect.sag.title", "Sag"),
    Sentence("defect.sag.sign", "a curtain, seen while it moves"),
    Sentence("defect.sag.causes", "too wet, too slow, too close"),
    Sentence("defect.water_marks.title", "Whitish film or water marks"),
    Sentence("defect.water_marks.sign", "milky until it is dry"),
    Sentence("defect.water_marks.causes", "film too thick, cold, damp air"),
    Sentence("defect.solvent_pop.title", "Solvent pop"),
    Sentence("defect.solvent_pop.sign", "pinholes over a whole panel; dirt lies at random"),
    Sentence(
        "defect.solvent_pop.causes",
        "clear too thick, base damp, hardener too fast, bake too early or too hot",
    ),
    Sentence("defect.die_back.title", "Gloss dies back"),
    Sentence("defect.die_back.sign", "gloss falls within days"),
    Sentence("defect.die_back.causes", "base thick or damp, film outside {film_um:g}, bake too short"),
    Sentence("defect.peeling.title", "Clear lets go"),
    Sentence("defect.peeling.sign", "chips, or tape lifts it"),
    Sentence("defect.peeling.causes", "more than 24 h between effect coat and clear, dirt, base too thick"),
    Sentence("defect.cut_through.title", "Polished through into the effect coat"),
    Sentence("defect.cut_through.sign", "colour on the pad"),
    Sentence("defect.cut_through.causes", "clear thin, edge"),
    Sentence("defect.ran_out.title", "Ran out of paint in the coat"),
    Sentence("defect.ran_out.sign", "the gun spits"),
    Sentence("defect.ran_out.causes", "no refill planned, film heavier than planned"),
)
