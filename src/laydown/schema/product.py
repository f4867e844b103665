"""A product: what its data sheet says. What the sheet does not say is left out."""

from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.schema.choices import Reducer
from laydown.schema.figure import SHARE, Figure, TextLength, Within
from laydown.schema.message import message

LineRole = Literal["base", "hardener", "reducer", "adjuster", "water", "other"]
"""What a line does in the mix; it sets the weighing tolerance, the clock and the warnings."""

LineKind = Literal["parts", "percent"]
"""Whether the sheet gives parts of a ratio or a percentage of something poured before."""

Basis = Literal["volume", "mass"]
"""Whether an amount counts millilitres or grams."""

PercentOf = Literal["base", "before", "final"]
"""What a percentage refers to: the base colour, all that is poured so far, or the finished mix."""

DENSITY_HINT = message("weigh-for-the-density")
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

    name: Annotated[str, TextLength(60)]
    role: LineRole
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


LayerName = Literal["ground", "effect", "clear"]
"""The layer a product makes."""


@dataclass(frozen=True, slots=True)
class Hardener:
    """The sheet's rule for hardener.

    Attributes
    ----------
    use
        Whether the sheet requires it, leaves it open or forbids it.
    pot_life_s, pot_life_c
        Life of the hardened mix [s] at a temperature [°C].
    """

    use: Literal["required", "optional", "none"] = "none"
    pot_life_s: Annotated[Figure, Within(60, 864_000)] | None = None
    pot_life_c: Annotated[float, Within(5, 45)] = 20.0


@dataclass(frozen=True, slots=True)
class Flash:
    """The sheet's flash time and the air it holds for.

    Attributes
    ----------
    min_s, max_s
        Ends of the time to uniformly matt, or between clear coats [s].
    temperature_c, rh
        Air it holds for [°C], 0 to 1.
    air
        With blowers or without.
    """

    min_s: Annotated[float, Within(10, 14_400)]
    max_s: Annotated[float, Within(10, 14_400)]
    temperature_c: Annotated[float, Within(5, 45)] = 20.0
    rh: Annotated[float, SHARE] = 0.5
    air: Literal["blowers", "still"] = "blowers"


@dataclass(frozen=True, slots=True)
class Bake:
    """The sheet's bake, judged by metal temperature.

    Attributes
    ----------
    metal_c, time_s
        Metal temperature [°C] to hold for a time [s].
    ramp_min_s
        Shortest heat-up [s].
    max_c
        Metal temperature not to pass [°C].
    """

    metal_c: Annotated[float, Within(20, 150)]
    time_s: Annotated[float, Within(60, 86_400)]
    ramp_min_s: Annotated[float, Within(0, 7200)] = 0.0
    max_c: Annotated[float, Within(20, 180)] | None = None


@dataclass(frozen=True, slots=True)
class Hiding:
    """How well a covering coat hides, from the sheet or a card.

    Attributes
    ----------
    absorption_per_um, scattering_per_um
        Kubelka-Munk K and S in the red, green and blue band, per µm of dry film.
    low_factor, high_factor
        Factors on S at the ends of the middle 90 %.
    source
        Where it comes from.
    """

    absorption_per_um: tuple[float, float, float]
    scattering_per_um: tuple[float, float, float]
    low_factor: Annotated[float, Within(0.1, 1)] = 0.68
    high_factor: Annotated[float, Within(1, 10)] = 1.4
    source: Annotated[str, TextLength(200)] = "not given"


@dataclass(frozen=True, slots=True)
class SheetRange:
    """Air the sheet allows.

    Attributes
    ----------
    temperature_low_c, temperature_high_c
        Booth air [°C].
    rh_low, rh_high
        Relative humidity, 0 to 1.
    """

    temperature_low_c: Annotated[float, Within(0, 45)] = 5.0
    temperature_high_c: Annotated[float, Within(5, 60)] = 45.0
    rh_low: Annotated[float, SHARE] = 0.0
    rh_high: Annotated[float, SHARE] = 1.0


@dataclass(frozen=True, slots=True)
class Product:
    """One paint sheet.

    Attributes
    ----------
    format
        Always "laydown-product/1".
    key
        Name on the shelf.
    kind
        Ground, effect or clear.
    source
        Source of every figure that names none.
    status
        "invented" for demo data; "sheet" or "own tests" otherwise.
    colour
        Word for the colour of a ground coat, used where no hiding figures are given.
    volume_solids
        Share of solids by volume, ready to spray, 0 to 1.
    dry_um_per_coat
        Dry film of one coat [µm].
    density_g_ml
        Ready to spray [g/mL].
    recipe
        Lines in pouring order, without the water that laydown may add.
    reducers
        Speeds of reducer the sheet offers.
    water_max
        Most water that may be added, 0 to 1; left out = none is added.
    water_percent_of, water_basis
        What the sheet's water percentage refers to; left out = ambiguous, laydown asks.
    hardener, flash, bake, hiding, allowed
        Rules of the sheet.
    pot_life_s
        Life of the mix without hardener [s].
    recoat_max_s
        Longest time until the next layer [s].
    coats_min, coats_max
        Range of coats, in halves.
    surface_max_c
        Warmest panel this product may be sprayed on [°C].
    voc_label_g_l
        The label's own value [g/L].
    pressure_bar
        Inlet pressure the sheet names, for the card [bar].
    """

    format: Literal["laydown-product/1"]
    key: Annotated[str, TextLength(60)]
    kind: LayerName
    recipe: tuple[RecipeLine, ...]
    source: Annotated[str, TextLength(200)] = "not given"
    status: Literal["invented", "sheet", "own tests"] = "sheet"
    colour: Literal["white", "light grey", "dark grey", "red", "yellow"] | None = None
    volume_solids: Annotated[Figure, Within(0.03, 0.8)] | None = None
    dry_um_per_coat: Annotated[Figure, Within(0.5, 120)] | None = None
    density_g_ml: Annotated[Figure, Within(0.6, 2.5)] | None = None
    reducers: tuple[Reducer, ...] = ("standard",)
    water_max: Annotated[float, Within(0, 0.3)] | None = None
    water_percent_of: PercentOf | None = None
    water_basis: Literal["volume", "mass"] | None = None
    hardener: Hardener = Hardener()
    flash: Flash | None = None
    pot_life_s: Annotated[float, Within(60, 31_536_000)] | None = None
    recoat_max_s: Annotated[float, Within(60, 31_536_000)] | None = None
    bake: Bake | None = None
    coats_min: Annotated[float, Within(0.5, 8)] | None = None
    coats_max: Annotated[float, Within(0.5, 8)] | None = None
    hiding: Hiding | None = None
    allowed: SheetRange = SheetRange()
    surface_max_c: Annotated[float, Within(10, 80)] | None = None
    voc_label_g_l: Annotated[float, Within(0, 1200)] | None = None
    pressure_bar: Annotated[float, Within(0.5, 4)] | None = None
