"""The strokes of a coat on its skin, and how old the edges are where its sections meet."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from laydown.physics.spray.edge_age import Laid, join_age_s, lay
from laydown.physics.spray.fan import HALF_HEIGHT_M
from laydown.physics.spray.strokes import SkinGrid, Strokes
from laydown.physics.values import Floats, Ints
from laydown.planning.sections.stretches import OVERRUN_M, Bounds, bound_lines_m, shift_of
from laydown.planning.setup.field import GOLDEN, Field, GunRows
from laydown.planning.setup.spraying import GunPass
from laydown.planning.setup.weights import MOVE_S, TURN_S

FEATHER_M = 0.12
"""Zone over which the ends of strokes at a join are spread, so that the edge is feathered [m]; assumption."""

LAP_M = 0.04
"""How far the strokes of neighbouring sections overlap end to end [m]; assumption."""


@dataclass(frozen=True, slots=True)
class Work:
    """What is to be sprayed in one coat."""

    field: Field
    passes: tuple[tuple[GunPass, GunRows], ...]
    reach: Bounds
    bounds: tuple[int, ...]
    refill_after: tuple[int, ...]
    refill_s: float
    painters: int

    def film_g_m2(self) -> float:
        """Return the wet film inside a full field [g/m²]: every pass at the pitch its rows have, whatever the sections.

        Within 4 % of the mean of the simulated film, which has the laps too (``tests/unit/planning/sections/test_outcome.py``); mass balance.
        """
        return math.fsum(
            setting.flow_g_s * setting.transfer / (rows.pitch_m * setting.speed_m_s)
            for setting, rows in self.passes
        )


@dataclass(frozen=True, slots=True, eq=False)
class Programme:
    """The coat as it is sprayed."""

    strokes: Strokes
    begin_s: tuple[float, ...]
    end_s: tuple[float, ...]
    cup_g: tuple[float, ...]
    total_s: float


@dataclass(frozen=True, slots=True)
class _Runs:
    """Painted parts of rows between two bounds: row, ends and stretch, each of shape (n,)."""

    row: Ints
    left_m: Floats
    right_m: Floats
    stretch: Floats


@lru_cache(maxsize=24)
def _summed_stretch(rows: GunRows) -> Floats:
    """Stretch of every row summed up to each edge between columns, shape (n, columns + 1)."""
    return np.hstack([np.zeros((len(rows.stretch), 1)), np.cumsum(rows.stretch, axis=1)])


def _runs(field: Field, rows: GunRows, low_m: Floats, high_m: Floats) -> _Runs:
    """Painted parts of every row between low and high, in the order of rows and along the vehicle."""
    skin = field.skin
    edges = skin.x_edges_m()
    middle = (edges[1:] + edges[:-1]) / 2.0
    on = rows.on & (middle[None, :] >= low_m[:, None]) & (middle[None, :] < high_m[:, None])
    closed = np.zeros((len(on), 1), bool)
    change = np.diff(np.hstack([closed, on, closed]).astype(np.int8), axis=1)
    row, first = np.nonzero(change == 1)
    _, past = np.nonzero(change == -1)
    total = _summed_stretch(rows)
    stretch = (total[row, past] - total[row, first]) / np.maximum(past - first, 1)
    before = np.maximum(first - 1, 0)
    after = np.minimum(past, skin.columns - 1)
    cut_left = rows.on[row, before] & (first > 0)
    cut_right = rows.on[row, after] & (past < skin.columns)
    left = np.where(cut_left, np.maximum(low_m[row], edges[first] - skin.cell_m), edges[first] - OVERRUN_M)
    right = np.where(cut_right, np.minimum(high_m[row], edges[past] + skin.cell_m), edges[past] + OVERRUN_M)
    keep = right > left + 1e-6
    return _Runs(row[keep], left[keep], right[keep], stretch[keep])


def _timed(
    runs: _Runs, setting: GunPass, begin_s: float, centre_m: Floats, *, ahead_first: bool
) -> tuple[Strokes, float]:
    """Strokes of one pass of one section, row by row in serpentines, and when the pass ends."""
    used, number = np.unique(runs.row, return_inverse=True)
    ahead = np.where((number % 2 == 0) == ahead_first, 1.0, -1.0)
    along = np.where(ahead > 0.0, runs.left_m, -runs.right_m)
    order = np.lexsort((along, number))
    row, left, right = number[order], runs.left_m[order], runs.right_m[order]
    ahead, stretch = ahead[order], runs.stretch[order]
    spray = stretch * (right - left) / setting.speed_m_s
    same_row = np.concatenate([[False], row[1:] == row[:-1]])
    gap = np.where(ahead > 0.0, left - np.roll(right, 1), np.roll(left, 1) - right)
    pause = np.where(same_row, np.maximum(gap, 0.0) / setting.speed_m_s + TURN_S / 2.0, TURN_S)
    pause[0] = 0.0
    starts = begin_s + np.cumsum(pause) + np.concatenate([[0.0], np.cumsum(spray)[:-1]])
    count = len(row)
    strokes = Strokes(
        begin_s=starts,
        left_m=left,
        right_m=right,
        ahead=ahead,
        centre_m=centre_m[used[row]],
        fan_m=np.full(count, setting.fan_m),
        half_m=np.full(count, HALF_HEIGHT_M),
        flow_g_s=np.full(count, setting.flow_g_s),
        transfer=np.full(count, setting.transfer),
        speed_m_s=np.full(count, setting.speed_m_s),
        stretch=stretch,
        section=np.zeros(count, np.int64),
        light=np.full(count, 0 if setting.name == "full" else 1, np.int64),
    )
    return strokes, float(starts[-1] + spray[-1] + TURN_S)


def _spread_ends(count: int) -> Floats:
    """Where in the feather zone each row ends, -0.5 to 0.5."""
    return np.asarray((np.arange(1, count + 1) * GOLDEN) % 1.0 - 0.5, float)


def _limits(work: Work, index: int, setting: GunPass, rows: GunRows) -> tuple[Floats, Floats]:
    """Low and high end of a section on each row, feathered and lapped at its joins."""
    lines = bound_lines_m(work.reach, rows, shift_of(setting, work.passes[0][0]))
    lines = lines + FEATHER_M * _spread_ends(len(rows.centre_m))[None, :]
    one, other = lines[work.bounds[index]], lines[work.bounds[index + 1]]
    low, high = (other, one) if work.reach.backwards else (one, other)
    return low - LAP_M / 2.0, high + LAP_M / 2.0


def _shares(rows: GunRows, runs: _Runs, painters: int) -> list[_Runs]:
    """Split the rows of a pass between painters, the lower part first."""
    if painters == 1:
        return [runs]
    lower = rows.lower()[runs.row]
    return [
        _Runs(runs.row[part], runs.left_m[part], runs.right_m[part], runs.stretch[part])
        for part in (lower, ~lower)
        if part.any()
    ]


def _section(work: Work, index: int, begin_s: float) -> tuple[list[Strokes], float, float]:
    """All strokes of one section: every pass, every painter; what the busier one sprays [g], and when it ends."""
    found: list[Strokes] = []
    now, cup_g = begin_s, 0.0
    ahead_first = not work.reach.backwards
    for setting, rows in work.passes:
        low, high = _limits(work, index, setting, rows)
        runs = _runs(work.field, rows, low, high)
        if not len(runs.row):
            continue
        shares = [
            _timed(share, setting, now, rows.centre_m, ahead_first=ahead_first)
            for share in _shares(rows, runs, work.painters)
        ]
        found += [strokes for strokes, _ in shares]
        cup_g += max(float(strokes.sprayed_g().sum()) for strokes, _ in shares)
        now = max(end for _, end in shares)
    return found, cup_g, now


def joined(parts: Sequence[Strokes]) -> Strokes:
    """Return the strokes of several parts as one, in the order of time."""
    together = Strokes(
        *(np.concatenate([getattr(part, name) for part in parts]) for name in Strokes.__slots__)
    )
    order = np.argsort(together.begin_s, kind="stable")
    return Strokes(*(getattr(together, name)[order] for name in Strokes.__slots__))


def _numbered(strokes: Strokes, section: int) -> Strokes:
    """The same strokes with their section's index."""
    values = {name: getattr(strokes, name) for name in Strokes.__slots__}
    return Strokes(**(values | {"section": np.full(len(strokes.begin_s), section, np.int64)}))


