"""What is said of a zone, in the painter's words."""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from laydown.physics.colour.difference import ColourParts, colour_parts
from laydown.physics.colour.letdown import curve
from laydown.physics.colour.unexplained import Cause, advise, explain_residual, residual_of
from laydown.planning.counts.ground_check import GroundRecord
from laydown.planning.counts.readings import PanelReadings
from laydown.planning.counts.zone_verdict import SURE, Judged

SAID_FROM: Final = 0.3
"""A part smaller than this [CIELAB] is not said; assumption."""

_WORDS: Final = (
    ("lightness", "lighter", "darker"),
    ("yellowness", "yellower", "bluer"),
    ("redness", "redder", "greener"),
    ("chroma", "more vivid", "less vivid"),
)


def colour_words(parts: ColourParts) -> tuple[str, ...]:
    """Return how the second colour of a pair differs from the first, the largest part first.

    Parameters
    ----------
    parts
        Difference of one pair of colours.

    Returns
    -------
    Up to four words; none where nothing would be seen.

    Sources
    -------
    Common practice, no source.
    """
    sizes = [(float(getattr(parts, name)), more, less) for name, more, less in _WORDS]
    said = [(abs(size), more if size > 0.0 else less) for size, more, less in sizes if abs(size) >= SAID_FROM]
    return tuple(word for _, word in sorted(said, key=lambda part: -part[0]))


Floats = NDArray[np.float64]

_NEXT = {
    "ground_unchecked": "compare field 0 of the panel with bare ground coat of the car first: filler flap, sill, behind a trim",
    "ground_wrong": "choose another ground variant and spray a new let-down panel; do not change the effect count",
    "beyond_panel": "spray further fields and compare again",
    "below_ground": "check the ground coat: another variant, or a car that is no three-stage colour",
    "either": "the difference will not be seen: spray the lower number",
    "clear": "",
}

_CAUSES: dict[Cause, tuple[str, str, str]] = {
    "ground_light": (
        "the car's ground coat looks lighter",
        "the car's ground coat looks darker",
        "check the ground coat once more; try the next ground variant",
    ),
    "ground_yellow": (
        "the car's ground coat looks yellower, or its clear has aged",
        "the car's ground coat looks bluer",
        "polish the place of reference and read again; try the next ground variant",
    ),
    "flake": (
        "the flakes of the car lie flatter: lighter at the face, darker at the flop",
        "the flakes of the car lie steeper: darker at the face, lighter at the flop",
        "spray a new strip with the gun settings of the car; wetness, pressure and distance turn flakes, coats do not",
    ),
    "tint": (
        "the car is redder at every angle: the tint differs",
        "the car is greener at every angle: the tint differs",
        "try another variant of the effect coat, or blend",
    ),
    "unclear": (
        "no single cause stands out",
        "no single cause stands out",
        "read panel and car again; then try another variant, or blend",
    ),
}


def reason_of(judged: Judged, ground: GroundRecord) -> str:
    """Return why a zone has its verdict.

    Parameters
    ----------
    judged, ground
        The zone and what is known of the ground coat.

    Returns
    -------
    One sentence without a full stop.

    Sources
    -------
    The verdict.
    """
    if not judged.counts or judged.posterior is None or judged.halves is None:
        return judged.reason
    found = judged.posterior
    order = np.argsort(-judged.halves.mass.round(9), kind="stable")
    chances = ", ".join(
        f"{judged.halves.halves[at]:g} in {judged.halves.mass[at] * 100:.0f} of 100 cases"
        for at in order[:2]
        if judged.halves.mass[at] >= 0.01
    )
    parts = [
        f"the car has {found.mean:.1f} coats of the panel, {found.low:.1f} to {found.high:.1f} ({chances})"
    ]
    if judged.misfit_de is not None:
        parts.append(f"what is left is {judged.misfit_de.max():.1f} dE00 at the most")
    parts.append(ground.reason)
    if judged.reason:
        parts.append(judged.reason)
    return "; ".join(parts)


