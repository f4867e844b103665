"""Scales of the maps: limits of classes, their colours, and the bar that explains them."""

from dataclasses import dataclass
from math import ceil, floor, log10

from laydown.report.kit.style import FILM_OVER, FILM_UNDER, PAPER, RAMP
from laydown.schema.coat import CoatMap
from laydown.units import System
from laydown.words.show import retell

_FILM_RATIOS = (0.70, 0.77, 0.84, 0.91, 0.97, 1.03, 1.10, 1.19, 1.29, 1.40)
_AGE_LIMITS = (0.175, 0.35, 0.525, 0.70, 0.85, 1.00, 1.25, 1.50)
_SEEN_LIMITS = (0.5, 1.0, 2.0)
AGE_BANDS = ((0.0, 0.7, "wet"), (0.7, 1.0, "hurry"), (1.0, 1.5, "closed"))
"""Age of an edge over its open time, and what it means."""

SEEN_BANDS = ((0.0, 0.5, "not seen"), (0.5, 1.0, "good"), (1.0, 2.0, "to blend"), (2.0, 3.0, "visible"))
"""CIEDE2000 and what it means; house bands, assumption."""

_DRY_STEPS = 8
_LEAST_DRY_G_M2 = 1.0


@dataclass(frozen=True, slots=True)
class MapScale:
    """How a field is coloured.

    Attributes
    ----------
    edges
        Rising limits between classes.
    colours
        One more than limits.
    ticks
        Value and figure under the bar; the first and the last stand at its ends.
    bands
        Ends and word of each part of the bar that has one, written between the figures.
    unit
        Stands beside the bar.
    contours
        Values that get a line.
    under, over
        Classes up to ``under`` carry level lines, from ``over`` on dots; None: none do.
    """

    edges: tuple[float, ...]
    colours: tuple[str, ...]
    ticks: tuple[tuple[float, str], ...]
    bands: tuple[tuple[float, float, str], ...]
    unit: str
    contours: tuple[float, ...]
    under: int | None
    over: int | None


def scale_of(field: CoatMap, system: System = "metric") -> MapScale:
    """Choose the scale of a field by its kind.

    Parameters
    ----------
    field
        Film, age, dry spray or appearance.
    system
        How figures are shown; limits of classes stay in house units.

    Returns
    -------
    Film: two-sided, 0.7 to 1.4 of the target, symmetric in ratio. Age: shares of the open time with lines at
    the limits of the verdicts. Appearance: limits of what is seen. Dry spray: from none to the worst, rounded up.
    """
    if field.kind == "film":
        return _film_scale(field, system)
    if field.kind == "age":
        return MapScale(
            _AGE_LIMITS,
            ramp_colours(len(_AGE_LIMITS) + 1),
            ((0.0, "0 %"), (0.7, "70 %"), (1.0, "100 %"), (1.5, "150 %")),
            AGE_BANDS,
            "of the open time",
            (0.7, 1.0),
            None,
            None,
        )
    if field.kind == "appearance":
        return MapScale(
            _SEEN_LIMITS,
            ramp_colours(len(_SEEN_LIMITS) + 1),
            ((0.0, "0"), (0.5, "0.5"), (1.0, "1"), (2.0, "2"), (3.0, "3")),
            SEEN_BANDS,
            _unit(field, system),
            _SEEN_LIMITS,
            None,
            None,
        )
    top = round_up(max(field.worst, _LEAST_DRY_G_M2))
    edges = tuple(top * step / _DRY_STEPS for step in range(1, _DRY_STEPS))
    ticks = ((0.0, "0"), *((value, _told(f"{value:g}", field, system)) for value in (top / 2, top)))
    bands = ((0.0, top / 2, "little"), (top / 2, top, "rough"))
    return MapScale(
        edges, ramp_colours(_DRY_STEPS), ticks, bands, _unit(field, system), (top / 2,), None, None
    )


def _film_scale(field: CoatMap, system: System) -> MapScale:
    """Scale about the target."""
    edges = tuple(ratio * field.target for ratio in _FILM_RATIOS)
    low, target, high = (_told(f"{ratio * field.target:.0f}", field, system) for ratio in (0.7, 1.0, 1.4))
    ticks = (
        (0.7 * field.target, low),
        (field.target, f"target {target}"),
        (1.4 * field.target, high),
    )
    half = len(edges) // 2
    colours = tuple(blend(FILM_UNDER, PAPER, step / half) for step in range(half)) + tuple(
        blend(PAPER, FILM_OVER, step / half) for step in range(half + 1)
    )
    bands = (
        (0.7 * field.target, edges[3], "thin"),
        (edges[6], 1.4 * field.target, "thick"),
    )
    return MapScale(edges, colours, ticks, bands, _unit(field, system), (edges[3], edges[6]), 3, 7)


def _told(number: str, field: CoatMap, system: System) -> str:
    """A figure of a field, in the unit that is shown."""
    return retell(f"{number} {field.unit}", system).partition(" ")[0]


def _unit(field: CoatMap, system: System) -> str:
    """Unit of a field as it is shown."""
    return retell(f"1 {field.unit}", system).partition(" ")[2]


def round_up(value: float) -> float:
    """Round up to 1, 2 or 5 times a power of ten.

    Parameters
    ----------
    value
        A number above zero.

    Returns
    -------
    The next such number.
    """
    power = 10.0 ** floor(log10(value))
    return next(step * power for step in (1.0, 2.0, 5.0, 10.0) if ceil(value / power * 1e6) <= step * 1e6)


def ramp_colours(count: int) -> tuple[str, ...]:
    """Pick colours from the ramp, light to dark.

    Parameters
    ----------
    count
        How many, at least two.

    Returns
    -------
    Hex colours.
    """
    colours = []
    for index in range(count):
        place = index / (count - 1) * (len(RAMP) - 1)
        low = min(int(place), len(RAMP) - 2)
        colours.append(blend(RAMP[low], RAMP[low + 1], place - low))
    return tuple(colours)


def blend(first: str, second: str, share: float) -> str:
    """Mix two colours.

    Parameters
    ----------
    first, second
        Hex colours.
    share
        Share of the second, 0 to 1.

    Returns
    -------
    A hex colour.
    """
    parts = (slice(1, 3), slice(3, 5), slice(5, 7))
    mixed = (round(int(first[part], 16) * (1 - share) + int(second[part], 16) * share) for part in parts)
    return "#" + "".join(f"{value:02X}" for value in mixed)
