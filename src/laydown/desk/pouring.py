"""Pouring at the scale, one ingredient at a time: what is in the cup, what comes next, when the pot life began."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta

from laydown.desk.pour import Poured, pour
from laydown.reader.shelf import LAYERS
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.supplies import Mix
from laydown.store.book import Book
from laydown.units import UnitError, parse

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
