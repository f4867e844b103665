"""Water that drops lose between gun and panel."""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from laydown.physics.air import (
    VAPOUR_GAS_J_G_K,
    ZERO_C_IN_KELVIN,
    diffusivity_m2_s,
    latent_j_g,
    psat_fast_pa,
    vapour_pa,
)
from laydown.physics.film.rates import CHI
from laydown.physics.values import Floats, Values, require_between

NEAREST_M: Final = 0.08
"""Shortest gun distance [m]; assumption."""

FARTHEST_M: Final = 0.40
"""Longest gun distance [m]; assumption."""

_AIR_VISCOSITY_M2_S: Final = 1.5e-5
_AIR_CONDUCTIVITY_W_M_K: Final = 0.0258
_PRANDTL: Final = 0.71
_SOLIDS_HEAT_SHARE: Final = 1.2
"""Weight of the dry part in a drop's heat capacity, over water's mass [1]; assumption."""
_DROP_HEAT_J_KG_K: Final = 3500.0
_FASTEST_M_S: Final = 80.0
_FIRST_M: Final = 0.01
_STEP_M: Final = 0.005


@dataclass(frozen=True, slots=True)
class Jet:
    """A gun's jet and its drops; all defaults are assumptions (from memory, not measured on a gun)."""

    speed_m_s: float = 10.0
    """Drop speed 0.2 m from the gun [m/s]; falls with the distance."""
    slip_m_s: float = 3.0
    """Drop against surrounding air [m/s]."""
    dry_air_share: float = 0.10
    """Share of dry compressed air in the jet 0.2 m from the gun; falls with the distance."""
    median_um: float = 35.0
    """Half of the mass is in drops smaller than this [um]."""
    spread: float = 2.4
    """Exponent of the Rosin-Rammler distribution [1]."""
    caught_um: float = 12.0
    """Half of the drops of this size follow the air past the panel [um]."""


def drop_loss_share(
    diameter_um: Floats,
    distance_m: Floats,
    temperature_c: float,
    rh: float,
    *,
    water_share: float = 0.70,
    jet: Jet | None = None,
) -> Floats:
    r"""Return the share of its water each drop has lost at each distance, (distance, drop).

    Parameters
    ----------
    diameter_um
        Drops as they leave the gun [um], 5 to 150.
    distance_m
        Gun distances [m], 0.08 to 0.40.
    temperature_c, rh
        Booth air [degC], 5 to 45, and its relative humidity as a share; the paint starts at air temperature.
    water_share
        Water in the mix by mass, above 0 to 0.95.
    jet
        Speed, slip and dry air of the jet; the assumed one if left out.

    Raises
    ------
    ValueError
        If an argument is out of range.

    Notes
    -----
    .. math:: m' = -\pi d \, Sh \, D \frac{a_w p_{sat}(T_d) - p_a}{R_w T_d}, \quad Sh = 2 + 0.6 Re^{1/2} Sc^{1/3}

    with the drop's temperature from its own heat balance: a drop of 40 um needs longer to cool to the wet bulb
    (20 ms) than it flies (10 ms). Flight time grows with the distance squared, as the jet slows.

    Sources
    -------
    Ranz and Marshall 1952 for both transfers. Jet and drops: assumptions.
    """
    jet = Jet() if jet is None else jet
    require_between("diameter_um", diameter_um, 5.0, 150.0)
    require_between("distance_m", distance_m, NEAREST_M, FARTHEST_M)
    require_between("temperature_c", temperature_c, 5.0, 45.0)
    require_between("water_share", water_share, 0.01, 0.95)
    farthest = float(np.max(distance_m))
    path = np.linspace(_FIRST_M, farthest, math.ceil((farthest - _FIRST_M) / _STEP_M) + 1)
    left = _water_left(
        diameter_um * 1e-6, path, (temperature_c, float(vapour_pa(temperature_c, rh))), water_share, jet
    )
    lost = 1.0 - left / left[0]
    return np.stack([np.interp(distance_m, path, column) for column in lost.T], axis=-1)


