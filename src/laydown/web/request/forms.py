"""What a form was made from: it goes out with the form and comes back, so that nobody overwrites what another saved."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime

from starlette.responses import Response

from laydown.reader.decode import Noun, decode
from laydown.reader.encode import given
from laydown.schema.job import Job
from laydown.schema.product import Product
from laydown.store.kept import Kept
from laydown.units import System
from laydown.web.request.door import Call

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


VERSION_FIELD, BEFORE_FIELD = "version", "made_from"
"""Names of the two hidden fields."""

UNKNOWN = -1
"""Version of a form that names none; no row has it."""


@dataclass(frozen=True, slots=True)
class MadeFrom:
    """What a form was made from.

    Attributes
    ----------
    version
        Version of the job, product or side; 0: there was none.
    before
        Its content as JSON text; empty if there was none.
    """

    version: int = 0
    before: str = ""


def made_from(kept: Kept | None) -> MadeFrom:
    """Return what a form is made from.

    Parameters
    ----------
    kept
        The row of the book; None for something new.

    Returns
    -------
    Its version, and its content on one line.
    """
    if kept is None:
        return MadeFrom()
    return MadeFrom(
        kept.version, json.dumps(json.loads(kept.text), ensure_ascii=False, separators=(",", ":"))
    )


def said_made_from(call: Call) -> MadeFrom:
    """Return what a form that came back was made from.

    Parameters
    ----------
    call
        What the page was given.

    Returns
    -------
    Version and content; a form that says nothing was made from an unknown version.
    """
    answers = fields_of(call)
    version = answers.get(VERSION_FIELD, "")
    number = int(version) if version.isascii() and version.isdigit() and len(version) < 10 else UNKNOWN
    return MadeFrom(number, answers.get(BEFORE_FIELD, ""))


def without_made_from(answers: Mapping[str, str]) -> dict[str, str]:
    """Return the fields that somebody filled in.

    Parameters
    ----------
    answers
        Fields of a form.

    Returns
    -------
    Without those that a form carries for itself.
    """
    return {
        name: text for name, text in answers.items() if name not in {VERSION_FIELD, BEFORE_FIELD, "token"}
    }


def job_before(made: MadeFrom) -> Job | None:
    """Return the job that a form was made from.

    Parameters
    ----------
    made
        What the form said.

    Returns
    -------
    The job; None where it said nothing that can be read.
    """
    return _before(Job, made)


def product_before(made: MadeFrom) -> Product | None:
    """Return the product that a form was made from.

    Parameters
    ----------
    made
        What the form said.

    Returns
    -------
    The product; None where it said nothing that can be read.
    """
    return _before(Product, made)


def _before(noun: type[Noun], made: MadeFrom) -> Noun | None:
    """Read what a form was made from."""
    try:
        raw = json.loads(made.before)
    except (ValueError, RecursionError):
        return None
    return decode(noun, given(raw)).noun
