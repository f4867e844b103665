"""Pouring at the scale, one ingredient at a time: what is in the cup, what comes next, when the pot life began."""

import json
import math
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta

from laydown.reader.decode import decode
from laydown.reader.papers.shelf import LAYERS
from laydown.reader.values import nearest
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import RecipeLine
from laydown.schema.supplies import Mix
from laydown.store.book import Book
from laydown.trade.mixing.pour import PourRoom, PourStep, judge_pour, pour_sheet
from laydown.units import UnitError, parse

MOST_EXTRA = 0.25
"""Share of the planned mix that may be left over before starting again is the better advice; assumption."""


@dataclass(frozen=True, slots=True)
class Poured:
    """One mix as it should be poured now.

    Attributes
    ----------
    mix
        As planned.
    in_cup_g
        What is in the cup already, by line [g]; empty if nothing is.
    steps
        What to add of each line, and what the scale shows then, the cup's content included [g].
    factor
        Size of this batch over the planned one.
    decision, text
        What to do, in a word and in words.
    """

    mix: Mix
    in_cup_g: tuple[float, ...]
    steps: tuple[PourStep, ...]
    factor: float
    decision: str
    text: str


def pour(
    plan: Plan, layer: str | None, poured: Mapping[str, str], have: Mapping[str, str]
) -> tuple[Poured, ...]:
    """Return the pour sheets of a plan.

    Parameters
    ----------
    plan
        The plan.
    layer
        Only this layer; None for all.
    poured
        Grams already in the cup, by name of the line, as typed.
    have
        Grams there are at most, by name of the line, as typed.

    Returns
    -------
    One sheet for each mix.

    Raises
    ------
    InputError
        A name or an amount is faulty, or names are given for more than one mix.
    """
    mixes = [mix for mix in plan.mixes if layer is None or mix.layer == layer]
    if (poured or have) and len(mixes) != 1:
        raise InputError(
            "", (Problem("--layer", "is missing", "say which mix: --layer ground, effect or clear"),)
        )
    if poured and have:
        raise InputError("", (Problem("--have", "does not go with --poured", "give one of the two"),))
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
            hint = f"did you mean '{near}'?" if near else f"lines: {', '.join(known)}"
            problems.append(Problem(option, f"no line '{name}' in the {mix.layer} mix", hint))
            continue
        try:
            grams = parse(text, "poured_g")
        except UnitError as error:
            problems.append(Problem(f"{option} {name}", error.what, error.hint))
            continue
        if grams < 0 or grams > 1e6:
            problems.append(
                Problem(f"{option} {name}", "is outside 0 to 1000 kg", "write what the scale shows")
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
    text = f"This makes {volume:.0f} mL; the plan needs {mix.need_ml:.0f} mL and mixes {mix.mix_ml:.0f} mL."
    if short > 0:
        text += f" {short:.0f} mL are missing: do not start the coats before the rest is there from the same batch."
    if factor * mix.mix_g < mix.least_mix_g:
        text += f" Below {mix.least_mix_g:.0f} g the scale cannot weigh the lines within tolerance."
    return Poured(mix, (), steps, factor, "scale down" if factor < 1 else "pour", text)


def _lines(mix: Mix) -> tuple[RecipeLine, ...]:
    """Turn the pour sheet back into lines by mass."""
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
class Tap:
    """One ingredient that was poured.

    Attributes
    ----------
    line
        Which line of the mix, from 0.
    added_g
        What went in [g].
    at
        When, as ISO 8601 text.
    """

    line: int
    added_g: float
    at: str


@dataclass(frozen=True, slots=True)
class Next:
    """What is poured next.

    Attributes
    ----------
    line
        Which line, from 0.
    add_g, total_g
        What to add, and what the scale shows then [g].
    low_g, high_g
        Band of the running total [g].
    """

    line: int
    add_g: float
    total_g: float
    low_g: float
    high_g: float


@dataclass(frozen=True, slots=True)
class Cup:
    """A mix as it stands on the scale.

    Attributes
    ----------
    mix
        As planned.
    in_cup_g
        Grams of each line.
    next
        What comes next; None when all is in, or when it must be started again.
    decision, text
        What to do after the last pour, in a word and in words; empty before it.
    factor
        Size of the batch over the planned one.
    hardener_at, use_by
        When the hardener went in, and when its pot life ends, as ISO 8601 text; empty before.
    """

    mix: Mix
    in_cup_g: tuple[float, ...]
    next: Next | None
    decision: str
    text: str
    factor: float
    hardener_at: str
    use_by: str


def cup_of(plan: Plan, layer: str, taps: Sequence[Tap]) -> Cup | None:
    """Return how a mix stands.

    Parameters
    ----------
    plan
        The plan.
    layer
        Which mix.
    taps
        What was poured so far.

    Returns
    -------
    The cup; None if the plan has no such mix.
    """
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
    """Return what went in, from what the scale shows.

    Parameters
    ----------
    cup
        The mix as it stands.
    typed
        Running total on the scale, as typed.

    Returns
    -------
    Grams added.

    Raises
    ------
    InputError
        It is no weight, or less than was in the cup before.
    """
    before = sum(cup.in_cup_g)
    try:
        total = parse(typed, "total_g")
    except UnitError as error:
        raise InputError("", (Problem("total_g", error.what, error.hint),)) from None
    if not before < total <= 100_000:
        what = f"must be more than {before:.1f} g, which is in the cup already"
        raise InputError("", (Problem("total_g", what, "read the running total, without taring"),))
    return total - before


def taps_of(book: Book, plan_id: str, layer: str) -> tuple[Tap, ...]:
    """Return what was poured of a mix.

    Parameters
    ----------
    book
        The book.
    plan_id, layer
        Which mix.

    Returns
    -------
    Pours in their order.
    """
    text = book.settings().get(_key(plan_id, layer), "[]")
    return tuple(Tap(**raw) for raw in json.loads(text))


def keep_taps(book: Book, plan_id: str, layer: str, taps: Sequence[Tap]) -> None:
    """Keep what was poured of a mix, so that a restart forgets nothing.

    Parameters
    ----------
    book
        The book.
    plan_id, layer
        Which mix.
    taps
        Pours in their order.
    """
    book.put_setting(_key(plan_id, layer), json.dumps([asdict(tap) for tap in taps]))


def pour_keys(plan_id: str) -> tuple[str, ...]:
    """Return the settings that hold what was poured for a plan.

    Parameters
    ----------
    plan_id
        The plan.

    Returns
    -------
    One for each layer, whether anything was poured or not.
    """
    return tuple(_key(plan_id, layer) for layer in LAYERS)


def _key(plan_id: str, layer: str) -> str:
    return f"pour.{plan_id}.{layer}"
