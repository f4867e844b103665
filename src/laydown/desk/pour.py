"""The pour sheet of a plan, for what is really in the cup or on the shelf."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from laydown.reader.decode import decode
from laydown.reader.leaf import nearest
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.recipe import RecipeLine
from laydown.schema.supplies import Mix
from laydown.trade.pour import PourRoom, PourStep, judge_pour, pour_sheet
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
