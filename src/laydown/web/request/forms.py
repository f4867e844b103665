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
from laydown.store.book import Book
from laydown.store.kept import Kept
from laydown.units import System
from laydown.web.request.door import Call
from laydown.words.show import Words

LONGEST_FIELD = 400_000
"""Characters of one field; assumption, a job file has 4 000."""


def fields_of(call: Call) -> dict[str, str]:
    """Return the plain fields of a form; files are left out."""
    return {name: value[:LONGEST_FIELD] for name, value in call.form.multi_items() if isinstance(value, str)}


def now_text() -> str:
    """Return the time."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def age_words(at: str, words: Words) -> str:
    """Say how long ago something was."""
    try:
        seconds = (datetime.now(UTC) - datetime.fromisoformat(at)).total_seconds()
    except (ValueError, TypeError):
        return ""
    if seconds < 90:
        return words.say("just-now")
    if seconds < 5400:
        return words.say("minutes-ago", passed_s=seconds)
    if seconds < 129_600:
        return words.say("hours-ago", passed_s=seconds)
    return words.say("days-ago", count=round(seconds / 86_400))


def system_of(call: Call) -> System:
    """Return the units the shop works in."""
    return system_in(call.state.book.settings())


def words_of(call: Call) -> Words:
    """Return how the pages of the shop speak."""
    return words_in_book(call.state.book)


def words_in_book(book: Book) -> Words:
    """Return how the shop that keeps a book is spoken to."""
    return Words(system=system_in(book.settings()))


def system_in(settings: Mapping[str, str]) -> System:
    """Return the units that settings name."""
    return "us" if settings.get("units") == "us" else "metric"


def attachment(content: str | bytes, name: str, kind: str) -> Response:
    """Return a file to save."""
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
    """What a form was made from."""

    version: int = 0
    before: str = ""


def made_from(kept: Kept | None) -> MadeFrom:
    """Return what a form is made from."""
    if kept is None:
        return MadeFrom()
    return MadeFrom(
        kept.version, json.dumps(json.loads(kept.text), ensure_ascii=False, separators=(",", ":"))
    )


def said_made_from(call: Call) -> MadeFrom:
    """Return what a form that came back was made from."""
    answers = fields_of(call)
    version = answers.get(VERSION_FIELD, "")
    number = int(version) if version.isascii() and version.isdigit() and len(version) < 10 else UNKNOWN
    return MadeFrom(number, answers.get(BEFORE_FIELD, ""))


def without_made_from(answers: Mapping[str, str]) -> dict[str, str]:
    """Return the fields that somebody filled in."""
    return {
        name: text for name, text in answers.items() if name not in {VERSION_FIELD, BEFORE_FIELD, "token"}
    }


def job_before(made: MadeFrom) -> Job | None:
    """Return the job that a form was made from."""
    return _before(Job, made)


def product_before(made: MadeFrom) -> Product | None:
    """Return the product that a form was made from."""
    return _before(Product, made)


def _before(noun: type[Noun], made: MadeFrom) -> Noun | None:
    """Read what a form was made from."""
    try:
        raw = json.loads(made.before)
    except (ValueError, RecursionError):
        return None
    return decode(noun, given(raw)).noun
