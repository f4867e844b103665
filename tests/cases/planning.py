"""Requests for tests of the planner: any shipped side, air, panels, crew and choices; plans are made once and shared.

The gun, the invented products and the blowers are those of the shipped job ``white-pearl-left``; all else is said here.
There is no let-down panel: counts are fixed or left to the sheet.
"""

from dataclasses import dataclass, replace
from functools import cache

from laydown.desk.papers.files import open_job
from laydown.physics.spray.fan import raster_mean_g_m2
from laydown.planning.plan import Stamp, plan_from
from laydown.planning.process.process import Process, process_of
from laydown.planning.setup.request import Planned, Request
from laydown.planning.setup.setup import Setup, setup_of
from laydown.reader.papers.shelf import shipped_folder
from laydown.schema.choices import Choices, Extent, PanelWork, Sample
from laydown.schema.figure import Figure
from laydown.trade.side.build import build_side

CARS = ("small hatch", "medium hatch", "large saloon")
VANS = ("medium van", "large van")
SHAPES = (*CARS, *VANS)

Work = tuple[str, str, float, Extent | None, Extent | None, Extent | None]
"""Label, state, CIE L* of the undercoat, and how far ground, effect and clear reach."""

WING_AND_DOOR: tuple[Work, ...] = (
    ("front wing", "new", 75.0, "full", "full", "full"),
    ("front door", "repaired", 75.0, "full", "full", "full"),
    ("rear door", "sound", 75.0, "none", "fade", "full"),
    ("quarter", "sound", 75.0, "none", "none", "full"),
)
"""A new wing and a repaired door; the effect coat fades out in the rear door."""

WING_ONLY: tuple[Work, ...] = (
    ("front wing", "new", 90.0, None, None, None),
    ("front door", "sound", 90.0, None, None, None),
)
"""A new wing beside a sound door; how far each layer reaches is left to the plan."""

SPOT_IN_DOOR: tuple[Work, ...] = (
    ("front wing", "repaired", 90.0, "full", "full", "full"),
    ("front door", "repaired", 90.0, "fade", "full", "full"),
)
"""The ground coat of the door ends on open panel."""


@dataclass(frozen=True)
class Case:
    """What is asked; every panel of the side is painted over white undercoat unless ``works`` says otherwise."""

    shape: str = "medium hatch"
    temperature_c: float = 20.0
    rh: float = 0.5
    side: str = "left"
    painters: int = 1
    can_walk: bool = False
    spare_cup: bool = False
    start: str = "best"
    habit: str | None = None
    skill: str = "skilled"
    undercoat: float = 90.0
    works: tuple[Work, ...] | None = None
    air_m_s: float = 0.3
    blower_m_s: float = 2.0
    panel_c: float | None = None
    effect_panel_c: float | None = None
    hand_m_s: float | None = None
    overlap: float | None = None
    reducer: str | None = None
    water: float | None = None
    hardener: bool | None = True
    nozzle_mm: float | None = None
    ground_coats: float | None = None
    effect_coats: float | None = 2.0


ONE_PANEL: tuple[Work, ...] = (("front door", "repaired", 90.0, "full", "full", "full"),)
"""One door, painted to its gaps."""

MILD = Case()
"""A car side in mild air."""

DRY = Case(rh=0.2)
"""A car side in dry winter air."""

SEVERE = Case(temperature_c=33.0, rh=0.2)
"""The most severe air that the sheets allow."""

VAN = Case(shape="large van", temperature_c=25.0, rh=0.4)
"""A large van, two cups to a coat."""

VAN_REAR = Case(shape="large van", works=(("rear side", "repaired", 90.0, "full", "full", "full"),))
"""The long rear side of a van: a wheel arch, and no gap but the one in front."""

FADE = Case(works=WING_AND_DOOR, rh=0.22)
"""A layer that fades out."""


def _works(case: Case, labels: tuple[str, ...]) -> tuple[PanelWork, ...]:
    whole: tuple[Work, ...] = tuple(
        (label, "repaired", case.undercoat, "full", "full", "full") for label in labels
    )
    return tuple(
        PanelWork(label, state, Figure(lightness), None, ground, effect, clear)
        for label, state, lightness, ground, effect, clear in case.works or whole
    )


@cache
def _shipped() -> Request:
    return open_job(shipped_folder() / "jobs" / "white-pearl-left.toml")


@cache
def request_of(case: Case) -> Request:
    """The request of a case."""
    base = _shipped()
    side = build_side(case.shape, {})
    job = base.job
    task = replace(
        job.job,
        side=case.side,
        painters=case.painters,
        can_walk=case.can_walk,
        spare_cup=case.spare_cup,
        start=case.start,
    )
    air = replace(
        job.air,
        temperature_c=Figure(case.temperature_c),
        rh=Figure(case.rh),
        speed_m_s=Figure(case.air_m_s),
        blower_speed_m_s=Figure(case.blower_m_s),
    )
    surface = replace(
        job.surface,
        temperature_c=None if case.panel_c is None else Figure(case.panel_c),
        effect_temperature_c=None if case.effect_panel_c is None else Figure(case.effect_panel_c),
    )
    gun = job.gun
    if case.hand_m_s is not None:
        gun = replace(gun, speed_m_s=Figure(case.hand_m_s))
    if case.overlap is not None:
        gun = replace(gun, overlap=Figure(case.overlap))
    choices = Choices(
        case.reducer, case.water, case.hardener, case.nozzle_mm, case.ground_coats, case.effect_coats
    )
    panels = _works(case, tuple(panel.label for panel in side.panels))
    return replace(
        base,
        side=side,
        readings=None,
        job=replace(
            job,
            job=task,
            body=replace(job.body, shape=case.shape),
            panel=panels,
            air=air,
            surface=surface,
            gun=gun,
            choices=choices,
            sample=Sample(ground_check="match"),
            painter=replace(job.painter, habit=case.habit, skill=case.skill),
        ),
    )


@cache
def setup_for(case: Case) -> Setup:
    """What the planner works with."""
    return setup_of(request_of(case))


@cache
def process_for(case: Case) -> Process:
    """All layers of a case."""
    return process_of(setup_for(case))


@cache
def planned(case: Case) -> Planned:
    """The plan of a case with alternatives, limits of use and maps."""
    return plan_from(setup_for(case), Stamp(request_of(case).version), thorough=True, drawn=True)


@cache
def quick(case: Case) -> Planned:
    """The plan of a case without alternatives, limits of use and maps."""
    return plan_from(setup_for(case), Stamp(request_of(case).version), thorough=False, drawn=False)


def coats_of(plan):
    """Every coat of a plan with its layer."""
    return [(layer, coat) for layer in plan.layers for coat in layer.coats]


def codes(plan):
    """Codes of all findings of a plan."""
    return {finding.code for finding in plan.findings}


def film_of(one):
    """Mean wet film of a pass as printed in the plan [g/m²]."""
    return raster_mean_g_m2(one.flow_g_s, one.transfer, one.fan_m, one.overlap, one.speed_m_s)
