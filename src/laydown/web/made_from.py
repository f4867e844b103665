"""What a form was made from: it goes out with the form and comes back, so that nobody overwrites what another saved."""

import json
from collections.abc import Mapping
from dataclasses import dataclass

from laydown.reader.decode import Noun, decode
from laydown.reader.given import given
from laydown.schema.job import Job
from laydown.schema.product import Product
from laydown.store.kept import Kept
from laydown.web.door import Call
from laydown.web.forms import fields_of

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
