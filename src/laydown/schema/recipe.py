"""A line of a mixing recipe, as the paint sheet states it."""

from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.schema.bounds import SHARE, Within, Words

Role = Literal["base", "hardener", "reducer", "adjuster", "water", "other"]
"""What a line does in the mix; it sets the weighing tolerance, the clock and the warnings."""

LineKind = Literal["parts", "percent"]
"""Whether the sheet gives parts of a ratio or a percentage of something poured before."""

Basis = Literal["volume", "mass"]
"""Whether an amount counts millilitres or grams."""

PercentOf = Literal["base", "before", "final"]
"""What a percentage refers to: the base colour, all that is poured so far, or the finished mix."""

DENSITY_HINT = "weigh 100 mL of it and divide the grams by 100"
"""How to find a density in the shop."""


@dataclass(frozen=True, slots=True)
class RecipeLine:
    """One line of a recipe, in pouring order; what the sheet leaves out stays ``None``.

    Attributes
    ----------
    name
        What the tin says.
    role
        What the line does in the mix.
    amount
        Parts, or per cent as printed (10 means 10 %). Finite, 0 or more; below 100 if of the final mix.
    kind
        Parts of a ratio or a percentage.
    basis
        By volume or by mass. ``None``: the sheet does not say, which only a percentage may leave open.
    of
        What a percentage refers to. ``None``: the sheet does not say. Ignored for parts.
    density_g_ml
        Density of the liquid as poured [g/mL], 0.6 to 2.5.
    voc_mass_fraction
        Share of the mass that is volatile organic compound, without exempt compounds, 0 to 1.
    water_mass_fraction
        Share of the mass that is water, 0 to 1.
    exempt_mass_fraction
        Share of the mass that is a volatile compound exempt in the region, 0 to 1.
    exempt_density_g_ml
        Density of that exempt compound [g/mL]; needed only where its share is above 0.
    solids_volume_fraction
        Share of the volume that stays as dry film, 0 to 1.
    """

    name: Annotated[str, Words(60)]
    role: Role
    amount: Annotated[float, Within(0, 1e6)]
    kind: LineKind
    basis: Basis | None = None
    of: PercentOf | None = None
    density_g_ml: Annotated[float, Within(0.6, 2.5, DENSITY_HINT)] | None = None
    voc_mass_fraction: Annotated[float, SHARE] | None = None
    water_mass_fraction: Annotated[float, SHARE] | None = None
    exempt_mass_fraction: Annotated[float, SHARE] | None = None
    exempt_density_g_ml: Annotated[float, Within(0.6, 2.5, DENSITY_HINT)] | None = None
    solids_volume_fraction: Annotated[float, SHARE] | None = None
