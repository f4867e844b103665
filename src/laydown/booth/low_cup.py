"""Joins judged anew, and the cup that runs low: where to fill it, and what that does to the joins."""

from dataclasses import replace

from laydown.booth.waiting_edge import ln_sd, open_chance
from laydown.planning.document.joins import state_of
from laydown.schema.coat import Coat, Join, Refill, Section
from laydown.schema.figure import Spread

RESERVE_G = 30.0
"""What must stay in the cup so that the gun does not spit [g]; common practice, no source."""

MORE_SHARE = 1.10
"""A fill over what is needed; common practice, no source."""

_LEAST_AGE_S = 0.5


def rejudged(join: Join, age_s: Spread, open_s: Spread) -> Join:
    """Return a join with another age or open time."""
    if (age_s, open_s) == (join.age_s, join.open_s):
        return join
    chance = open_chance(age_s.value, open_s, ln_sd(age_s))
    margin = Spread(open_s.value - age_s.value, open_s.low - age_s.high, open_s.high - age_s.low)
    return replace(
        join, age_s=age_s, open_s=open_s, margin_s=margin, wet_chance=chance, state=state_of(chance)
    )


def with_low_cup(
    coat: Coat, section: int, left_g: float, cup_g: float, painters: int, refill_s: float
) -> Coat:
    """Return a coat with its refills laid anew for what is left in the cup."""
    before = tuple(one for one in coat.refills if one.after_section < section)
    found: list[Refill] = []
    sections = list(coat.sections)
    cup, at = left_g, section
    while at < len(sections):
        last = _last_reached(coat, at, cup, painters)
        if last < len(sections):
            last = _at_gap(coat, at, last)
        for index in range(at, last):
            cup = max(0.0, cup - sections[index].sprayed_g / painters)
            sections[index] = replace(sections[index], cup_g_after=cup)
        if last == len(sections):
            break
        cup = _fill_g(sections[last:], painters, cup_g)
        found.append(Refill(last, _feature(coat, last), refill_s, cup))
        # A fill that still does not reach through one section must not be filled twice at the same place.
        at = last + 1
        cup = max(0.0, cup - sections[last].sprayed_g / painters)
        sections[last] = replace(sections[last], cup_g_after=cup)
    refills = (*before, *found)
    joins = tuple(_delayed(join, coat, refills) for join in coat.joins)
    return replace(coat, sections=tuple(sections), refills=refills, joins=joins)


def _last_reached(coat: Coat, at: int, cup_g: float, painters: int) -> int:
    """The last section that the cup reaches through with its reserve; at least the one that is done."""
    left, last = cup_g, at
    for index in range(at, len(coat.sections)):
        left -= coat.sections[index].sprayed_g / painters
        if left < RESERVE_G:
            break
        last = index + 1
    return last


def _at_gap(coat: Coat, at: int, last: int) -> int:
    """The last gap on the way, else the last end of a section."""
    gaps = [join.between[0] for join in coat.joins if at <= join.between[0] <= last and join.kind == "gap"]
    return max(gaps, default=last)


def _fill_g(ahead: list[Section], painters: int, cup_g: float) -> float:
    """What goes into the cup: what the rest needs and a reserve, at most a full cup."""
    need = sum(one.sprayed_g for one in ahead) / painters
    return min(cup_g, need * MORE_SHARE + RESERVE_G)


def _feature(coat: Coat, section: int) -> str:
    """Where a section ends."""
    panels = ", ".join(coat.sections[section - 1].panels)
    return next((join.feature for join in coat.joins if join.between[0] == section), panels)


def _delayed(join: Join, coat: Coat, refills: tuple[Refill, ...]) -> Join:
    """A join with the refills as they are now; a stop ages the edge by what it takes."""
    section = join.between[0]
    was = sum(one.takes_s for one in coat.refills if one.after_section == section)
    will = sum(one.takes_s for one in refills if one.after_section == section)
    if was == will:
        return join
    age = max(_LEAST_AGE_S, join.age_s.value + will - was)
    factor = join.age_s.high / join.age_s.value if join.age_s.value > 0.0 else 1.0
    return rejudged(join, Spread(age, age / factor, age * factor), join.open_s)
