"""Reducer classes, extra water, hardener and panel materials as the film model wants them, each with its standing."""

from dataclasses import dataclass, replace
from typing import Final

from laydown.physics.film.wet_film import Wet

MOST_WATER_SHARE: Final = 0.30
"""Most extra water the film model answers for, over the mix before it [g/g]; assumption: the laws hold, but nobody sprays
a base thinned so far, so nothing was compared beyond 0.10."""

HARDENER_SHARE: Final = 0.05
"""Share of an activated mix that is hardener with its solvent [1]; common practice, no source."""

HARDENER_COSOLVENT_SHARE: Final = 0.40
"""Co-solvent in the hardener as poured [1]; the rest counts as solids; assumption."""

HARDENER_THRESHOLD: Final = 0.97
"""Both thresholds of an activated mix over those of the plain one [1]; set to trade ranges."""

OPEN_FRACTION: Final = 0.20
"""Effective binder fraction at which a film closes [1]; set to trade ranges."""

MATT_FRACTION: Final = 0.55
"""Effective binder fraction at which a film looks matt [1]; set to trade ranges."""


@dataclass(frozen=True, slots=True)
class Default:
    """One default with its standing, so that a plan can list what it leaned on."""

    figure: str
    """What it is, as a key."""
    value: float
    unit: str
    source: str
    """A citation, `common practice, no source`, `assumption`, `from memory` or `set to trade ranges`."""


@dataclass(frozen=True, slots=True)
class PanelMaterial:
    """What lies under the paint."""

    density_g_ml: float
    heat_j_g_k: float
    back_w_m2_k: float
    """Heat transfer at its back [W/(m2 K)]."""
    usual_mm: float


REDUCERS: Final = {
    "fast": Wet(0.720, 0.080, 0.200, 300.0, 48.0e3, OPEN_FRACTION, MATT_FRACTION),
    "standard": Wet(0.700, 0.100, 0.200, 100.0, 52.0e3, OPEN_FRACTION, MATT_FRACTION),
    "slow": Wet(0.665, 0.135, 0.200, 55.0, 54.0e3, OPEN_FRACTION, MATT_FRACTION),
}
"""Ready-to-spray mixes with each reducer: water, co-solvent and solids by mass, vapour pressure at 20 degC [Pa],
evaporation enthalpy [J/mol]. Standard resembles butyl glycol (107 Pa, data sheet); slow lies between it and
dipropylene glycol methyl ether (37 Pa, data sheet); shares and fast are set to trade ranges."""

MATERIALS: Final = {
    "steel": PanelMaterial(7.85, 0.47, 4.0, 0.8),
    "aluminium": PanelMaterial(2.70, 0.90, 4.0, 1.0),
    "plastic": PanelMaterial(0.90, 1.90, 2.0, 3.0),
}
"""Materials under the paint: handbook values, from memory; heat transfer at the back is an assumption."""

_TUNED: Final = "set to trade ranges"

_COSOLVENT_SOURCES: Final = {
    "fast": _TUNED,
    "standard": "like butyl glycol, 107 Pa on a supplier's data sheet",
    "slow": "between butyl glycol (107 Pa) and dipropylene glycol methyl ether (37 Pa), suppliers' data sheets",
}


def defaults(reducer: str, *, activated: bool, material: str) -> tuple[Default, ...]:
    """Return the defaults a mix and a panel lean on, each with its standing.

    Parameters
    ----------
    reducer
        `fast`, `standard` or `slow`.
    activated
        Whether hardener is in.
    material
        `steel`, `aluminium` or `plastic`.

    Raises
    ------
    ValueError
        If the reducer or the material is unknown.

    Sources
    -------
    Each entry's own.
    """
    mix, panel = _mix(reducer), _material(material)
    listed = [
        Default("solids_share", float(mix.solids_share), "1", "common practice, no source"),
        Default(f"{reducer}.water_share", float(mix.water_share), "1", _TUNED),
        Default(f"{reducer}.cosolvent_share", float(mix.cosolvent_share), "1", _TUNED),
        Default(f"{reducer}.cosolvent_pa", float(mix.cosolvent_pa), "Pa", _COSOLVENT_SOURCES[reducer]),
        Default("open_fraction", float(mix.open_fraction), "1", _TUNED),
        Default("matt_fraction", float(mix.matt_fraction), "1", _TUNED),
        Default("open_weight", float(mix.open_weight), "1", _TUNED),
        Default("matt_weight", float(mix.matt_weight), "1", _TUNED),
        Default(f"{material}.density_g_ml", panel.density_g_ml, "g/mL", "handbook, from memory"),
        Default(f"{material}.heat_j_g_k", panel.heat_j_g_k, "J/(g K)", "handbook, from memory"),
        Default(f"{material}.back_w_m2_k", panel.back_w_m2_k, "W/(m2 K)", "assumption"),
    ]
    if activated:
        listed += [
            Default("hardener_share", HARDENER_SHARE, "1", "common practice, no source"),
            Default("hardener_cosolvent_share", HARDENER_COSOLVENT_SHARE, "1", "assumption"),
            Default("hardener_threshold", HARDENER_THRESHOLD, "1", _TUNED),
        ]
    return tuple(listed)


