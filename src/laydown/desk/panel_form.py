"""The let-down panel of a job of the book: from ticks on a page to the table [sample], and what the panel says."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from laydown.desk.book_jobs import files_of, request_for
from laydown.desk.strip_words import USUAL_FIELDS
from laydown.planning.plan import make_plan
from laydown.reader.decode import decode
from laydown.reader.job_rules import job_rules
from laydown.schema.choices import Sample
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.store.book import Book
from laydown.units import figures

LOOKS = ("face", "flop")
"""Ways of looking at a field; definition."""


@dataclass(frozen=True, slots=True)
class PanelSaid:
    """What the panel of a job says.

    Attributes
    ----------
    plan
        Plan of the panel alone; a count that the job fixes is left aside.
    fixed
        The count that the job fixes, if any.
    """

    plan: Plan
    fixed: float | None


def fields_shown(sample: Sample) -> tuple[str, ...]:
    """Return the fields that can be judged.

    Parameters
    ----------
    sample
        The panel as the job has it.

    Returns
    -------
    Coats of each field as text, rising: the usual ones, and those that the job names.
    """
    return tuple(figures(coats) for coats in sorted({*USUAL_FIELDS, *sample.coats}))


def panel_answers(sample: Sample) -> dict[str, str]:
    """Write a panel as its page would have it ticked.

    Parameters
    ----------
    sample
        The panel as the job has it.

    Returns
    -------
    Answers by name of the field of the form; what was not said is left out.
    """
    found: dict[str, str] = {"ground_check": sample.ground_check}
    judged = max(len(sample.face), len(sample.flop))
    coats = sample.coats or tuple(float(number) for number in range(judged))
    for look, words in zip(LOOKS, (sample.face, sample.flop), strict=True):
        # A look that was left out has no words.
        found |= {f"{look}.{figures(field)}": word for field, word in zip(coats, words, strict=False)}
    if sample.card_gone_after is not None:
        found["card_gone_after"] = str(sample.card_gone_after)
    if sample.coat_g_m2 is not None:
        found["coat_g_m2"] = figures(sample.coat_g_m2.value)
    return found | ({"same_settings": "yes"} if sample.same_settings else {})


def with_panel(job: Job, answers: Mapping[str, str]) -> Job:
    """Return a job with the panel that was ticked.

    Parameters
    ----------
    job
        The job as it is.
    answers
        As sent by the page.

    Returns
    -------
    The job; of its table [sample] only what the page asks for is changed.

    Raises
    ------
    InputError
        Everything that is wrong with the answers, each at its field.
    """
    coats, judged, problems = _judged(job.sample, answers)
    raw: dict[str, Any] = {
        "ground_check": answers.get("ground_check", "not done"),
        "same_settings": answers.get("same_settings") == "yes",
        "coats": coats,
        **judged,
    }
    for name in ("card_gone_after", "coat_g_m2"):
        if answers.get(name, "").strip():
            raw[name] = _number(answers[name].strip())
    decoded = decode(Sample, raw, "panel")
    problems += [replace(one, where=one.where.partition("[")[0]) for one in decoded.problems]
    if decoded.noun is None or problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    heard = decoded.noun
    sample = replace(
        job.sample,
        ground_check=heard.ground_check,
        same_settings=heard.same_settings,
        coats=heard.coats,
        face=heard.face,
        flop=heard.flop,
        card_gone_after=heard.card_gone_after,
        coat_g_m2=heard.coat_g_m2,
    )
    broken = job_rules({"sample": sample}, {})
    if broken:
        placed = (replace(one, where=one.where.removeprefix("sample.")) for one in broken)
        raise InputError("", tuple(placed))
    return replace(job, sample=sample)


def _judged(
    sample: Sample, answers: Mapping[str, str]
) -> tuple[list[float], dict[str, list[str]], list[Problem]]:
    """Gather the fields that were judged; a look at which none was judged is left out."""
    fields = [
        field for field in fields_shown(sample) if any(answers.get(f"{look}.{field}") for look in LOOKS)
    ]
    judged: dict[str, list[str]] = {}
    problems = []
    for look in LOOKS:
        words = [answers.get(f"{look}.{field}", "") for field in fields]
        if not any(words):
            continue
        judged[look] = words
        missing = [field for field, word in zip(fields, words, strict=True) if not word]
        if missing:
            hint = "judge the same fields at face and flop, or none at one of them"
            problems.append(Problem(look, f"field {', '.join(missing)} is not judged", hint))
            del judged[look]
    return [float(field) for field in fields], judged, problems


def _number(text: str) -> float | str:
    """Turn a bare number into one; what has a unit or is none is left to the reader."""
    try:
        return int(text) if text.isdecimal() else float(text)
    except ValueError:
        return text


def panel_said(book: Book, job_id: str, job: Job) -> PanelSaid | None:
    """Return what the panel of a job says.

    Parameters
    ----------
    book
        The book, for side, products and readings.
    job_id
        Id of the job.
    job
        The job.

    Returns
    -------
    The answer; None where nothing was entered yet.

    Raises
    ------
    InputError
        Side, products or readings are missing or faulty.
    """
    files = files_of(book, job_id)
    entered = job.sample.face or job.sample.flop or job.sample.readings in files
    if not entered and job.sample.ground_check == "not done":
        return None
    asked = replace(job, choices=replace(job.choices, effect_coats=None))
    plan = make_plan(request_for(book, asked, files), thorough=False, drawn=False).plan
    return PanelSaid(plan, job.choices.effect_coats)
