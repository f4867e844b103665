"""Scales of the maps: limits of classes, their colours, and the bar that explains them."""

from dataclasses import dataclass
from math import ceil, floor, log10

from laydown.report.kit.style import FILM_OVER, FILM_UNDER, PAPER, RAMP
from laydown.schema.coat import CoatMap
from laydown.words.show import ENGLISH, Words

_FILM_RATIOS = (0.70, 0.77, 0.84, 0.91, 0.97, 1.03, 1.10, 1.19, 1.29, 1.40)
_AGE_LIMITS = (0.175, 0.35, 0.525, 0.70, 0.85, 1.00, 1.25, 1.50)
_SEEN_LIMITS = (0.5, 1.0, 2.0)
AGE_BANDS = ((0.0, 0.7, "wet"), (0.7, 1.0, "tight"), (1.0, 1.5, "closed"))
"""Age of an edge over its open time, and the label of what it means."""

SEEN_BANDS = ((0.0, 0.5, "not_seen"), (0.5, 1.0, "good"), (1.0, 2.0, "to_blend"), (2.0, 3.0, "visible"))
"""CIEDE2000 and the label of what it means; house bands, assumption."""

_DRY_STEPS = 8
_LEAST_DRY_G_M2 = 1.0


@dataclass(frozen=True, slots=True)
class MapScale:
    """How a field is coloured."""

    edges: tuple[float, ...]
    colours: tuple[str, ...]
    ticks: tuple[tuple[float, str], ...]
    bands: tuple[tuple[float, float, str], ...]
    unit: str
    contours: tuple[float, ...]
    under: int | None
    over: int | None


def scale_of(field: CoatMap, words: Words = ENGLISH) -> MapScale:
    """Choose the scale of a field by its kind."""
    if field.kind == "film":
        return _film_scale(field, words)
    if field.kind == "age":
        return MapScale(
            _AGE_LIMITS,
            ramp_colours(len(_AGE_LIMITS) + 1),
            tuple((share, words.amount(share, "age_share", ".0f")) for share in (0.0, 0.7, 1.0, 1.5)),
            tuple((low, high, words.word("age_band", band)) for low, high, band in AGE_BANDS),
            words.say("scale-open-time"),
            (0.7, 1.0),
            None,
            None,
        )
    if field.kind == "appearance":
        return MapScale(
            _SEEN_LIMITS,
            ramp_colours(len(_SEEN_LIMITS) + 1),
            ((0.0, "0"), (0.5, "0.5"), (1.0, "1"), (2.0, "2"), (3.0, "3")),
            tuple((low, high, words.word("seen", band)) for low, high, band in SEEN_BANDS),
            field.unit,
            _SEEN_LIMITS,
            None,
            None,
        )
    top = round_up(max(field.worst, _LEAST_DRY_G_M2))
    edges = tuple(top * step / _DRY_STEPS for step in range(1, _DRY_STEPS))
    ticks = ((0.0, "0"), *((value, words.amount(value, "dry_g_m2", "~g")) for value in (top / 2, top)))
    bands = ((0.0, top / 2, words.say("scale-little")), (top / 2, top, words.say("scale-rough")))
    return MapScale(edges, ramp_colours(_DRY_STEPS), ticks, bands, _film_unit(words), (top / 2,), None, None)


def _film_scale(field: CoatMap, words: Words) -> MapScale:
    """Scale about the target."""
    edges = tuple(ratio * field.target for ratio in _FILM_RATIOS)
    ticks = (
        (0.7 * field.target, words.amount(0.7 * field.target, "film_g_m2", "~.0f")),
        (field.target, words.say("scale-target", film_g_m2=field.target)),
        (1.4 * field.target, words.amount(1.4 * field.target, "film_g_m2", "~.0f")),
    )
    half = len(edges) // 2
    colours = tuple(blend(FILM_UNDER, PAPER, step / half) for step in range(half)) + tuple(
        blend(PAPER, FILM_OVER, step / half) for step in range(half + 1)
    )
    bands = (
        (0.7 * field.target, edges[3], words.say("scale-thin")),
        (edges[6], 1.4 * field.target, words.say("scale-thick")),
    )
    return MapScale(edges, colours, ticks, bands, _film_unit(words), (edges[3], edges[6]), 3, 7)


def _film_unit(words: Words) -> str:
    """Unit of a film as it is shown."""
    return words.amount(1.0, "film_g_m2").partition(" ")[2]


def round_up(value: float) -> float:
    """Round up to 1, 2 or 5 times a power of ten."""
    power = 10.0 ** floor(log10(value))
    return next(step * power for step in (1.0, 2.0, 5.0, 10.0) if ceil(value / power * 1e6) <= step * 1e6)


def ramp_colours(count: int) -> tuple[str, ...]:
    """Pick colours from the ramp, light to dark."""
    colours = []
    for index in range(count):
        place = index / (count - 1) * (len(RAMP) - 1)
        low = min(int(place), len(RAMP) - 2)
        colours.append(blend(RAMP[low], RAMP[low + 1], place - low))
    return tuple(colours)


def blend(first: str, second: str, share: float) -> str:
    """Mix two colours."""
    parts = (slice(1, 3), slice(3, 5), slice(5, 7))
    mixed = (round(int(first[part], 16) * (1 - share) + int(second[part], 16) * share) for part in parts)
    return "#" + "".join(f"{value:02X}" for value in mixed)
