"""What may be shown of the rules of a region: only what the shop has switched on and confirmed.

Sources: the rows of data/voc_limits.toml, each with its own source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from laydown.schema.limits import Region, VocLimit

STALE_MONTHS = 24
"""A row confirmed longer ago is shown as unverified [months]; assumption."""


@dataclass(frozen=True, slots=True)
class LimitNote:
    """A limit as it may be shown.

    Attributes
    ----------
    limit_g_l
        The limit on file [g/L].
    verified
        Whether it was confirmed within the last 24 months.
    text
        The sentence to print.
    """

    limit_g_l: float
    verified: bool
    text: str


@dataclass(frozen=True, slots=True)
class CommonRule:
    """A rule that is commonly required in a region.

    Attributes
    ----------
    region
        Where.
    quantity
        What it limits, in house units.
    low, high
        Ends of what is allowed; ``None``: open.
    text
        The rule in plain words.
    source
        Where it was read.
    """

    region: Region
    quantity: str
    low: float | None
    high: float | None
    text: str
    source: str


COMMON_RULES: tuple[CommonRule, ...] = (
    CommonRule(
        "us",
        "booth_air_m_s",
        0.508,
        None,
        "air through an open booth face at 0.51 m/s or more while spraying",
        "mechanical code 502.7.3.3.1; 29 CFR 1910.107(b)(5)(i) as explained in a letter of 2001",
    ),
    CommonRule(
        "us",
        "filter_capture_fraction",
        0.98,
        None,
        "booth filters that hold back 98 % of the mist or more",
        "40 CFR 63 Subpart HHHHHH, guidance pages",
    ),
    CommonRule(
        "us-ca",
        "cap_pressure_bar",
        0.1 * 0.0689475729,
        10.0 * 0.0689475729,
        "low-pressure guns: 0.1 to 10 psi at the air cap",
        "South Coast rule 1151 as quoted in a bulletin of 1991",
    ),
    CommonRule(
        "us-ca",
        "transfer_efficiency",
        0.65,
        None,
        "other guns: 65 % of the solids on the part in the class test",
        "South Coast page on spray equipment",
    ),
)
"""Rules for booth and gun, shown as "commonly required" in their region only."""


def limit_note(region: Region, category: str, rows: Sequence[VocLimit], today: str) -> LimitNote | None:
    """Return the limit that may be shown for a class of product, or nothing.

    Parameters
    ----------
    region
        What the shop has switched on; ``none`` shows nothing.
    category
        Class of product as in the table.
    rows
        The table, with the shop's confirmations.
    today
        ``YYYY-MM-DD``.

    Returns
    -------
    ``None`` unless the region is on and a row that applies today was confirmed with a date.
    """
    if region == "none":
        return None
    for row in rows:
        if row.region == region and row.category == category and row.confirmed_on and _applies(row, today):
            verified = _months(today) - _months(row.confirmed_on) <= STALE_MONTHS
            checked = f"checked {row.confirmed_on}" if verified else f"unverified since {row.confirmed_on}"
            text = (
                f"Limit on file for {row.category}: {row.limit_g_l:g} g/L ({row.source}, {checked}). "
                "Your product label and your authority decide."
            )
            return LimitNote(row.limit_g_l, verified, text)
    return None


def _applies(row: VocLimit, today: str) -> bool:
    """Tell whether a row is in force; ISO dates compare as text."""
    return (row.valid_from or "") <= today and (row.valid_to is None or today <= row.valid_to)


def _months(day: str) -> int:
    """Months since year 0 of an ISO date."""
    year, month = day.split("-")[:2]
    return int(year) * 12 + int(month)


def beside_limit(voc_g_l: float, note: LimitNote) -> str:
    """Return how an estimate lies beside the limit on file; never a word of law.

    Parameters
    ----------
    voc_g_l
        The estimate, on the basis of the limit [g/L].
    note
        The limit as it may be shown.
    """
    return "above the limit on file" if voc_g_l > note.limit_g_l else "below the limit on file"


def commonly_required(region: Region) -> tuple[CommonRule, ...]:
    """Return the rules for booth and gun that may be shown in a region; none where none is on file.

    Parameters
    ----------
    region
        What the shop has switched on; ``us-ca`` shows the national rules too.
    """
    shown = {"us-ca": {"us", "us-ca"}}.get(region, {region})
    return tuple(rule for rule in COMMON_RULES if rule.region in shown)


def breathing_words(region: Region) -> str:
    """Return the name of the breathing protection for hardened mixes, as the region speaks of it.

    Parameters
    ----------
    region
        What the shop has switched on.
    """
    if region in {"uk", "eu"}:
        return "air-fed visor to EN 14594"
    if region in {"us", "us-ca"}:
        return "supplied-air respirator of the type in the shop's written programme"
    return "air-fed breathing apparatus with a visor"
