"""A recipe becomes grams: relative masses, scaling to a batch, density and solids of the mix.

Sources: mass and volume balance, volumes add; definition.
"""

import math
from collections.abc import Sequence
from typing import cast

from laydown.schema.recipe import DENSITY_HINT, RecipeLine
from laydown.trade.recipe_check import RecipeError, RecipeFault, recipe_faults


def relative_masses(lines: Sequence[RecipeLine]) -> tuple[float, ...]:
    """Return the mass of each line, all to one arbitrary scale.

    Parameters
    ----------
    lines
        Recipe in pouring order. Every percentage states its basis and its reference.

    Returns
    -------
    Masses in pouring order; only their ratios mean something.

    Raises
    ------
    RecipeError
        If the recipe has faults; all of them at once. A missing density is a fault only where a volume
        must be turned into a mass or back: it is never taken as 1.

    Notes
    -----
    With a the amount, rho the density and R the volume or mass of the reference::

        m = a rho            parts by volume                          (1)
        m = a                parts by mass                            (2)
        m = a / 100 R rho    percent by volume of R                   (3)
        m = a / 100 R        percent by mass of R                     (4)

    R is the base colour so far, all poured so far, or the finished mix. Lines in per cent of the finished
    mix stand last and share one basis, so R = (all before them) / (1 - sum a / 100).

    Sources
    -------
    Definition; volumes add (ideal mixing), as the formula constants of ASTM D5201-05, 1.3 assume.
    """
    faults = recipe_faults(lines)
    if faults:
        raise RecipeError(faults)
    final_share = sum(line.amount for line in lines if line.kind == "percent" and line.of == "final") / 100.0
    masses: list[float] = []
    before_final: list[float] | None = None
    for line in lines:
        if line.kind == "parts":
            masses.append(line.amount * _per_basis(line))
            continue
        if line.of == "final":
            before_final = before_final if before_final is not None else list(masses)
            reference = _reference(lines, before_final, line) / (1.0 - final_share)
        else:
            reference = _reference(lines, masses, line)
        masses.append(line.amount / 100.0 * reference * _per_basis(line))
    return tuple(masses)


def _per_basis(line: RecipeLine) -> float:
    """Mass of one unit of the line's own basis."""
    return _density(line) if line.basis == "volume" else 1.0


def _density(line: RecipeLine) -> float:
    """Density of a line; every caller has looked for missing ones before."""
    return cast("float", line.density_g_ml)


def _missing_density(index: int, line: RecipeLine) -> RecipeFault:
    return RecipeFault(
        index + 1,
        "density_g_ml",
        f"the density of {line.name} is missing and a volume must become grams",
        DENSITY_HINT,
    )


def _reference(lines: Sequence[RecipeLine], masses: Sequence[float], line: RecipeLine) -> float:
    """Volume or mass that a percentage refers to, from what is poured so far."""
    counted = [
        (mass, poured)
        for mass, poured in zip(masses, lines, strict=False)
        if line.of != "base" or poured.role == "base"
    ]
    if line.basis == "volume":
        return math.fsum(mass / _density(poured) for mass, poured in counted)
    return math.fsum(mass for mass, _ in counted)


def scale(
    lines: Sequence[RecipeLine], *, volume_ml: float | None = None, mass_g: float | None = None
) -> tuple[float, ...]:
    """Return the grams of each line for a wanted volume or mass of finished mix.

    Parameters
    ----------
    lines
        Recipe in pouring order.
    volume_ml, mass_g
        What is wanted [mL] or [g]; exactly one of them, finite and greater than 0.

    Returns
    -------
    Grams of each line, in pouring order [g].

    Raises
    ------
    ValueError
        If not exactly one size is given, or it is not a finite number above 0.
    RecipeError
        If the recipe has faults, or a volume is wanted and a density is missing.

    Notes
    -----
    Grams are exact; volumes are "about": blends of water and alcohol ethers shrink by up to 1 to 2 %
    (from memory), which the ideal mixing used here leaves out.
    """
    if (volume_ml is None) == (mass_g is None):
        raise ValueError("give exactly one of volume_ml and mass_g")
    wanted = volume_ml if volume_ml is not None else mass_g
    if wanted is None or not (math.isfinite(wanted) and wanted > 0.0):
        raise ValueError("volume_ml or mass_g must be a finite number above 0")
    masses = relative_masses(lines)
    whole = mix_volume_ml(lines, masses) if volume_ml is not None else math.fsum(masses)
    return tuple(mass * wanted / whole for mass in masses)


def mix_volume_ml(lines: Sequence[RecipeLine], masses_g: Sequence[float]) -> float:
    """Return the volume of a mix [mL] if volumes add.

    Parameters
    ----------
    lines, masses_g
        Recipe and the grams of each line [g].

    Raises
    ------
    RecipeError
        If a line with mass has no density.
    """
    faults = tuple(
        _missing_density(index, line)
        for index, (line, mass) in enumerate(zip(lines, masses_g, strict=True))
        if mass > 0.0 and line.density_g_ml is None
    )
    if faults:
        raise RecipeError(faults)
    return math.fsum(mass / _density(line) for line, mass in zip(lines, masses_g, strict=True) if mass > 0.0)


def mix_density_g_ml(lines: Sequence[RecipeLine]) -> float:
    """Return the density of the finished mix [g/mL]: sum of masses over sum of volumes."""
    masses = relative_masses(lines)
    return math.fsum(masses) / mix_volume_ml(lines, masses)


def mix_solids_volume_fraction(lines: Sequence[RecipeLine]) -> float | None:
    """Return the share of the finished mix that stays as dry film, by volume; None if a line is silent.

    Parameters
    ----------
    lines
        Lines of a sound recipe.
    """
    masses = relative_masses(lines)
    volume_ml = mix_volume_ml(lines, masses)
    solids = 0.0
    for line, mass in zip(lines, masses, strict=True):
        if line.solids_volume_fraction is None:
            return None
        if mass > 0.0:
            solids += mass / _density(line) * line.solids_volume_fraction
    return solids / volume_ml


def density_from_weighing_g_ml(mass_g: float, volume_ml: float = 100.0) -> float:
    """Return the density of a liquid from a weighed volume [g/mL].

    Parameters
    ----------
    mass_g
        Grams on the scale, cup taken off, greater than 0 [g].
    volume_ml
        What was measured out, greater than 0 [mL].
    """
    if not (mass_g > 0.0 and volume_ml > 0.0):
        raise ValueError("mass_g and volume_ml must be above 0")
    return mass_g / volume_ml
