"""What is said of a zone, in the painter's words."""

from typing import Final

import numpy as np

from laydown.physics.colour.difference import ColourParts, colour_parts
from laydown.physics.colour.letdown import curve
from laydown.physics.colour.unexplained import Cause, advise, explain_residual, residual_of
from laydown.planning.counts.ground_check import GroundRecord
from laydown.planning.counts.readings import PanelReadings
from laydown.planning.counts.zone_verdict import SURE, Judged
from laydown.schema.colour import ColourWord
from laydown.schema.message import Message, Said, Saying, message

LEAST_CHANCE: Final = 0.01
"""A half coat with a smaller chance is not said; a choice."""

SAID_FROM: Final = 0.3
"""A part smaller than this [CIELAB] is not said; assumption."""

_LOOKS: Final = (
    ("lightness", "lighter", "darker"),
    ("yellowness", "yellower", "bluer"),
    ("redness", "redder", "greener"),
    ("chroma", "more-vivid", "less-vivid"),
)


def looks_of(parts: ColourParts) -> tuple[str, ...]:
    """Return how the second colour of a pair looks beside the first, as words of a fixed list, the largest part first.

    Source: Common practice, no source.
    """
    sizes = [(float(getattr(parts, name)), more, less) for name, more, less in _LOOKS]
    said = [(abs(size), more if size > 0.0 else less) for size, more, less in sizes if abs(size) >= SAID_FROM]
    return tuple(word for _, word in sorted(said, key=lambda part: -part[0]))


_NEXT: dict[ColourWord, str] = {
    "ground_unchecked": "do.compare-ground-first",
    "ground_wrong": "do.another-ground-variant",
    "beyond_panel": "do.spray-further-fields",
    "below_ground": "do.check-ground-variant",
    "either": "do.spray-lower-unseen",
}
"""What to do next where the verdict alone tells it; nothing where the count is clear."""

_CAUSES: dict[Cause, tuple[str, str, str]] = {
    "ground_light": ("cause.ground-lighter", "cause.ground-darker", "do.check-ground-again"),
    "ground_yellow": ("cause.ground-yellower", "cause.ground-bluer", "do.polish-reference"),
    "flake": ("cause.flakes-flatter", "cause.flakes-steeper", "do.strip-with-car-settings"),
    "tint": ("cause.redder", "cause.greener", "do.another-effect-variant"),
}
"""What a cause looks like in the one direction and in the other, and what helps."""


def reason_of(judged: Judged, ground: GroundRecord) -> Saying:
    """Return why a zone has its verdict."""
    if not judged.counts or judged.posterior is None or judged.halves is None:
        return judged.reason
    found, halves = judged.posterior, judged.halves
    order = np.argsort(-halves.mass.round(9), kind="stable")
    chances = tuple(
        message("half-chance", coats=float(halves.halves[at]), half_chance=float(halves.mass[at]))
        for at in order[:2]
        if halves.mass[at] >= LEAST_CHANCE
    )
    reasons: list[Saying] = [
        message("car-has-coats", mean=found.mean, low=found.low, high=found.high, chances=chances)
    ]
    if judged.misfit_de is not None:
        reasons.append(message("difference-left", difference=float(judged.misfit_de.max())))
    reasons.append(ground.reason)
    if judged.reason:
        reasons.append(judged.reason)
    return message("reasons", reasons=tuple(reasons))


def next_step_of(
    judged: Judged, read: PanelReadings | None, ground: GroundRecord, ordered: float | None
) -> Message | None:
    """Return what a painter does next; None where nothing is left to do.

    Source: Common practice, no source.
    """
    if judged.verdict in {"no_fit", "below_ground"} and read is not None and judged.target is not None:
        return diagnosis(judged, read, ground)
    if judged.verdict == "no_fit":
        return message("do.look-again-or-read")
    if judged.verdict != "undecided" or judged.halves is None or judged.posterior is None:
        return message(_NEXT[judged.verdict]) if judged.verdict in _NEXT else None
    low, high = _two(judged)
    likelier = judged.halves.likeliest
    because = message("halves-not-told-apart", lower=low, higher=high)
    if likelier > judged.halves.ordered and judged.halves.mass.max() >= SURE:
        because = message("likelier-but-too-many", likelier=likelier)
    first = judged.halves.ordered if ordered is None else ordered
    if read is None or judged.posterior.mean <= 0.0:
        return message("do.spray-lower-first", because=because, first=first)
    more = advise(read.fit, judged.posterior.mean, read.readings, read.sigma, ground.doubt)
    return message(
        "do.spray-lower-first-read",
        because=because,
        first=first,
        now=more.now,
        readings=more.more_readings,
        strip=more.second_strip,
        field=more.further_field,
    )


def diagnosis(judged: Judged, read: PanelReadings, ground: GroundRecord) -> Message:
    """Return what the colour that no number of coats explains looks like: a suggestion to look at."""
    if judged.posterior is None or judged.target is None:
        return message("do.read-again")
    coats = judged.posterior.mode
    left = residual_of(read.fit, coats, judged.target.lab, ground.delta)
    found = explain_residual(read.fit, coats, left, read.angles_deg)
    if found.cause == "unclear":
        return message("no-single-cause")
    more, less, remedy = _CAUSES[found.cause]
    return message(
        "perhaps",
        cause=message(more if found.amplitude >= 0.0 else less),
        explained_share=float(found.explained_share),
        remedy=message(remedy),
    )


def differs_of(judged: Judged, read: PanelReadings, ground: GroundRecord) -> Message | None:
    """Return how the car differs from the panel at its worst angle; None where no colour is compared."""
    if judged.posterior is None or judged.target is None or judged.misfit_de is None:
        return None
    at = int(judged.misfit_de.argmax())
    lab, _ = curve(read.fit, np.array([judged.posterior.mode]), ground.delta)
    parts = colour_parts(lab[0, at], judged.target.lab[at])
    figures: dict[str, Said] = {
        name: float(getattr(parts, name)) for name in ("lightness", "chroma", "hue", "redness", "yellowness")
    }
    looks = looks_of(parts)
    if not looks:
        return message("car-looks-alike", **figures)
    return message("car-looks", looks=looks, **figures)


def _two(judged: Judged) -> tuple[float, float]:
    """The two likeliest half coats, the lower first."""
    if judged.halves is None:
        raise ValueError("judged must have half coats")
    order = np.argsort(-judged.halves.mass.round(9), kind="stable")[:2]
    low, high = sorted(float(judged.halves.halves[at]) for at in order)
    return low, high
