"""What there is to fear of the number of coats."""

from laydown.planning.paint import Paint
from laydown.schema.colour import ColourVerdict, HidingVerdict
from laydown.schema.choices import Choices
from laydown.schema.finding import Finding

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
    Range of the sheet; blind spraying: common practice, no source.
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
    return found


def colour_findings(
    verdict: ColourVerdict, paint: Paint, fixed: float | None, *, panel: bool
) -> list[Finding]:
    """Return what there is to fear of the count of the effect coat.

    Parameters
    ----------
    verdict
        The count with its reason.
    paint
        The effect coat.
    fixed
        The count the user fixed, if any.
    panel
        Whether fields of a let-down panel stand in the job.

    Returns
    -------
    Findings; may be empty.

    Sources
    -------
    Range of the sheet; no count without a matching ground coat: common practice, no source.
    """
    found = []
    if verdict.verdict == "ground_wrong":
        found.append(
            Finding(
                "stop",
                "ground-wrong",
                "effect",
                "The ground coat does not match the car: no number of effect coats puts that right.",
                "the ground check of the let-down panel says off",
                (verdict.next_step,),
            )
        )
    if fixed is None:
        found.append(
            Finding(
                "care",
                "coats-provisional",
                "effect",
                f"The number of effect coats is provisional: {verdict.low:g} to {verdict.high:g}.",
                verdict.reason,
                (verdict.next_step, "write the count you decide on as choices.effect_coats"),
            )
        )
    elif not paint.coats_min <= fixed <= paint.coats_max:
        found.append(
            Finding(
                "care",
                "effect-beyond-sheet",
                "effect",
                f"{fixed:g} effect coats lie outside the sheet's {paint.coats_min:g} to {paint.coats_max:g}.",
                "the sheet's range of coats",
                ("read the let-down panel again", "ask the paint supplier"),
            )
        )
    if panel and fixed is None:
        found.append(
            Finding(
                "care",
                "panel-not-read",
                "effect",
                "The fields of the let-down panel are kept with the job but not turned into a count.",
                "this version plans with a fixed count or with the range of the sheet",
                ("write the field that matched as choices.effect_coats",),
            )
        )
    return found