@lru_cache(maxsize=24)
def programme(work: Work) -> Programme:
    """Return the strokes of a coat.

    Source: Common practice, no source: each section gets its passes at once, then the painter moves on.
    """
    parts: list[Strokes] = []
    begins: list[float] = []
    ends: list[float] = []
    cups: list[float] = []
    now = 0.0
    for index in range(len(work.bounds) - 1):
        found, cup_g, end = _section(work, index, now)
        begins.append(now)
        ends.append(end)
        cups.append(cup_g)
        parts += [_numbered(strokes, index) for strokes in found]
        now = end + MOVE_S + (work.refill_s if index in work.refill_after else 0.0)
    return Programme(joined(parts), tuple(begins), tuple(ends), tuple(cups), ends[-1])


AGE_QUANTILE = 0.95
"""Part of a join's cells that are younger than the age given for it; a choice."""

KEPT = 48
"""Coats whose film, joins, balance and fog are kept; a choice: those of a plan and of its alternatives."""


@dataclass(frozen=True, slots=True)
class JoinAge:
    """How old an edge is where the next section meets it, with its spread."""

    age_s: float
    at: tuple[int, int]


@dataclass(frozen=True, slots=True, eq=False)
class Joined:
    """Where the sections of a coat meet."""

    joins: tuple[JoinAge, ...]
    age_s: Floats


