"""Small things that forms share: plain fields, the clock, the shop's units."""

from collections.abc import Mapping
from datetime import UTC, datetime

from starlette.responses import Response

from laydown.units import System
from laydown.web.door import Call

LONGEST_FIELD = 400_000
"""Characters of one field; assumption, a job file has 4 000."""


def fields_of(call: Call) -> dict[str, str]:
    """Return the plain fields of a form; files are left out.

    Parameters
    ----------
    call
        What the page was given.

    Returns
    -------
    Text by name; of fields with the same name the last one.
    """
    return {name: value[:LONGEST_FIELD] for name, value in call.form.multi_items() if isinstance(value, str)}


def now_text() -> str:
    """Return the time.

    Returns
    -------
    Now in UTC, as ISO 8601 text.
    """
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def age_words(at: str) -> str:
    """Say how long ago something was.

    Parameters
    ----------
    at
        Then, as ISO 8601 text.

    Returns
    -------
    Such as "2 h ago"; empty if the text is no time.
    """
    try:
        seconds = (datetime.now(UTC) - datetime.fromisoformat(at)).total_seconds()
    except (ValueError, TypeError):
        return ""
    if seconds < 90:
        return "just now"
    if seconds < 5400:
        return f"{seconds / 60:.0f} min ago"
    return f"{seconds / 3600:.0f} h ago" if seconds < 129_600 else f"{seconds / 86_400:.0f} days ago"


def system_of(call: Call) -> System:
    """Return the units the shop works in.

    Parameters
    ----------
    call
        What the page was given.

    Returns
    -------
    ``metric`` or ``us``.
    """
    return system_in(call.state.book.settings())


def system_in(settings: Mapping[str, str]) -> System:
    """Return the units that settings name.

    Parameters
    ----------
    settings
        Settings of the shop.

    Returns
    -------
    ``metric`` or ``us``.
    """
    return "us" if settings.get("units") == "us" else "metric"


def attachment(content: str | bytes, name: str, kind: str) -> Response:
    """Return a file to save.

    Parameters
    ----------
    content
        What it holds.
    name
        Its name; only plain letters, digits, hyphens and the ending are kept.
    kind
        Media type.

    Returns
    -------
    The answer.
    """
    stem, _, ending = name.rpartition(".")
    plain = "-".join("".join(sign if sign.isascii() and sign.isalnum() else " " for sign in stem).split())
    named = f"{plain[:60] or 'laydown'}.{ending}"
    return Response(
        content, media_type=kind, headers={"content-disposition": f'attachment; filename="{named}"'}
    )
