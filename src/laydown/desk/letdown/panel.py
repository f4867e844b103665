"""The leaf for the let-down panel of a job."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from laydown.desk.letdown.ticks import USUAL_FIELDS, Heard, Spoken, hear
from laydown.desk.papers.files import open_job, readings_of
from laydown.desk.papers.jobs import files_of, request_for
from laydown.planning.plan import make_plan
from laydown.planning.setup.request import Request
from laydown.reader.decode import decode
from laydown.reader.files import read_table
from laydown.reader.papers.job_file import decode_job, job_rules, read_job
from laydown.reader.papers.job_text import save_table
from laydown.reader.write import write_file
from laydown.report.paper.letdown_sheet import MOST_FIELDS, PanelSheet, panel_sheet_pdf
from laydown.schema.choices import Sample
from laydown.schema.colour import ColourVerdict
from laydown.schema.figure import Figure
from laydown.schema.job import Job
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem, gathered
from laydown.schema.reading import Readings
from laydown.store.book import Book
from laydown.units import figures
from laydown.words.show import Words

LOOKS = ("face", "flop")
"""Ways of looking at a field; definition."""


@dataclass(frozen=True, slots=True)
class PanelSaid:
    """What the panel of a job says."""

    plan: Plan
    fixed: float | None


def fields_shown(sample: Sample) -> tuple[str, ...]:
    """Return the fields that can be judged."""
    return tuple(figures(coats) for coats in sorted({*USUAL_FIELDS, *sample.coats}))


def panel_answers(sample: Sample) -> dict[str, str]:
    """Write a panel as its page would have it ticked."""
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
    """Return a job with the panel that was ticked."""
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
            what = message("fields-not-judged", fields=tuple(map(Name, missing)))
            problems.append(Problem(look, what, message("fields-not-judged.hint")))
            del judged[look]
    return [float(field) for field in fields], judged, problems


def _number(text: str) -> float | str:
    """Turn a bare number into one; what has a unit or is none is left to the reader."""
    try:
        return int(text) if text.isdecimal() else float(text)
    except ValueError:
        return text


def panel_said(book: Book, job_id: str, job: Job) -> PanelSaid | None:
    """Return what the panel of a job says."""
    files = files_of(book, job_id)
    entered = job.sample.face or job.sample.flop or job.sample.readings in files
    if not entered and job.sample.ground_check == "not done":
        return None
    asked = replace(job, choices=replace(job.choices, effect_coats=None))
    plan = make_plan(request_for(book, asked, files), thorough=False, drawn=False).plan
    return PanelSaid(plan, job.choices.effect_coats)


@dataclass(frozen=True, slots=True)
class Entry:
    """What was ticked on the sheet, as typed; None where nothing was said."""

    spoken: Spoken = field(default_factory=Spoken)
    ground: str | None = None
    readings: Path | None = None
    readings_map: Path | None = None
    zone: str | None = None
    card_gone_after: str | None = None
    coat_g_m2: str | None = None


@dataclass(frozen=True, slots=True)
class PanelAnswer:
    """What the panel says."""

    job: Job
    colour: ColourVerdict
    coats: float | None
    fixed: float | None
    entered: dict[str, Any]


def read_panel(path: Path, entry: Entry) -> PanelAnswer:
    """Return what the panel of a job says, with what was entered."""
    raw = read_table(path)
    problems: list[Problem] = []
    request: Request | None = None
    job: Job | None = None
    readings: Readings | None = None
    entered = _entered(raw, path, entry, problems)
    with gathered(problems):
        # Its readings may be what is replaced.
        request = open_job(path, with_readings=False)
    with gathered(problems):
        job = _changed(raw, path, entered)
    if job is not None:
        with gathered(problems):
            readings = readings_of(job.sample, path.parent)
    if request is None or job is None or problems:
        raise InputError(str(path), tuple(dict.fromkeys(problems)))
    asked = replace(job, choices=replace(job.choices, effect_coats=None))
    plan = make_plan(replace(request, job=asked, readings=readings), thorough=False, drawn=False).plan
    return PanelAnswer(job, plan.colour, _ordered(plan.colour), job.choices.effect_coats, entered)


def save_panel(path: Path, answer: PanelAnswer) -> None:
    """Write what was entered into the job file; comments stay."""
    save_table(path, "sample", answer.entered)


def _ordered(colour: ColourVerdict) -> float | None:
    """Count that the panel itself gives; None where the planned one does not come from it."""
    named = [zone for zone in colour.zones if zone.zone == colour.zone]
    return named[0].coats if named else None


def _entered(raw: Mapping[str, Any], path: Path, entry: Entry, problems: list[Problem]) -> dict[str, Any]:
    """Turn what was ticked into values of the job file."""
    before = raw.get("sample")
    known = before.get("coats", []) if isinstance(before, dict) else []
    heard = Heard()
    with gathered(problems):
        heard = hear(entry.spoken, [float(one) for one in known if isinstance(one, int | float)])
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
    return {key: value for key, value in values.items() if value is not None}


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


def _changed(raw: Mapping[str, Any], path: Path, entered: Mapping[str, Any]) -> Job:
    """Read the job with what was entered."""
    before = raw.get("sample")
    sample = {**before, **entered} if isinstance(before, dict) else dict(entered)
    return decode_job({**raw, "sample": sample}, path)


USUAL_NAME = "-panel.pdf"
"""End of the name of the leaf beside its job."""


def usual_path(job: Path) -> Path:
    """Name the leaf of a job."""
    return job.with_name(f"{job.stem}{USUAL_NAME}")


def write_sheet(path: Path, output: Path, coats: tuple[float, ...], words: Words) -> None:
    """Write the leaf for the panel of a job."""
    if not 1 <= len(coats) <= MOST_FIELDS:
        what, hint = message("names-fields", count=len(coats)), message("fields-of-a-leaf", most=MOST_FIELDS)
        raise InputError(str(path), (Problem("--steps", what, hint),))
    if output.suffix.lower() != ".pdf":
        hint = message("not-named-as-pdf.hint", stem=Name(output.stem))
        raise InputError(str(output), (Problem("file", message("not-named-as-pdf"), hint),))
    write_file(output, panel_sheet_pdf(sheet_of(read_job(path), path.name, coats, words)))


def sheet_of(job: Job, file: str, coats: tuple[float, ...], words: Words) -> PanelSheet:
    """Put a job on the leaf."""
    air = words.say("booth-air", temperature_c=job.air.temperature_c.value, rh=job.air.rh.value)
    gun = job.gun
    rows: tuple[tuple[str, Figure | float | None], ...] = (
        ("flow_g_s", gun.flow_g_s),
        ("speed_m_s", gun.speed_m_s),
        ("overlap", gun.overlap),
        ("fan_m", gun.fan_m),
        ("distance_m", gun.distance_m),
        ("pressure_bar", gun.pressure_bar),
        ("nozzle_mm", gun.nozzle_mm),
    )
    settings = tuple((words.word("gun_setting", name), _said(value, name, words)) for name, value in rows)
    hand = f"{job.body.shape or job.body.file or ''} {words.word('side', job.job.side).upper()}"
    return PanelSheet(
        job.job.name, hand.strip(), job.painter.name or "", air, file, coats, settings, job.invented, words
    )


def _said(value: Figure | float | None, name: str, words: Words) -> str:
    """Write a figure of the job; a dash where it gives none."""
    if value is None:
        return "-"
    return words.amount(value.value if isinstance(value, Figure) else value, name)
