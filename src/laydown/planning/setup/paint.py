"""What the planner needs to know of a product, with a default for what its sheet leaves out."""

from dataclasses import dataclass

from laydown.schema.message import Message, Name, message
from laydown.schema.plan import Assumption
from laydown.schema.problem import InputError
from laydown.schema.product import Hiding, Product
from laydown.trade.mixing.recipe import mix_density_g_ml

WATER_DENSITY_G_ML = 0.9982
"""Water at 20 °C [g/mL]; handbook value."""

_DEFAULTS = {
    "volume_solids": {"ground": 0.20, "effect": 0.13, "clear": 0.48},
    "dry_um_per_coat": {"ground": 8.0, "effect": 4.5, "clear": 28.0},
    "density_g_ml": {"ground": 1.15, "effect": 1.03, "clear": 1.00},
}
"""Ready to spray; common practice, no source."""

_COATS = {"ground": (1.5, 4.0), "effect": (2.0, 4.0), "clear": (2.0, 2.0)}
"""Fewest and most coats; common practice, no source."""

CLOSED_G_M2 = 35.0
"""Wet film at which droplets have closed [g/m²]; derived from assumed droplets, range 25 to 55."""

_BANDS = {
    "white": ((0.80, 0.80, 0.78), (0.25, 0.25, 0.25)),
    "light grey": ((0.50, 0.50, 0.50), (0.17, 0.17, 0.17)),
    "dark grey": ((0.06, 0.06, 0.06), (0.03, 0.03, 0.03)),
    "red": ((0.42, 0.018, 0.02), (0.07, 0.03, 0.02)),
    "yellow": ((0.75, 0.42, 0.02), (0.11, 0.10, 0.03)),
}
"""Endless reflectance and S per µm in red, green and blue; house values, to be replaced by a card."""


@dataclass(frozen=True, slots=True)
class Paint:
    """One product as the planner uses it."""

    product: Product
    volume_solids: float
    dry_um: float
    density_g_ml: float
    coats_min: float
    coats_max: float
    assumptions: tuple[Assumption, ...]

    def sheet_g_m2(self) -> float:
        """Return the wet film of one coat by the sheet [g/m²]: dry film over solids times density."""
        return self.dry_um / self.volume_solids * self.density_g_ml

    def dry_um_of(self, wet_g_m2: float) -> float:
        """Return the dry film of a wet film [µm]: the inverse of ``sheet_g_m2``."""
        return wet_g_m2 / self.density_g_ml * self.volume_solids


def _recipe_density(product: Product) -> float | None:
    """Density from the recipe, where every line has one."""
    try:
        return mix_density_g_ml(product.recipe)
    except (InputError, ZeroDivisionError):
        return None


def paint_of(product: Product) -> Paint:
    """Return a product with defaults for what its sheet leaves out.

    Source: Defaults: common practice, no source; each is listed in the plan.
    """
    used: list[Assumption] = []
    kind = product.kind

    def figure(name: str) -> float:
        given = getattr(product, name)
        if given is not None:
            return float(given.value)
        if name == "density_g_ml" and (found := _recipe_density(product)) is not None:
            used.append(Assumption(f"{kind}.{name}", round(found, 4), message("source.from-recipe")))
            return found
        default = _DEFAULTS[name][kind]
        used.append(Assumption(f"{kind}.{name}", default, message("source.default")))
        return default

    fewest, most = _COATS[kind]
    if product.coats_min is None or product.coats_max is None:
        taken = message("taken.from-to", fewest=fewest, most=most)
        used.append(Assumption(f"{kind}.coats", taken, message("source.default")))
    return Paint(
        product,
        figure("volume_solids"),
        figure("dry_um_per_coat"),
        figure("density_g_ml"),
        product.coats_min if product.coats_min is not None else fewest,
        product.coats_max if product.coats_max is not None else most,
        tuple(used),
    )


def bands_of(product: Product) -> tuple[Hiding | None, tuple[float, ...], tuple[float, ...], str]:
    """Return hiding figures of a ground coat."""
    if product.hiding is not None:
        return product.hiding, (), product.hiding.scattering_per_um, product.hiding.source
    endless, scattering = _BANDS[product.colour or "white"]
    word = product.colour or "white (colour not named)"
    return None, endless, scattering, f"hiding strength of {word} assumed, a hiding card would tell"


def hiding_source(product: Product) -> Message:
    """Return where the hiding figures of a ground coat come from."""
    if product.hiding is not None:
        return message("source.as-given", source=Name(product.hiding.source))
    if product.colour:
        return message("hiding-assumed", colour=Name(product.colour))
    return message("hiding-assumed-white")
