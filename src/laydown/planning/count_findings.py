"""What there is to fear of the number of coats."""

from collections.abc import Iterator

from laydown.planning.paint import Paint
from laydown.schema.choices import Choices
from laydown.schema.colour import HidingVerdict
from laydown.schema.finding import Finding

SHOWS_DE = 0.5
"""Contrast between two undercoats from which it is still seen, CIEDE2000; a choice."""

BLIND_DE = 1.0
"""Difference a coat makes below which the painter does not see where he was, CIEDE2000; a choice."""


def hiding_findings(verdict: HidingVerdict, computed: float, paint: Paint, choices: Choices) -> list[Finding]:
    """Return what there is to fear of the count of the ground coat.

    Parameters
    ----------
    verdict, computed
        The count with its reason, and what laydown computed.
    paint, choices
        The ground coat, and what the user fixed.

    Returns
    -------
    Findings; may be empty.

    Sources
    -------
    Range of the sheet; blind spraying, islands: common practice, no source.
    """
    found = []
    if choices.ground_coats is not None and choices.ground_coats < computed:
        found.append(
            Finding(
                "care",
                "ground-not-hiding",
                "ground",
                f"{choices.ground_coats:g} ground coats, as fixed, may not hide on {verdict.worst_panel}.",
                verdict.reason,
                (
                    f"plan {computed:g} coats",
                    "spray a hiding card beside the panel and look",
                    "choose a lighter undercoat",
                ),
            )
        )
    if verdict.ground_coats > paint.coats_max:
        found.append(
            Finding(
                "care",
                "ground-beyond-sheet",
                "ground",
                f"{verdict.ground_coats:g} ground coats are more than the sheet's {paint.coats_max:g}.",
                verdict.reason,
                (
                    "choose an undercoat nearer to the colour",
                    "spray a hiding card and look",
                    "ask the paint supplier",
                ),
            )
        )
    if verdict.blind_from_coat is not None:
        found.append(
            Finding(
                "note",
                "blind",
                "ground",
                f"From coat {verdict.blind_from_coat} on the ground coat is sprayed blind: the coat changes too little to see.",
                f"it changes the colour by {verdict.steps_de[verdict.blind_from_coat - 1]:.1f} dE00; below {BLIND_DE:g} nobody sees "
                "where he was",
                (
                    "count the strokes, watch the wet gloss in raking light",
                    "weigh the cup after each section: the plan gives the grams",
                    "stick a hiding card on the masking",
                ),
            )
        )
    return [*found, *_undercoat(verdict)]


def _undercoat(verdict: HidingVerdict) -> Iterator[Finding]:
    """What the undercoat costs: places that stand out, and coats that cannot be seen."""
    if verdict.islands_de and verdict.islands_de[-1] > SHOWS_DE:
        yield Finding(
            "care",
            "islands",
            "ground",
            f"Places with a darker undercoat still show after {verdict.ground_coats:g} ground coats.",
            f"they stand out by {verdict.islands_de[-1]:.1f} dE00 where the film is thin; above {SHOWS_DE:g} it is seen",
            (
                "one light coat more on those places first, then all over",
                "one undercoat all over: islands decide the count, not the mean",
                "look at a hiding card",
            ),
        )
    best = next((one for one in verdict.undercoats if one.best), None)
    if best is None or best.coats is None or verdict.blind_from_coat is None or verdict.blind_from_coat > 2:
        return
    yield Finding(
        "note",
        "undercoat-choice",
        "ground",
        f"An undercoat of L* {best.lightness:.0f} would show where you were: its first coat changes "
        f"{best.first_step_de:.1f} dE00 and {best.coats:g} coats hide it.",
        "a lighter undercoat saves coats and blinds; a darker one shows the coats and costs more of them",
        ("choose it before the undercoat is on; on the one that is there, count strokes and weigh",),
    )
