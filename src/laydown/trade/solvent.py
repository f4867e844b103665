"""Solvent content of a mix: two numbers with two names, or a plain "not computable".

Sources: mass and volume balance; definition, unless a function names its own.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

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

    reason: str
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
        return NotComputable("the sheet leaves figures out", missing)
    volume_ml = _sum(lines, masses_g, "density_g_ml", divide=True)
    if not volume_ml > 0.0:
        return NotComputable("nothing is mixed")
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
        return NotComputable("the sheet leaves figures out", missing)
    volume_ml = _sum(lines, masses_g, "density_g_ml", divide=True)
    water_ml = _sum(lines, masses_g, "water_mass_fraction") / WATER_DENSITY_G_ML
    exempt_ml = math.fsum(
        mass * line.exempt_mass_fraction / line.exempt_density_g_ml
        for line, mass in zip(lines, masses_g, strict=True)
        if line.exempt_mass_fraction and line.exempt_density_g_ml
    )
    left_ml = volume_ml - water_ml - exempt_ml
    if not left_ml > LOW_SOLIDS_VOLUME_FRACTION * volume_ml:
        return NotComputable("almost all of it is water or exempt: use the material number")
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


def voc_less_water_g_l(
    density_g_ml: float,
    solids_mass_fraction: float,
    water_mass_fraction: float,
    water_density_g_ml: float = WATER_DENSITY_G_ML,
) -> float | NotComputable:
    """Return the regulatory number of one product from its mass shares [g/L].

    Parameters
    ----------
    density_g_ml
        Density of the product [g/mL].
    solids_mass_fraction, water_mass_fraction
        Shares of the mass, 0 to 1; the rest is taken as solvent.
    water_density_g_ml
        Density of water as the source uses it [g/mL].

    Notes
    -----
    ``1000 (1 - solids - water) rho / (1 - water rho / rho_water)``                         (1)

    Sources
    -------
    Paints & Coatings Resource Center, expert archive, March 2004.
    """
    left = 1.0 - water_mass_fraction * density_g_ml / water_density_g_ml
    if not left > LOW_SOLIDS_VOLUME_FRACTION:
        return NotComputable("almost all of it is water: use the material number")
    return G_PER_KG * (1.0 - solids_mass_fraction - water_mass_fraction) * density_g_ml / left


def voc_composite_g_l(ground_g_l: float, effects_g_l: Sequence[float], clear_g_l: float) -> float:
    """Return the solvent content of a whole multistage topcoat [g/L].

    Parameters
    ----------
    ground_g_l, clear_g_l
        Regulatory number of ground coat and clear [g/L].
    effects_g_l
        That of each effect coat; none for a two-stage topcoat [g/L].

    Notes
    -----
    ``(ground + sum(effects) + 2 clear) / (M + 3)`` with M effect coats.                    (1)
    Newer Californian rules judge each coat by itself; there this number has no use.

    Sources
    -------
    Terms from 40 CFR 59.104(a)(2), its shape from memory; the case without effect coats as printed in
    Mojave Desert rule 1116 (1994), definition (3).
    """
    return (ground_g_l + math.fsum(effects_g_l) + 2.0 * clear_g_l) / (len(effects_g_l) + 3)


def voc_mass_fraction(lines: Sequence[RecipeLine], masses_g: Sequence[float]) -> float | NotComputable:
    """Return the solvent's share of the mass of a mix, 0 to 1; weighted by mass, never by volume.

    Parameters
    ----------
    lines, masses_g
        Lines of a recipe and the mass of each [g].
    """
    missing = _missing(lines, masses_g, ("voc_mass_fraction",))
    if missing:
        return NotComputable("the sheet leaves figures out", missing)
    total_g = math.fsum(masses_g)
    if not total_g > 0.0:
        return NotComputable("nothing is mixed")
    return _sum(lines, masses_g, "voc_mass_fraction") / total_g


def voc_emitted_g(
    lines: Sequence[RecipeLine], masses_g: Sequence[float], used_g: float
) -> float | NotComputable:
    """Return the solvent that what was sprayed gives off [g]; leftover and gun wash are counted apart.

    Parameters
    ----------
    lines, masses_g
        Recipe and grams of each line of the mix [g].
    used_g
        How much of the mix was sprayed [g].
    """
    share = voc_mass_fraction(lines, masses_g)
    return share if isinstance(share, NotComputable) else share * used_g
