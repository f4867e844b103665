"""How many effect coats: from panel, eye, instrument and the user's own choice to the count that is planned."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from laydown.physics.colour.letdown import LetdownFit
from laydown.physics.values import Floats
from laydown.planning.counts.effect_coats import EffectWay, effect_ways, panel_coats_of, panel_film_g_m2
from laydown.planning.counts.effect_findings import colour_findings
from laydown.planning.counts.evidence import evidence_of, zone_nouns
from laydown.planning.counts.eyes import both, fields_of, judge_by_eye
from laydown.planning.counts.ground_check import GroundRecord, ground_record
from laydown.planning.counts.readings import PanelReadings, panel_readings
from laydown.planning.counts.zone_verdict import Judged, judge_zone
from laydown.planning.setup.coat_parts import CoatPlan
from laydown.planning.setup.paint import Paint
from laydown.planning.setup.spraying import GunPass
from laydown.schema.choices import Choices, Sample
from laydown.schema.colour import ColourVerdict, ComparedBy, ZoneVerdict
from laydown.schema.job import Gun
from laydown.schema.message import Finding, Message, Saying, message
from laydown.schema.reading import Readings

FILM_CLOSE = 0.15
"""A coat of the panel and one of the plan whose films differ by a greater share make a count provisional; assumption."""


@dataclass(frozen=True, slots=True)
class ColourTask:
    """What a count is made from; nothing of it changes with the air."""

    sample: Sample
    choices: Choices
    gun: Gun
    readings: Readings | None
    paint: Paint
    full: GunPass


@dataclass(frozen=True, slots=True, eq=False)
class Sight:
    """What predicts how a film looks."""

    fit: LetdownFit
    angles_deg: Floats
    delta: Floats | None
    wanted: float
    panel_g_m2: float | None


@dataclass(frozen=True, slots=True)
class ColourCount:
    """The planned count of effect coats."""

    verdict: ColourVerdict
    coats: tuple[CoatPlan, ...]
    sight: Sight | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class _Panel:
    """What panel, eye and instrument say before the user's own choice is looked at."""

    read: PanelReadings | None
    unusable: Message | None
    ground: GroundRecord
    zones: tuple[Judged, ...]
    deciding: Judged | None
    read_by: ComparedBy


@lru_cache(maxsize=16)
def count_colour(task: ColourTask) -> ColourCount:
    """Return the count of effect coats, provisional where no let-down panel decides.

    Source: The sheet; ``panel_judge``; common practice, no source: no count without a let-down panel and a
    ground that matches.
    """
    sample, choices = task.sample, task.choices
    ways = dict(effect_ways(choices, task.full))
    film = panel_film_g_m2(sample, task.gun)
    panel = _panel(task)
    zones = zone_nouns(panel.zones, panel.read, panel.ground, ways, film)
    deciding = next(
        (noun for noun, one in zip(zones, panel.zones, strict=True) if one is panel.deciding), None
    )
    verdict = _verdict(task, panel, deciding, ways, film)
    ordered = verdict.effect_coats or task.paint.coats_min
    way = ways[min(max(round(2.0 * ordered) / 2.0, 0.5), max(ways))]
    wanted = panel_coats_of(way, film)
    evidence = None
    if panel.read is not None or panel.zones or fields_of(sample):
        counted = verdict.panel_coats is not None
        aim = (panel.deciding.zone if panel.deciding is not None else "", wanted if counted else None)
        evidence = evidence_of(fields_of(sample), panel.read, panel.ground, aim)
    verdict = replace(verdict, zones=zones, evidence=evidence)
    sight = None
    if panel.read is not None and verdict.panel_coats is not None and wanted <= panel.read.fit.last:
        sight = Sight(panel.read.fit, panel.read.angles_deg, panel.ground.delta, wanted, film)
    found = colour_findings(verdict, task.paint, (sample, choices), panel.read, panel.unusable)
    return ColourCount(verdict, way.coats, sight, tuple(found))


