"""Tape measures of a side: five shipped shapes, own measures on them, and the rules a measure must keep.

Sources: proportions of no vehicle in particular; assumptions.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from types import MappingProxyType
from typing import Literal

from laydown.schema.message import Message, Name, Range, message
from laydown.schema.problem import InputError, Problem

Measures = Mapping[str, float]
"""Tape measures by name, each in metres but for the girth, which is a ratio."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A shipped shape.

    Attributes
    ----------
    kind
        How the side is constructed.
    measures
        Its default tape measures.
    area_scale
        Fitted factor per panel from skin and edges seen square from the side to the planned area.
    """

    kind: Literal["hatch", "saloon", "van"]
    measures: Measures
    area_scale: Mapping[str, float]


_NAMES = [
    "wheelbase_m",
    "front_overhang_m",
    "rear_overhang_m",
    "arch_radius_m",
    "wheel_radius_m",
    "sill_low_m",
    "sill_high_m",
    "waist_front_m",
    "waist_rear_m",
    "glass_top_m",
    "roof_m",
    "door_front_m",
    "door_mid_m",
    "door_rear_m",
    "girth",
    "edge_m",
]


def _shape(kind: Literal["hatch", "saloon", "van"], row: str, scales: Mapping[str, float]) -> Shape:
    """Read one row of the table below; a dash stands where a shape has no such measure."""
    cells = zip(_NAMES, row.split(), strict=True)
    measures = {name: float(cell) for name, cell in cells if cell != "-"}
    return Shape(kind, MappingProxyType(measures), MappingProxyType(dict(scales)))


def _car_scales(wing: float, front: float, rear: float, quarter: float, sill: float) -> dict[str, float]:
    """Name the five factors of a car."""
    return {"front_wing": wing, "front_door": front, "rear_door": rear, "quarter": quarter, "sill": sill}


def _van_scales(wing: float, front: float, sliding: float, rear: float, sill: float) -> dict[str, float]:
    """Name the factors of a van; the side above the doors was estimated together with the rear side."""
    return {
        "front_wing": wing,
        "front_door": front,
        "sliding_door": sliding,
        "rear_side": rear,
        "high_side": rear,
        "sill": sill,
    }


SHAPES: Mapping[str, Shape] = MappingProxyType(
    {
        # Columns in the order of _NAMES.
        "small hatch": _shape(
            "hatch",
            "2.46 .78 .66 .330 .300 .205 .315 .965 1.045 - 1.48 .42 1.435 2.26 1.12 .020",
            _car_scales(1.057, 1.009, 1.054, 1.006, 0.773),
        ),
        "medium hatch": _shape(
            "hatch",
            "2.63 .86 .83 .350 .315 .205 .315 .985 1.065 - 1.48 .47 1.545 2.43 1.12 .020",
            _car_scales(1.165, 1.043, 1.109, 1.119, 0.900),
        ),
        "large saloon": _shape(
            "saloon",
            "2.96 .93 1.14 .365 .345 .205 .330 1.05 1.14 - 1.57 .56 1.680 2.75 1.12 .020",
            _car_scales(1.161, 1.054, 1.018, 1.078, 0.834),
        ),
        "medium van": _shape(
            "van",
            "3.10 .98 1.02 .370 .330 .270 .400 1.13 - 1.72 2.02 .42 1.400 2.58 1.03 .010",
            _van_scales(1.028, 0.979, 1.019, 1.026, 1.029),
        ),
        "large van": _shape(
            "van",
            "3.66 .98 1.10 .400 .345 .330 .470 1.20 - 1.86 2.62 .44 1.500 2.82 1.03 .010",
            _van_scales(1.040, 0.945, 0.949, 1.124, 1.015),
        ),
    }
)
"""Shipped shapes: proportions of no vehicle in particular (assumption), areas fitted to a geometric estimate."""

_ALLOWED: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "wheelbase_m": (2.0, 4.8),
        "front_overhang_m": (0.5, 1.3),
        "rear_overhang_m": (0.4, 2.2),
        "arch_radius_m": (0.28, 0.48),
        "wheel_radius_m": (0.20, 0.47),
        "sill_low_m": (0.12, 0.5),
        "waist_front_m": (0.8, 1.5),
        "roof_m": (1.1, 3.5),
        "girth": (1.0, 1.4),
        "edge_m": (0.0, 0.03),
    }
)
"""Fixed ranges [m, ratio]; assumption: wider than any car or panel van on the road."""

_ALONG = ("front_overhang_m", "rear_overhang_m", "door_front_m", "door_mid_m", "door_rear_m")
_UP = ("sill_low_m", "sill_high_m", "waist_front_m", "waist_rear_m", "glass_top_m")
_PARTNERS: Mapping[str, str] = MappingProxyType(
    {
        "waist_rear_m": "waist_front_m",
        "waist_front_m": "waist_rear_m",
        "sill_high_m": "sill_low_m",
        "sill_low_m": "sill_high_m",
        "wheel_radius_m": "arch_radius_m",
        "arch_radius_m": "wheel_radius_m",
    }
)
"""A measure that is left out follows its given partner before it follows wheelbase or roof."""


def full_measures(shape: str, own: Measures) -> dict[str, float]:
    """Complete own tape measures with those of a shipped shape.

    Parameters
    ----------
    shape
        Name of a shipped shape.
    own
        Own measures, any of them; the rest keep their proportion: measures along the car go with the wheelbase, heights
        with the roof, and a measure with a given partner (arch and wheel, waist front and rear, both ends of the sill)
        with that partner.

    Returns
    -------
    All measures of the shape.

    Raises
    ------
    InputError
        No such shape or measure, or measures outside their ranges; all of them at once.
    """
    if shape not in SHAPES:
        close = get_close_matches(shape, SHAPES, n=1, cutoff=0.4)
        known = tuple(map(Name, SHAPES))
        hint = (
            message("shape.near", near=Name(close[0]), shapes=known)
            if close
            else message("shape.known", shapes=known)
        )
        raise InputError("", (Problem("body.shape", message("shape.unknown", shape=Name(shape)), hint),))
    default = SHAPES[shape].measures
    strange = tuple(_unknown(name, default) for name in own if name not in default)
    if strange:
        raise InputError("", strange)
    ratio = {name: own[name] / default[name] for name in own}
    measures = {name: own.get(name, value * _stretch(name, ratio)) for name, value in default.items()}
    broken = broken_rules(measures, own)
    if broken:
        raise InputError("", broken)
    return measures


def _unknown(name: str, default: Measures) -> Problem:
    """Say that a shape has no such measure."""
    close = get_close_matches(name, default, n=1, cutoff=0.5)
    hint = (
        message("measure.near", near=Name(close[0]))
        if close
        else message("measure.known", measures=tuple(map(Name, default)))
    )
    return Problem(f"body.measures.{name}", message("measure.unknown"), hint)


def _stretch(name: str, ratio: Mapping[str, float]) -> float:
    """Factor on the default of a measure that was not given."""
    partner = _PARTNERS.get(name, "")
    if partner in ratio:
        return ratio[partner]
    if name in _ALONG:
        return ratio.get("wheelbase_m", 1.0)
    return ratio.get("roof_m", 1.0) if name in _UP else 1.0


def broken_rules(measures: Measures, own: Measures) -> tuple[Problem, ...]:
    """List every measure outside its range.

    Parameters
    ----------
    measures
        All measures of a shape.
    own
        Those the user gave, to say which of them to measure again when a derived one breaks a rule.

    Returns
    -------
        One problem per measure, with the range it may lie in; empty when all are good. Nothing is clipped.
    """
    ranges = {**_ALLOWED, **_related(measures)}
    problems = []
    for name, (low, high) in ranges.items():
        value = measures[name]
        if not low - 1e-9 <= value <= high + 1e-9:
            carried = name not in own and bool(own)
            what = _outside(name, value, (low, high), carried=carried)
            hint = message("measure.give-this-too" if carried else "measure.again")
            problems.append(Problem(f"body.measures.{name}", what, hint))
    return tuple(problems)


def _outside(name: str, value: float, allowed: tuple[float, float], *, carried: bool) -> Message:
    """Say that a measure lies outside its range, or that no value fits the others."""
    if name == "girth":
        return message("measure.girth-outside", girth=value, allowed=Range(*allowed))
    if allowed[0] > allowed[1]:
        return message("measure.nothing-fits-carried" if carried else "measure.nothing-fits", length_m=value)
    code = "measure.outside-carried" if carried else "measure.outside"
    return message(code, length_m=value, allowed_m=Range(*allowed))


def _related(m: Measures) -> dict[str, tuple[float, float]]:
    """Ranges that hang on other measures."""
    van = "glass_top_m" in m
    arch, wheel, low = m["arch_radius_m"], m["wheel_radius_m"], m["sill_low_m"]
    last = m["wheelbase_m"] - (arch + 0.05 if van else 0.10)
    ranges = {
        "front_overhang_m": (max(0.5, arch + 0.20), 1.3),
        "rear_overhang_m": (max(0.4, arch + 0.20), 2.2),
        "wheel_radius_m": (0.20, arch - 0.01),
        "sill_high_m": (low + 0.05, min(wheel + 0.8 * arch, m["waist_front_m"] - 0.35)),
        "door_front_m": (arch + 0.02, m["wheelbase_m"]),
        "door_mid_m": (m["door_front_m"] + 0.5, m["wheelbase_m"]),
        "door_rear_m": (m["door_mid_m"] + 0.4, last),
    }
    if van:
        ranges["glass_top_m"] = (m["waist_front_m"] + 0.3, m["roof_m"] - 0.25)
    else:
        ranges["waist_rear_m"] = (m["waist_front_m"] - 0.15, m["waist_front_m"] + 0.15)
        ranges["roof_m"] = (max(1.1, m["waist_rear_m"] + 0.30), 3.5)
    return ranges
