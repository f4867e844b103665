"""Rows of the table of solvent limits that ships with laydown and that a shop may confirm."""

from dataclasses import dataclass
from typing import Literal

Region = Literal["none", "eu", "uk", "us", "us-ca", "ca-qc", "other"]
"""Whose rules the shop has switched on; ``none`` shows no legal figure at all."""

LimitBasis = Literal["regulatory", "material"]
"""Which of the two VOC numbers a limit is compared with."""

LimitStanding = Literal["seen", "proposal", "from memory"]
"""How well a row is known: read in a text, read in a proposal, or remembered."""


@dataclass(frozen=True, slots=True)
class VocLimit:
    """One limit on the solvent content of a ready-to-spray product.

    Attributes
    ----------
    region
        Where the limit applies.
    category
        The rule's class of product, in plain words.
    limit_g_l
        The limit [g/L].
    basis
        Whether water and exempt compounds are taken out of the volume (regulatory) or not (material).
    source
        The rule and where it was read.
    standing
        How well the row is known.
    valid_from
        First day it applies, ``YYYY-MM-DD``; ``None``: not known.
    valid_to
        Last day it applies, ``YYYY-MM-DD``; ``None``: no end known.
    confirmed_on
        The day on which the shop checked the row with its authority, ``YYYY-MM-DD``. ``None``: never;
        such a row is not shown.
    """

    region: Region
    category: str
    limit_g_l: float
    basis: LimitBasis
    source: str
    standing: LimitStanding
    valid_from: str | None = None
    valid_to: str | None = None
    confirmed_on: str | None = None
