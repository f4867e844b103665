"""Pouring at the scale, one ingredient at a time: what is in the cup, what comes next, when the pot life began."""

import json
import math
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from typing import Literal

from laydown.reader.decode import decode
from laydown.reader.papers.shelf import LAYERS
from laydown.reader.values import nearest
from laydown.schema.message import Name, Saying, message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import RecipeLine
from laydown.schema.supplies import Mix
from laydown.store.book import Book
from laydown.trade.mixing.pour import PourDecision, PourRoom, PourStep, judge_pour, pour_sheet
from laydown.units import UnitError, parse

MOST_EXTRA = 0.25
"""Share of the planned mix that may be left over before starting again is the better advice; assumption."""

BatchDecision = PourDecision | Literal["pour", "scale down"]
"""What to do with a batch: pour it as planned, make less of it, or put right what was poured."""


@dataclass(frozen=True, slots=True)
class Poured:
    """One mix as it should be poured now."""

    mix: Mix
    in_cup_g: tuple[float, ...]
    steps: tuple[PourStep, ...]
    factor: float
    decision: BatchDecision
    text: Saying


def pour(
    plan: Plan, layer: str | None, poured: Mapping[str, str], have: Mapping[str, str]
) -> tuple[Poured, ...]:
    """Return the mix sheets of a plan."""
    mixes = [mix for mix in plan.mixes if layer is None or mix.layer == layer]
    if (poured or have) and len(mixes) != 1:
        raise InputError("", (Problem("--layer", message("value-is-missing"), message("say-which-mix")),))
    if poured and have:
        raise InputError(
            "", (Problem("--have", message("have-with-poured"), message("give-one-of-the-two")),)
        )
    return tuple(
        _sheet(mix, _amounts(mix, poured, "--poured"), _amounts(mix, have, "--have")) for mix in mixes
    )


def _amounts(mix: Mix, typed: Mapping[str, str], option: str) -> dict[int, float]:
    """Find the lines that are meant and read their grams."""
    problems: list[Problem] = []
    found: dict[int, float] = {}
    for name, text in typed.items():
        index = _line(mix, name)
        if index is None:
            known = [line.name for line in mix.lines]
            near = nearest(name, known)
            hint = (
                message("did-you-mean-the-word", near=Name(near))
                if near
                else message("no-line-in-mix.hint", lines=tuple(map(Name, known)))
            )
            what = message("no-line-in-mix", line=Name(name), short_layer=mix.layer)
            problems.append(Problem(option, what, hint))
            continue
        try:
            grams = parse(text, "poured_g")
        except UnitError as error:
            problems.append(Problem(f"{option} {name}", error.what, error.hint))
            continue
        if grams < 0 or grams > 1e6:
            problems.append(
                Problem(f"{option} {name}", message("poured-outside"), message("write-what-the-scale-shows"))
            )
        found[index] = grams
    if problems:
        raise InputError("", tuple(problems))
    return found


def _line(mix: Mix, name: str) -> int | None:
    """Find a line by its name or by its role, if only one line has it."""
    folded = name.casefold().replace("_", " ")
    names = [index for index, line in enumerate(mix.lines) if line.name.casefold() == folded]
    roles = [index for index, line in enumerate(mix.lines) if line.role == folded]
    return names[0] if names else roles[0] if len(roles) == 1 else None


def _sheet(mix: Mix, poured: Mapping[int, float], have: Mapping[int, float]) -> Poured:
    """Scale the sheet to what is there, or correct it for what was poured."""
    targets = [line.step_g for line in mix.lines]
    if have:
        factor = min(1.0, *(grams / targets[index] for index, grams in have.items() if targets[index] > 0))
        return _smaller(mix, targets, factor)
    if not poured:
        steps = tuple(PourStep(line.step_g, line.running_g) for line in mix.lines)
        return Poured(mix, (), steps, 1.0, "pour", "")
    cup = tuple(poured.get(index, 0.0) for index in range(len(targets)))
    room = PourRoom(usable_extra_g=MOST_EXTRA * mix.mix_g, cup_g=math.inf)
    verdict = judge_pour(_lines(mix), targets, cup, room)
    # What is in the cup is the first entry, so that the scale can be read without taring it away.
    steps = pour_sheet([sum(cup), *verdict.correction.add_g])[1:]
    return Poured(mix, cup, steps, verdict.correction.factor, verdict.decision, verdict.text)