def _panel(task: ColourTask) -> _Panel:
    """What panel, eye and instrument say."""
    sample = task.sample
    found = panel_readings(task.readings) if task.readings is not None else None
    read = found if isinstance(found, PanelReadings) else None
    unusable = found if isinstance(found, Message) else None
    if sample.readings is not None and task.readings is None:
        unusable = message("readings-not-at-hand")
    middle = (task.paint.coats_min + task.paint.coats_max) / 2.0
    ground = ground_record(sample, read, middle)
    judged = [judge_zone(zone, read, car, ground) for zone, car in read.cars.items()] if read else []
    name = _deciding_zone(sample.zone, [one.zone for one in judged])
    seen = judge_by_eye(name, sample, ground)
    if seen is not None:
        judged = [both(one, seen) if one.zone == name else one for one in judged] or [seen]
    deciding = next((one for one in judged if one.zone == name), None)
    eye = "eye" if seen is not None else "nobody"
    by: ComparedBy = eye if read is None else ("instrument and eye" if seen is not None else "instrument")  # type: ignore[assignment]
    return _Panel(read, unusable, ground, tuple(judged), deciding, by)


def _deciding_zone(asked: str | None, zones: Sequence[str]) -> str:
    """The zone whose count is planned: as asked, else one called a side, else the first."""
    wanted = (asked or "").strip().casefold()
    for zone in zones:
        if zone.strip().casefold() == wanted:
            return zone
    sides = [zone for zone in zones if "side" in zone.casefold()]
    return (sides or list(zones) or [asked or ""])[0]


def _verdict(
    task: ColourTask,
    panel: _Panel,
    zone: ZoneVerdict | None,
    ways: dict[float, EffectWay],
    film: float | None,
) -> ColourVerdict:
    """The count that is planned and how sure it is."""
    paint, fixed = task.paint, task.choices.effect_coats
    factor = None if film is None else task.full.film_g_m2() / film
    base = ColourVerdict(
        verdict="no_panel",
        effect_coats=paint.coats_min,
        low=paint.coats_min,
        high=paint.coats_max,
        provisional=True,
        reason=message("no-panel-decides", least=paint.coats_min, most=paint.coats_max),
        next_step=message("do.spray-panel"),
        read_by=panel.read_by,
        film_factor=None if factor is None else round(factor, 3),
    )
    if zone is not None:
        base = replace(
            base, verdict=zone.verdict, zone=zone.zone, reason=zone.reason, next_step=zone.next_step
        )
    elif panel.ground.state == "wrong":
        step = message("do.another-ground-variant")
        base = replace(base, verdict="ground_wrong", reason=panel.ground.reason, next_step=step)
    if zone is not None and zone.coats is not None and zone.low is not None and zone.high is not None:
        base = _counted(base, zone, panel, ways, film)
    return base if fixed is None else _fixed(base, fixed, ways, film, paint)


def _counted(
    base: ColourVerdict,
    zone: ZoneVerdict,
    panel: _Panel,
    ways: dict[float, EffectWay],
    film: float | None,
) -> ColourVerdict:
    """The count of the panel, in coats of the plan."""
    if zone.coats is None or zone.low is None or zone.high is None:
        raise ValueError("zone must have a count")
    way = ways[zone.coats]
    made = panel_coats_of(way, film)
    ratio = way.counts / made
    far = base.film_factor is not None and abs(base.film_factor - 1.0) > FILM_CLOSE
    return replace(
        base,
        effect_coats=zone.coats,
        low=round(zone.low * ratio, 2),
        high=round(zone.high * ratio, 2),
        provisional=panel.ground.state == "provisional" or far,
        panel_coats=round(made, 2),
    )


def _fixed(
    base: ColourVerdict, fixed: float, ways: dict[float, EffectWay], film: float | None, paint: Paint
) -> ColourVerdict:
    """The count the user fixed, judged against the panel."""
    kept: tuple[Saying, ...] = (message("coats-fixed", coats=fixed),)
    made = round(panel_coats_of(ways[fixed], film), 2) if fixed in ways else None
    if base.panel_coats is None:
        silent = base.verdict in {"no_panel", "ground_unchecked"}
        said = kept if silent else (*kept, base.reason)
        allowed = message("sheet-allows", least=paint.coats_min, most=paint.coats_max)
        return replace(
            base,
            effect_coats=fixed,
            low=fixed,
            high=fixed,
            provisional=False,
            reason=message("reasons", reasons=(*said, allowed)),
            panel_coats=made if base.read_by.startswith("instrument") else None,
        )
    reason = message("reasons", reasons=(*kept, base.reason))
    return replace(base, effect_coats=fixed, provisional=False, reason=reason, panel_coats=made)