@lru_cache(maxsize=4)
def laid_of(work: Work, made: Programme) -> Laid:
    """Return the strokes of a coat on its skin."""
    return lay(made.strokes, work.field.skin)


def _window(skin: SkinGrid, low_m: float, high_m: float) -> slice:
    """The columns of the skin between two places."""
    first = max(0, int((low_m - skin.x0_m) / skin.cell_m))
    return slice(first, min(skin.columns, int((high_m - skin.x0_m) / skin.cell_m) + 1))


@lru_cache(maxsize=KEPT)
def joined_of(work: Work, made: Programme) -> Joined:
    """Return where the sections of a coat meet, and how old their edges are."""
    laid = laid_of(work, made)
    mask, skin, strokes = work.field.mask, laid.skin, laid.strokes
    ages = np.full(mask.shape, np.nan)
    found = []
    # The lighter pass laps onto full film behind the edge, which stays open far longer: the full pass decides.
    first = strokes.light == strokes.light.min()
    for index, bound in enumerate(work.bounds[1:-1]):
        place = work.reach.places[bound - 1]
        reach = FEATHER_M / 2.0 + LAP_M + 0.05
        xs = place.x_at(skin.s_edges_m())
        columns = _window(skin, float(xs.min()) - reach, float(xs.max()) + reach)
        near = laid.window(columns)
        before = near.only(strokes.section == index)
        after = near.only((strokes.section == index + 1) & first)
        age = np.where(mask[:, columns], join_age_s(before, after), np.nan)
        known = age[np.isfinite(age)]
        if not known.size:
            found.append(JoinAge(float("nan"), (0, columns.start)))
            continue
        value = float(np.quantile(known, AGE_QUANTILE))
        row, column = np.unravel_index(int(np.nanargmax(age)), age.shape)
        found.append(JoinAge(value, (int(row), int(column) + columns.start)))
        ages[:, columns] = np.where(np.isfinite(age), age, ages[:, columns])
    return Joined(tuple(found), ages)