def water_loss_share(
    distance_m: Values,
    temperature_c: float,
    rh: float,
    *,
    water_share: float = 0.70,
    jet: Jet | None = None,
) -> Values:
    """Return the share of its water the paint that lands has lost in flight.

    Parameters
    ----------
    distance_m
        Gun distance [m], 0.08 to 0.40.
    temperature_c, rh
        Booth air [degC], 5 to 45, and its relative humidity as a share.
    water_share
        Water in the mix by mass, above 0 to 0.95.
    jet
        Speed, slip, dry air and drop sizes; the assumed ones if left out.

    Raises
    ------
    ValueError
        If an argument is out of range.

    Notes
    -----
    Mean over the drops by mass, the finest ones weighed down because they follow the air past the panel.
    For the coat a small effect (2 to 16 %); the fine fringe of the fan loses several times as much.

    Sources
    -------
    Rosin and Rammler 1933 for the sizes; its constants are assumptions.
    """
    jet = Jet() if jet is None else jet
    sizes_um = np.linspace(8.0, 110.0, 40)
    below = -np.expm1(-np.log(2.0) * (sizes_um / jet.median_um) ** jet.spread)
    weight = np.gradient(below, sizes_um) / (1.0 + (jet.caught_um / sizes_um) ** 4)
    distances = np.atleast_1d(np.asarray(distance_m, dtype=float))
    lost = drop_loss_share(sizes_um, distances, temperature_c, rh, water_share=water_share, jet=jet)
    mean: Floats = lost @ (weight / weight.sum())
    return mean if np.ndim(distance_m) else float(mean[0])


def _water_left(
    size_m: Floats, path_m: Floats, air: tuple[float, float], water_share: float, jet: Jet
) -> Floats:
    """Follow water of each drop along the path [kg], (place, drop)."""
    temperature_c, booth_pa = air
    volume = np.pi / 6.0 * size_m**3
    water, rest = 1000.0 * water_share * volume, (1.0 - water_share) * volume
    drop_c = np.full_like(size_m, temperature_c)
    diffusivity = float(diffusivity_m2_s(temperature_c))
    schmidt = _AIR_VISCOSITY_M2_S / diffusivity
    places = [water]
    for near, far in pairwise(path_m.tolist()):
        middle = 0.5 * (near + far)
        step_s = (far - near) / min(_FASTEST_M_S, jet.speed_m_s * 0.2 / middle)
        air_pa = booth_pa * (1.0 - min(1.0, jet.dry_air_share * 0.2 / middle))
        drop_m = np.cbrt(6.0 / np.pi * (water / 1000.0 + rest))
        blown = 0.6 * np.sqrt(jet.slip_m_s * drop_m / _AIR_VISCOSITY_M2_S)
        vapour_m3_s = np.pi * drop_m * diffusivity * (2.0 + blown * schmidt ** (1.0 / 3.0))
        heat_w_k = np.pi * drop_m * _AIR_CONDUCTIVITY_W_M_K * (2.0 + blown * _PRANDTL ** (1.0 / 3.0))
        for _ in range(2):
            drop_c, water = _flown(
                drop_c, water, rest, (0.5 * step_s, vapour_m3_s, heat_w_k, air_pa, temperature_c)
            )
        places.append(water)
    return np.stack(places)


def _flown(
    drop_c: Floats, water: Floats, rest: Floats, flight: tuple[float, Floats, Floats, float, float]
) -> tuple[Floats, Floats]:
    """Give temperature and water of each drop a moment later; implicit in both, so neither overshoots."""
    step_s, vapour_m3_s, heat_w_k, air_pa, air_c = flight
    wet = water / 1000.0
    dry = rest / (wet + rest)
    activity = np.minimum((1.0 - dry) * np.exp(dry + CHI * dry * dry), 1.0)
    saturated = psat_fast_pa(drop_c)
    per_pa = vapour_m3_s / (1000.0 * VAPOUR_GAS_J_G_K * (drop_c + ZERO_C_IN_KELVIN))
    loss = per_pa * (activity * saturated - air_pa)
    latent = 1000.0 * latent_j_g(drop_c)
    capacity = _DROP_HEAT_J_KG_K * (water + 1000.0 * _SOLIDS_HEAT_SHARE * rest)
    stiffness = heat_w_k + latent * per_pa * activity * saturated * 0.065
    warmer = drop_c + (heat_w_k * (air_c - drop_c) - latent * loss) * step_s / (capacity + stiffness * step_s)
    kept = water / (1.0 + np.maximum(loss, 0.0) * step_s / water)
    return warmer, kept