def ready_mix(reducer: str, water_share: float, *, activated: bool, solids_share: float | None = None) -> Wet:
    """Return the ready-to-spray mix of a reducer, extra water and hardener.

    Parameters
    ----------
    reducer
        `fast`, `standard` or `slow`.
    water_share
        Extra water over the mix before it, by mass, 0 to 0.30.
    activated
        Whether hardener is in.
    solids_share
        Solids of the mix by mass before extra water and hardener, 0.05 to 0.60, if the data sheet gives them.

    Raises
    ------
    ValueError
        If the reducer is unknown or a share is out of range.

    Notes
    -----
    The sheet's solids displace water and co-solvent alike. Hardener takes the place of 5 % of the mix.

    Sources
    -------
    `defaults` names each with its standing.
    """
    mix = _mix(reducer)
    if not 0.0 <= water_share <= MOST_WATER_SHARE:
        raise ValueError(f"water_share must be within 0 to {MOST_WATER_SHARE:g}")
    water, cosolvent, solids = mix.water_share, mix.cosolvent_share, mix.solids_share
    if solids_share is not None:
        if not 0.05 <= solids_share <= 0.60:
            raise ValueError("solids_share must be within 0.05 to 0.6")
        liquid = (1.0 - solids_share) / (water + cosolvent)
        water, cosolvent, solids = water * liquid, cosolvent * liquid, solids_share
    threshold = 1.0
    if activated:
        kept = 1.0 - HARDENER_SHARE
        water, cosolvent, solids = water * kept, cosolvent * kept, solids * kept
        cosolvent = cosolvent + HARDENER_SHARE * HARDENER_COSOLVENT_SHARE
        solids = solids + HARDENER_SHARE * (1.0 - HARDENER_COSOLVENT_SHARE)
        threshold = HARDENER_THRESHOLD
    whole = 1.0 + water_share
    return replace(
        mix,
        water_share=(water + water_share) / whole,
        cosolvent_share=cosolvent / whole,
        solids_share=solids / whole,
        open_fraction=OPEN_FRACTION * threshold,
        matt_fraction=MATT_FRACTION * threshold,
    )


def panel_capacity_j_m2_k(material: str, thickness_mm: float | None = None) -> float:
    """Find the heat a panel holds [J/(m2 K)].

    Parameters
    ----------
    material
        `steel`, `aluminium` or `plastic`.
    thickness_mm
        Thickness [mm], above 0 to 20; the usual one of the material if left out.

    Raises
    ------
    ValueError
        If the material is unknown or the thickness out of range.

    Sources
    -------
    Density times specific heat times thickness; handbook values, from memory.
    """
    panel = _material(material)
    thickness = panel.usual_mm if thickness_mm is None else thickness_mm
    if not 0.0 < thickness <= 20.0:
        raise ValueError("thickness_mm must be above 0 and at most 20")
    # One millimetre on a square metre is a litre, 1000 mL.
    return panel.density_g_ml * panel.heat_j_g_k * thickness * 1000.0


def back_w_m2_k(material: str) -> float:
    """Find the heat transfer at a panel's back [W/(m2 K)].

    Parameters
    ----------
    material
        `steel`, `aluminium` or `plastic`.

    Raises
    ------
    ValueError
        If the material is unknown.

    Sources
    -------
    Assumption: still air behind a closed panel.
    """
    return _material(material).back_w_m2_k


def _mix(reducer: str) -> Wet:
    """Look a reducer up."""
    if reducer not in REDUCERS:
        raise ValueError(f"reducer must be one of {', '.join(REDUCERS)}")
    return REDUCERS[reducer]


def _material(material: str) -> PanelMaterial:
    """Look a material up."""
    if material not in MATERIALS:
        raise ValueError(f"material must be one of {', '.join(MATERIALS)}")
    return MATERIALS[material]
