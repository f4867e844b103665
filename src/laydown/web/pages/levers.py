"""The levers of *what if*: what can be moved, from where to where, and in which steps."""

from collections.abc import Mapping
from dataclasses import dataclass

from laydown.desk.papers.new_job import with_unit
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.unit_table import FOOT_M
from laydown.units import System, figures

_WITH_UNIT = {"temperature_c", "rh", "water", "speed_m_s"}


@dataclass(frozen=True, slots=True)
class Lever:
    """One lever.

    Attributes
    ----------
    name
        Name of the change, as on the command line.
    head, unit
        What stands beside it.
    now
        Value of the plan as it is, as typed.
    step, least, most
        Step of the two buttons and the ends; empty for a lever with choices.
    choices
        Value and name of each choice; empty for a number.
    note
        What sets an end.
    """

    name: str
    head: str
    unit: str
    now: str
    step: str = ""
    least: str = ""
    most: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    note: str = ""


def levers_of(job: Job, plan: Plan, water_share: float, system: System) -> tuple[Lever, ...]:
    """Return the levers of a plan.

    Parameters
    ----------
    job
        The job the plan was made from.
    plan
        The plan.
    water_share
        Most water the sheet of the effect coat allows, 0 to 1.
    system
        Units of temperature and speed.

    Returns
    -------
    Levers, the air first.
    """
    effect = plan.adjustment.effect
    nozzles = sorted({job.gun.nozzle_mm, *job.gun.nozzles_owned_mm, effect.nozzle_mm})
    air, most = job.air, f"{100 * water_share:g}"
    warm = air.temperature_c.value * 1.8 + 32 if system == "us" else air.temperature_c.value
    ends = (60.0, 97.0) if system == "us" else (16.0, 36.0)
    counts = plan.colour.effect_coats
    every = (
        Lever(
            "temperature_c",
            "Booth air",
            "°F" if system == "us" else "°C",
            figures(warm),
            "1",
            *_around(warm, ends),
        ),
        Lever("rh", "Humidity", "%", figures(100 * air.rh.value), "5", "5", "95"),
        Lever(
            "water", "Water", "%", figures(100 * effect.water), "2.5", "0", most, note=f"sheet: 0 to {most} %"
        ),
        _hand_speed(job.gun.speed_m_s.value, system),
        Lever("effect_coats", "Effect coats", "", "" if counts is None else f"{counts:g}", "0.5", "0.5", "6"),
        Lever("refill_s", "A refill takes", "s", figures(_refill(job)), "15", "5", "300"),
        Lever(
            "reducer",
            "Reducer",
            "",
            effect.reducer,
            choices=tuple((word, word) for word in ("fast", "standard", "slow")),
        ),
        Lever("nozzle_mm", "Nozzle", "mm", f"{effect.nozzle_mm:g}", choices=_named(nozzles)),
        Lever("painters", "Painters", "", str(job.job.painters), choices=(("1", "one"), ("2", "two"))),
        Lever(
            "spare_cup",
            "Spare cup ready",
            "",
            _yes(job.job.spare_cup),
            choices=(("no", "no"), ("yes", "yes")),
        ),
        Lever(
            "can_walk", "Walk the length", "", _yes(job.job.can_walk), choices=(("no", "no"), ("yes", "yes"))
        ),
    )
    # A lever with one place is none.
    return tuple(lever for lever in every if len(lever.choices) != 1)


def _hand_speed(speed_m_s: float, system: System) -> Lever:
    """Lever of the hand speed."""
    if system == "us":
        now = figures(float(60 / FOOT_M) * speed_m_s)
        return Lever("speed_m_s", "Hand speed", "ft/min", now, "10", "40", "200")
    return Lever("speed_m_s", "Hand speed", "m/s", figures(speed_m_s), "0.05", "0.2", "1")


def _around(value: float, ends: tuple[float, float]) -> tuple[str, str]:
    """Widen the ends so that the value of today lies inside."""
    return f"{min(value, ends[0]):g}", f"{max(value, ends[1]):g}"


def _refill(job: Job) -> float:
    """Time of a refill that counts now [s]."""
    return job.job.spare_cup_s if job.job.spare_cup else job.job.refill_s


def _named(values: list[float]) -> tuple[tuple[str, str], ...]:
    """Write numbers as choices."""
    return tuple((f"{value:g}", f"{value:g}") for value in values)


def _yes(*given: bool) -> str:
    """Write a truth value."""
    return "yes" if all(given) else "no"


def typed_levers(levers: tuple[Lever, ...], query: Mapping[str, str]) -> dict[str, str]:
    """Return what the levers stand at.

    Parameters
    ----------
    levers
        The levers.
    query
        Values from the address; ``step`` holds a lever and a direction, for pages without a script.

    Returns
    -------
    Value of each lever as typed, between its ends where it was stepped.
    """
    stands = {lever.name: query.get(lever.name, lever.now).strip()[:20] for lever in levers}
    name, _, way = query.get("step", "").partition(":")
    for lever in levers:
        if lever.name == name and lever.step and way in {"up", "down"}:
            stands[name] = _stepped(lever, stands[name], way)
    return stands


def _stepped(lever: Lever, stands: str, way: str) -> str:
    """Move a lever by one step and stop it at its ends."""
    try:
        value = float(stands.replace(",", ".") or lever.least)
    except ValueError:
        return stands
    value += float(lever.step) if way == "up" else -float(lever.step)
    return f"{min(float(lever.most), max(float(lever.least), value)):.4g}"


def changes_of(levers: tuple[Lever, ...], stands: Mapping[str, str]) -> dict[str, str]:
    """Return what is changed, with units.

    Parameters
    ----------
    levers
        The levers.
    stands
        What they stand at.

    Returns
    -------
    Values by name of the change; a lever that stands where the plan stands is left out.
    """
    changed: dict[str, str] = {}
    for lever in levers:
        value = stands[lever.name]
        if not value or value == lever.now:
            continue
        changed[lever.name] = with_unit(value, lever.unit) if lever.name in _WITH_UNIT else value
    return changed