def next_step_of(
    judged: Judged, read: PanelReadings | None, ground: GroundRecord, ordered: float | None
) -> str:
    """Return what a painter does next.

    Parameters
    ----------
    judged, read, ground
        The zone, what was read, and what is known of the ground coat.
    ordered
        The order in coats of the plan; None without one.

    Returns
    -------
    One sentence without a full stop; empty where nothing is left to do.

    Sources
    -------
    Common practice, no source.
    """
    if judged.verdict in {"no_fit", "below_ground"} and read is not None and judged.target is not None:
        return diagnosis(judged, read, ground)
    if judged.verdict == "no_fit":
        return "look again in daylight, at face and flop, dry and only at the cleared half; or read with an instrument"
    if judged.verdict != "undecided" or judged.halves is None or judged.posterior is None:
        return _NEXT[judged.verdict]
    low, high = _two(judged)
    likelier = judged.halves.likeliest
    begin = f"on the panel {low:g} cannot be told from {high:g}"
    if likelier > judged.halves.ordered and judged.halves.mass.max() >= SURE:
        begin = f"{likelier:g} of the panel is likelier, but a coat too many cannot be taken off"
    first = judged.halves.ordered if ordered is None else ordered
    step = f"{begin}: spray {first:g}, let it dry, compare with the car, and keep half a coat ready"
    if read is None or judged.posterior.mean <= 0.0:
        return f"{step}; an instrument or a second strip would tell more"
    more = advise(read.fit, judged.posterior.mean, read.readings, read.sigma, ground.doubt)
    return (
        f"{step}; sure to {more.now:.2f} coats now, to {more.more_readings:.2f} with more readings, to {more.second_strip:.2f} "
        f"with a second strip, to {more.further_field:.2f} with one more field"
    )


def diagnosis(judged: Judged, read: PanelReadings, ground: GroundRecord) -> str:
    """Return what the colour that no number of coats explains looks like: a suggestion to look at.

    Parameters
    ----------
    judged, read, ground
        The zone, what was read, and what is known of the ground coat.

    Returns
    -------
    The likeliest cause and what to try.

    Sources
    -------
    ``laydown.physics.colour.unexplained``.
    """
    if judged.posterior is None or judged.target is None:
        return _CAUSES["unclear"][2]
    coats = judged.posterior.mode
    left = residual_of(read.fit, coats, judged.target.lab, ground.delta)
    found = explain_residual(read.fit, coats, left, read.angles_deg)
    more, less, remedy = _CAUSES[found.cause]
    words = more if found.amplitude >= 0.0 else less
    share = "" if found.cause == "unclear" else f" ({found.explained_share * 100:.0f} % of what is left)"
    return f"perhaps {words}{share}: {remedy}" if found.cause != "unclear" else f"{words}: {remedy}"


def differs_of(judged: Judged, read: PanelReadings, ground: GroundRecord) -> str:
    """Return how the car differs from the panel at its worst angle.

    Parameters
    ----------
    judged, read, ground
        The zone, what was read, and what is known of the ground coat.

    Returns
    -------
    Words with numbers; empty where nothing was read.

    Sources
    -------
    ``laydown.planning.counts.zone_message``.
    """
    if judged.posterior is None or judged.target is None or judged.misfit_de is None:
        return ""
    at = int(judged.misfit_de.argmax())
    lab, _ = curve(read.fit, np.array([judged.posterior.mode]), ground.delta)
    parts = colour_parts(lab[0, at], judged.target.lab[at])
    words = ", ".join(colour_words(parts)) or "nothing to be seen"
    return (
        f"{words} (dL* {float(parts.lightness):+.1f}, dC* {float(parts.chroma):+.1f}, dH* {float(parts.hue):+.1f}, "
        f"da* {float(parts.redness):+.1f}, db* {float(parts.yellowness):+.1f})"
    )


def _two(judged: Judged) -> tuple[float, float]:
    """The two likeliest half coats, the lower first."""
    if judged.halves is None:
        raise ValueError("judged must have half coats")
    order = np.argsort(-judged.halves.mass.round(9), kind="stable")[:2]
    low, high = sorted(float(judged.halves.halves[at]) for at in order)
    return low, high
