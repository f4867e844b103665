"""The levers of *what if*: what can be moved, from where to where, and in which steps."""

from collections.abc import Mapping
from dataclasses import dataclass

from laydown.desk.papers.new_job import with_unit
from laydown.schema.job import Job
from laydown.schema.message import Message, message
from laydown.schema.plan import Plan
from laydown.unit_table import FOOT_M
from laydown.units import System, figures

_REDUCERS = tuple((word, message(f"reducer.{word}")) for word in ("fast", "standard", "slow"))
_PAINTERS = (("1", message("lever.one")), ("2", message("lever.two")))
_NO_YES = (("no", message("lever.no")), ("yes", message("lever.yes")))
_WITH_UNIT = {"temperature_c", "rh", "water", "speed_m_s"}


@dataclass(frozen=True, slots=True)
class Lever:
    """A control of *what if*: its field, its steps and what it stands at."""

    name: str
    unit: str
    now: str
    step: str = ""
    least: str = ""
    most: str = ""
    choices: tuple[tuple[str, Message], ...] = ()
    note: Message | None = None

    @property
    def head(self) -> Message:
        """What the lever is called."""
        return message(f"lever.{self.name}")


def levers_of(job: Job, plan: Plan, water_share: float, system: System) -> tuple[Lever, ...]:
    """Return the levers of a plan."""
    effect = plan.adjustment.effect
    nozzles = sorted({job.gun.nozzle_mm, *job.gun.nozzles_owned_mm, effect.nozzle_mm})
    air, most = job.air, f"{100 * water_share:g}"
    warm = air.temperature_c.value * 1.8 + 32 if system == "us" else air.temperature_c.value
    ends = (60.0, 97.0) if system == "us" else (16.0, 36.0)
    counts = plan.colour.effect_coats
    every = (
        Lever("temperature_c", "°F" if system == "us" else "°C", figures(warm), "1", *_around(warm, ends)),
        Lever("rh", "%", figures(100 * air.rh.value), "5", "5", "95"),
        Lever(
            "water",
            "%",
            figures(100 * effect.water),
            "2.5",
            "0",
            most,
            note=message("lever.water.note", most_share=water_share),
        ),
        _hand_speed(job.gun.speed_m_s.value, system),
        Lever("effect_coats", "", "" if counts is None else f"{counts:g}", "0.5", "0.5", "6"),
        Lever("refill_s", "s", figures(_refill(job)), "15", "5", "300"),
        Lever("reducer", "", effect.reducer, choices=_REDUCERS),
        Lever("nozzle_mm", "mm", f"{effect.nozzle_mm:g}", choices=_named(nozzles)),
        Lever("painters", "", str(job.job.painters), choices=_PAINTERS),
        Lever("spare_cup", "", _yes(job.job.spare_cup), choices=_NO_YES),
        Lever("can_walk", "", _yes(job.job.can_walk), choices=_NO_YES),
    )
    # A lever with one place is none.
    return tuple(lever for lever in every if len(lever.choices) != 1)


def _hand_speed(speed_m_s: float, system: System) -> Lever:
    """Lever of the hand speed."""
    if system == "us":
        now = figures(float(60 / FOOT_M) * speed_m_s)
        return Lever("speed_m_s", "ft/min", now, "10", "40", "200")
    return Lever("speed_m_s", "m/s", figures(speed_m_s), "0.05", "0.2", "1")


def _around(value: float, ends: tuple[float, float]) -> tuple[str, str]:
    """Widen the ends so that the value of today lies inside."""
    return f"{min(value, ends[0]):g}", f"{max(value, ends[1]):g}"


def _refill(job: Job) -> float:
    """Time of a refill that counts now [s]."""
    return job.job.spare_cup_s if job.job.spare_cup else job.job.refill_s


def _named(values: list[float]) -> tuple[tuple[str, Message], ...]:
    """Write numbers as choices."""
    return tuple((f"{value:g}", message("as-number", number=value)) for value in values)


def _yes(*given: bool) -> str:
    """Write a truth value."""
    return "yes" if all(given) else "no"


def typed_levers(levers: tuple[Lever, ...], query: Mapping[str, str]) -> dict[str, str]:
    """Return what the levers stand at."""
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
    """Return what is changed, with units."""
    changed: dict[str, str] = {}
    for lever in levers:
        value = stands[lever.name]
        if not value or value == lever.now:
            continue
        changed[lever.name] = with_unit(value, lever.unit) if lever.name in _WITH_UNIT else value
    return changed
