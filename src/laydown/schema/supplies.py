"""What is mixed, and what it costs."""

from dataclasses import dataclass

from laydown.schema.figure import Spread
from laydown.schema.message import Saying
from laydown.schema.product import LayerName


@dataclass(frozen=True, slots=True)
class PourLine:
    """One line of the mix sheet: its own step and the running total the scale shows [g]."""

    name: str
    role: str
    step_g: float
    running_g: float


@dataclass(frozen=True, slots=True)
class WaterReading:
    """One way to read "x % water": percent of what, and the grams it gives [g]."""

    reading: Saying
    water_g: float


@dataclass(frozen=True, slots=True)
class Mix:
    """One mix for one layer.

    Attributes
    ----------
    layer, product
        What it is for.
    need_ml, mix_ml, mix_g
        Paint the coats need, and what is mixed with reserve.
    lines
        The mix sheet, cumulative.
    pot_life_s
        Life of the mix at the booth's temperature [s]; None = not on the sheet.
    least_mix_g
        Least amount that can be weighed within tolerance [g].
    voc_material_g_l, voc_regulatory_g_l
        Estimates by both definitions; None = not computable.
    ask
        A question to the data sheet that changes the grams; empty if none.
    readings
        The possible readings of that question.
    """

    layer: LayerName
    product: str
    need_ml: float
    mix_ml: float
    mix_g: float
    density_g_ml: float
    lines: tuple[PourLine, ...]
    pot_life_s: float | None
    least_mix_g: float
    left_over_ml: Spread
    voc_material_g_l: float | None
    voc_regulatory_g_l: float | None
    ask: Saying
    readings: tuple[WaterReading, ...]


@dataclass(frozen=True, slots=True)
class Cost:
    """The job's cost from the user's own prices; what has no price is listed under missing."""

    currency: str
    materials: float | None
    booth: float | None
    labour: float | None
    redo: float | None
    total: float | None
    missing: tuple[Saying, ...]
