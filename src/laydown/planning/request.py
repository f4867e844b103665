"""What the planner is asked, and what it gives back."""

from dataclasses import dataclass

from laydown.schema.job import Job
from laydown.schema.maps import Maps
from laydown.schema.plan import Plan
from laydown.schema.product import Product
from laydown.schema.reading import Readings
from laydown.schema.side import Side


@dataclass(frozen=True, slots=True)
class Products:
    """The three products of a job.

    Attributes
    ----------
    ground, effect, clear
        One for each layer.
    """

    ground: Product
    effect: Product
    clear: Product


@dataclass(frozen=True, slots=True)
class Request:
    """Everything a plan is made from; no clock and no file is read behind it.

    Attributes
    ----------
    job, side, products
        Read and checked.
    version
        Version of the program, printed in the plan.
    made_at
        Time of making as ISO 8601 text, or None so that the same job gives the same bytes.
    readings
        What an instrument read on let-down panel and car, all in CIELAB; None without.
    """

    job: Job
    side: Side
    products: Products
    version: str
    made_at: str | None = None
    readings: Readings | None = None


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan with its maps.

    Attributes
    ----------
    plan
        The plan document.
    maps
        Fields for pictures; not part of the document.
    """

    plan: Plan
    maps: Maps