def _smaller(mix: Mix, targets: list[float], factor: float) -> Poured:
    """Make the batch as large as what is there allows."""
    steps = pour_sheet([factor * target for target in targets]) if factor > 0 else ()
    volume = factor * mix.mix_ml
    short = max(0.0, mix.need_ml - volume)
    said = [message("batch-makes", makes_ml=volume, need_ml=mix.need_ml, mix_ml=mix.mix_ml)]
    if short > 0:
        said.append(message("batch-short", short_ml=short))
    if factor * mix.mix_g < mix.least_mix_g:
        said.append(message("batch-too-small", least_g=mix.least_mix_g))
    text = message("parts", parts=tuple(said))
    return Poured(mix, (), steps, factor, "scale down" if factor < 1 else "pour", text)


def _lines(mix: Mix) -> tuple[RecipeLine, ...]:
    """Turn the mix sheet back into lines by mass."""
    raw = [
        {"name": line.name, "role": line.role, "amount": line.step_g, "kind": "parts", "basis": "mass"}
        for line in mix.lines
    ]
    decoded = [decode(RecipeLine, line).noun for line in raw]
    return tuple(line for line in decoded if line is not None)


BAND = 0.005
"""Share by which the running total may miss without a question; assumption."""

LEAST_BAND_G = 0.5
"""Narrowest band [g]; assumption, what a hand can pour."""


@dataclass(frozen=True, slots=True)
class PouredLine:
    """One ingredient that was poured."""

    line: int
    added_g: float
    at: str


@dataclass(frozen=True, slots=True)
class Next:
    """What is poured next."""

    line: int
    add_g: float
    total_g: float
    low_g: float
    high_g: float


@dataclass(frozen=True, slots=True)
class Cup:
    """A mix as it stands on the scale."""

    mix: Mix
    in_cup_g: tuple[float, ...]
    next: Next | None
    decision: BatchDecision
    text: Saying
    factor: float
    hardener_at: str
    use_by: str


def cup_of(plan: Plan, layer: str, taps: Sequence[PouredLine]) -> Cup | None:
    """Return how a mix stands."""
    mix = next((one for one in plan.mixes if one.layer == layer), None)
    if mix is None:
        return None
    inside = tuple(sum(tap.added_g for tap in taps if tap.line == index) for index in range(len(mix.lines)))
    given = {line.name: f"{grams:.6g} g" for line, grams in zip(mix.lines, inside, strict=True) if grams > 0}
    sheet = pour(plan, layer, given, {})[0]
    hardener_at = next((tap.at for tap in taps if mix.lines[tap.line].role == "hardener"), "")
    use_by = ""
    if hardener_at and mix.pot_life_s is not None:
        ends = datetime.fromisoformat(hardener_at) + timedelta(seconds=mix.pot_life_s)
        use_by = ends.strftime("%Y-%m-%dT%H:%M:%SZ")
    following = None if sheet.decision == "bin" else _next(sheet, inside)
    return Cup(mix, inside, following, sheet.decision, sheet.text, sheet.factor, hardener_at, use_by)


def _next(sheet: Poured, inside: Sequence[float]) -> Next | None:
    """Find the first line that is still short by more than its band."""
    total = sum(inside)
    for index, step in enumerate(sheet.steps):
        add = step.step_g
        if add > max(LEAST_BAND_G, BAND * (total + add)) or (inside[index] == 0 and add > 0):
            band = max(LEAST_BAND_G, BAND * (total + add))
            end = total + add
            return Next(index, add, end, end - band, end + band)
    return None


def read_total_g(cup: Cup, typed: str) -> float:
    """Return what went in, from what the scale shows."""
    before = sum(cup.in_cup_g)
    try:
        total = parse(typed, "total_g")
    except UnitError as error:
        raise InputError("", (Problem("total_g", error.what, error.hint),)) from None
    if not before < total <= 100_000:
        what, hint = message("total-too-small", before_g=before), message("total-too-small.hint")
        raise InputError("", (Problem("total_g", what, hint),))
    return total - before


def taps_of(book: Book, plan_id: str, layer: str) -> tuple[PouredLine, ...]:
    """Return what was poured of a mix."""
    text = book.settings().get(_key(plan_id, layer), "[]")
    return tuple(PouredLine(**raw) for raw in json.loads(text))


def keep_taps(book: Book, plan_id: str, layer: str, taps: Sequence[PouredLine]) -> None:
    """Keep what was poured of a mix, so that a restart forgets nothing."""
    book.put_setting(_key(plan_id, layer), json.dumps([asdict(tap) for tap in taps]))


def mix_keys(plan_id: str) -> tuple[str, ...]:
    """Return the settings that hold what was poured for a plan."""
    return tuple(_key(plan_id, layer) for layer in LAYERS)


def _key(plan_id: str, layer: str) -> str:
    return f"pour.{plan_id}.{layer}"
