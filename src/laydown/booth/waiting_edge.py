"""The edge that waits: how sure the next join is with the time that has really passed."""

import math
from dataclasses import dataclass
from statistics import NormalDist

from laydown.planning.document.joins import MIDDLE_90, state_of
from laydown.planning.setup.weights import MOVE_S, WET_CHANCE
from laydown.schema.coat import Coat, Join, JoinState
from laydown.schema.figure import Spread
from laydown.schema.message import Message, Name, message

_NORMAL = NormalDist()
_SURE_Z = _NORMAL.inv_cdf(WET_CHANCE)
_LEAST_AGE_S = 0.5


@dataclass(frozen=True, slots=True)
class Edge:
    """A join as it stands now."""

    join: Join
    age_s: float
    chance: float
    state: JoinState
    hurry_at_s: float
    goes_at_s: float


def open_chance(age_s: float, open_s: Spread, age_ln_sd: float = 0.0) -> float:
    """Return the chance, 0 to 1, that an edge is still open.

    ::

        P = Phi(ln(open / age) / hypot(s_open, s_age)),  s = ln(high / value) / 1.645              (1)

    A pause of the hand is not counted again: what has happened is in the age.
    """
    if math.isinf(open_s.value):
        return 1.0
    spread = math.hypot(ln_sd(open_s), age_ln_sd)
    margin = math.log(max(open_s.value, 1e-9) / max(age_s, 1e-9))
    if spread <= 0.0:
        return 1.0 if margin >= 0.0 else 0.0
    return _NORMAL.cdf(margin / spread)


def ln_sd(value: Spread) -> float:
    """Return the standard deviation of the logarithm behind a lognormal figure; 0 where it has no spread."""
    if not 0.0 < value.value <= value.high < math.inf:
        return 0.0
    return math.log(value.high / value.value) / MIDDLE_90


def edge_of(coat: Coat, section: int, began_s: float, begins_s: float) -> Edge | None:
    """Return the join at the end of a section, with the time that has really passed.

    The plan's age of the edge counts from a next section that begins on time; every second of delay is added::

        age = planned age + begins - (began + elapsed + step aside + refill)    (1)
    """
    join = next((one for one in coat.joins if one.between[0] == section), None)
    if join is None:
        return None
    on_time = planned_next_s(coat, section, began_s)
    age = max(_LEAST_AGE_S, join.age_s.value + begins_s - on_time)
    chance = open_chance(age, join.open_s)
    sure = join.open_s.value * math.exp(-_SURE_Z * ln_sd(join.open_s))
    return Edge(
        join,
        age,
        chance,
        state_of(chance),
        on_time + sure - join.age_s.value,
        on_time + join.open_s.value - join.age_s.value,
    )


def planned_next_s(coat: Coat, section: int, began_s: float) -> float:
    """Return when the next section begins by the plan [s since 1970 in UTC]."""
    stop = sum(one.takes_s for one in coat.refills if one.after_section == section)
    return began_s + coat.sections[section - 1].elapsed_s + MOVE_S + stop


def next_gap(coat: Coat, section: int) -> Name | Message:
    """Return where one may begin anew after a join that is lost."""
    ahead = (Name(one.feature) for one in coat.joins if one.between[0] > section and one.kind == "gap")
    return next(ahead, message("end-of-side"))
