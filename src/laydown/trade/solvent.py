"""Solvent content of a mix: two numbers with two names, or a plain "not computable".

Sources: mass and volume balance; definition, unless a function names its own.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from laydown.schema.message import Saying, message
from laydown.schema.product import RecipeLine

WATER_DENSITY_G_ML = 0.9982
"""Water at 20 °C [g/mL]; IAPWS-95. Lines of water must use it too, or added water changes the result."""

LOW_SOLIDS_VOLUME_FRACTION = 0.02
"""Share of the volume, water and exempt taken out, from which on the regulatory number means nothing.

Assumption: at 2 % or less it is a quotient of two small numbers.
"""

G_PER_KG = 1000.0
"""Grams per millilitre are a thousand times grams per litre; definition."""


@dataclass(frozen=True, slots=True)
class NotComputable:
    """A number that cannot be given, and why; never a zero in its place.

    Attributes
    ----------
    reason
        Why, in plain words.
    missing
        What is missing, as "line: field".
    """

    reason: Saying
    missing: tuple[str, ...] = ()


def voc_material_g_l(lines: Sequence[RecipeLine], masses_g: Sequence[float]) -> float | NotComputable:
    """Return the solvent per litre of the mix as it is, water counted in the volume [g/L].

    Parameters
    ----------
    lines, masses_g
        Recipe and grams of each line [g].

    Returns
    -------
    The estimate, or what is missing for it. A missing figure is never taken as 0.

    Notes
    -----
    ``1000 sum(m voc) / sum(m / rho)``; the number for ledgers of what was emitted.         (1)

    Sources
    -------
    "Actual" or "material" VOC of the South Coast rules; shape of 40 CFR 59.104(a)(1).
    """
    missing = _missing(lines, masses_g, ("density_g_ml", "voc_mass_fraction"))
    if missing:
        return NotComputable(message("solvent.sheet-is-silent"), missing)
    volume_ml = _sum(lines, masses_g, "density_g_ml", divide=True)
    if not volume_ml > 0.0:
        return NotComputable(message("solvent.nothing-mixed"))
    return G_PER_KG * _sum(lines, masses_g, "voc_mass_fraction") / volume_ml


def voc_regulatory_g_l(lines: Sequence[RecipeLine], masses_g: Sequence[float]) -> float | NotComputable:
    """Return the solvent per litre with water and exempt compounds taken out of the volume [g/L].

    Parameters
    ----------
    lines, masses_g
        Recipe and grams of each line [g].

    Returns
    -------
    The estimate, or why there is none: figures missing, or so little left beside water and exempt
    compounds (2 % of the volume) that only the material number means something.

    Notes
    -----
    ::

        1000 sum(m voc) / (sum(m / rho) - sum(m water) / rho_water - sum(m exempt / rho_exempt))   (1)

    Added water changes nothing. This is the number the EU rule for refinish products and the US rule
    compare with their limits; the label's value is the legal one, this one is an estimate.

    Sources
    -------
    40 CFR 59.104(a)(1); Directive 2004/42/EC Annex II B.
    """
    missing = _missing(lines, masses_g, ("density_g_ml", "voc_mass_fraction", "water_mass_fraction"))
    missing += tuple(
        f"{line.name}: exempt_density_g_ml"
        for line, mass in zip(lines, masses_g, strict=True)
        if mass > 0.0 and line.exempt_mass_fraction and line.exempt_density_g_ml is None
    )
    if missing:
        return NotComputable(message("solvent.sheet-is-silent"), missing)
    volume_ml = _sum(lines, masses_g, "density_g_ml", divide=True)
    water_ml = _sum(lines, masses_g, "water_mass_fraction") / WATER_DENSITY_G_ML
    exempt_ml = math.fsum(
        mass * line.exempt_mass_fraction / line.exempt_density_g_ml
        for line, mass in zip(lines, masses_g, strict=True)
        if line.exempt_mass_fraction and line.exempt_density_g_ml
    )
    left_ml = volume_ml - water_ml - exempt_ml
    if not left_ml > LOW_SOLIDS_VOLUME_FRACTION * volume_ml:
        return NotComputable(message("solvent.almost-all-water"))
    return G_PER_KG * _sum(lines, masses_g, "voc_mass_fraction") / left_ml


def _missing(
    lines: Sequence[RecipeLine], masses_g: Sequence[float], fields: Sequence[str]
) -> tuple[str, ...]:
    """Figures that lines with mass do not state."""
    return tuple(
        f"{line.name}: {field}"
        for line, mass in zip(lines, masses_g, strict=True)
        for field in fields
        if mass > 0.0 and getattr(line, field) is None
    )


def _sum(
    lines: Sequence[RecipeLine], masses_g: Sequence[float], field: str, *, divide: bool = False
) -> float:
    """Sum of mass times, or over, a figure that every line with mass states."""
    return math.fsum(
        mass / getattr(line, field) if divide else mass * getattr(line, field)
        for line, mass in zip(lines, masses_g, strict=True)
        if mass > 0.0
    )


def voc_mass_fraction(lines: Sequence[RecipeLine], masses_g: Sequence[float]) -> float | NotComputable:
    """Return the solvent's share of the mass of a mix, 0 to 1; weighted by mass, never by volume.

    Parameters
    ----------
    lines, masses_g
        Lines of a recipe and the mass of each [g].
    """
    missing = _missing(lines, masses_g, ("voc_mass_fraction",))
    if missing:
        return NotComputable(message("solvent.sheet-is-silent"), missing)
    total_g = math.fsum(masses_g)
    if not total_g > 0.0:
        return NotComputable(message("solvent.nothing-mixed"))
    return _sum(lines, masses_g, "voc_mass_fraction") / total_g
