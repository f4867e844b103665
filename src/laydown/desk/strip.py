"""The let-down panel of a job: what was ticked becomes a count, or the reason why there is none."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from laydown.desk.job import open_job
from laydown.desk.readings import readings_of
from laydown.desk.strip_words import Spoken, hear
from laydown.planning.plan import make_plan
from laydown.planning.request import Request
from laydown.reader.files import read_table
from laydown.reader.job_file import decode_job
from laydown.reader.job_save import save_table
from laydown.schema.colour import ColourVerdict
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import Readings


@dataclass(frozen=True, slots=True)
class Entry:
    """What was ticked on the sheet, as typed; None where nothing was said.

    Attributes
    ----------
    spoken
        Fields and judgements.
    ground
        Result of the ground check.
    readings, readings_map
        Files, from where the call was made.
    zone
        Zone whose count is planned.
    card_gone_after
        Ground coat after which the hiding card looked alike.
    coat_g_m2
        Wet film of one coat of the panel [g/m²], with or without its unit.
    """

    spoken: Spoken = field(default_factory=Spoken)
    ground: str | None = None
    readings: Path | None = None
    readings_map: Path | None = None
    zone: str | None = None
    card_gone_after: str | None = None
    coat_g_m2: str | None = None


@dataclass(frozen=True, slots=True)
class PanelAnswer:
    """What the panel says.

    Attributes
    ----------
    job
        The job with what was entered.
    colour
        The verdict of the panel alone; a count that the job fixes is left aside.
    coats
        Half coats to spray; None where the panel gives none.
    fixed
        The count that the job fixes, if any.
    entered
        Values for the table [sample] of the job file.
    """

    job: Job
    colour: ColourVerdict
    coats: float | None
    fixed: float | None
    entered: dict[str, Any]


def read_panel(path: Path, entry: Entry) -> PanelAnswer:
    """Return what the panel of a job says, with what was entered.

    Parameters
    ----------
    path
        The job file; it is not changed.
    entry
        What was ticked.

    Returns
    -------
    Verdict and count.

    Raises
    ------
    InputError
        Everything that is wrong with the job, the entry and the readings.
    """
    raw = read_table(path)
    entered, problems = _entered(raw, path, entry)
    request, more = _opened(path)
    job, faults = _changed(raw, path, entered)
    problems = [*problems, *more, *faults]
    readings: Readings | None = None
    if job is not None:
        readings, unread = readings_of(job.sample, path.parent)
        problems += unread
    if request is None or job is None or problems:
        raise InputError(str(path), tuple(dict.fromkeys(problems)))
    asked = replace(job, choices=replace(job.choices, effect_coats=None))
    plan = make_plan(replace(request, job=asked, readings=readings), thorough=False, drawn=False).plan
    return PanelAnswer(job, plan.colour, _ordered(plan.colour), job.choices.effect_coats, entered)


def save_panel(path: Path, answer: PanelAnswer) -> None:
    """Write what was entered into the job file; comments stay.

    Parameters
    ----------
    path
        The job file.
    answer
        What was entered.

    Raises
    ------
    InputError
        The file cannot be written.
    """
    save_table(path, "sample", answer.entered)


def _ordered(colour: ColourVerdict) -> float | None:
    """Count that the panel itself gives; None where the planned one does not come from it."""
    named = [zone for zone in colour.zones if zone.zone == colour.zone]
    return named[0].coats if named else None


def _entered(raw: Mapping[str, Any], path: Path, entry: Entry) -> tuple[dict[str, Any], list[Problem]]:
    """Turn what was ticked into values of the job file."""
    before = raw.get("sample")
    known = before.get("coats", []) if isinstance(before, dict) else []
    heard, problems = hear(entry.spoken, [float(one) for one in known if isinstance(one, int | float)])
    values: dict[str, Any] = {
        "ground_check": entry.ground,
        "readings": None if entry.readings is None else _beside(entry.readings, path),
        "readings_map": None if entry.readings_map is None else _beside(entry.readings_map, path),
        "zone": entry.zone,
        "coats": [_short(one) for one in heard.coats] or None,
        "face": list(heard.face) or None,
        "flop": list(heard.flop) or None,
        "card_gone_after": _plain(entry.card_gone_after, int),
        "coat_g_m2": _plain(entry.coat_g_m2, float),
    }
    return {key: value for key, value in values.items() if value is not None}, list(problems)


def _beside(file: Path, job: Path) -> str:
    """Name a file from where the job lies, if it lies there or below."""
    found, folder = file.resolve(), job.resolve().parent
    return found.relative_to(folder).as_posix() if found.is_relative_to(folder) else found.as_posix()


def _plain(text: str | None, kind: type[int] | type[float]) -> str | float | None:
    """Turn a bare number into one; what has a unit or is none is left to the reader of jobs."""
    if text is None:
        return None
    try:
        return kind(text)
    except ValueError:
        return text


def _short(coats: float) -> int | float:
    """Drop empty decimals."""
    return int(coats) if coats.is_integer() else coats


def _opened(path: Path) -> tuple[Request | None, tuple[Problem, ...]]:
    """Read the job as it stands; its readings may be what is replaced."""
    try:
        return open_job(path, with_readings=False), ()
    except InputError as error:
        return None, error.problems


def _changed(
    raw: Mapping[str, Any], path: Path, entered: Mapping[str, Any]
) -> tuple[Job | None, tuple[Problem, ...]]:
    """Read the job with what was entered."""
    before = raw.get("sample")
    sample = {**before, **entered} if isinstance(before, dict) else dict(entered)
    try:
        return decode_job({**raw, "sample": sample}, path), ()
    except InputError as error:
        return None, error.problems
