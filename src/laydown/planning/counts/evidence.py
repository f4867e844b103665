"""The let-down panel as nouns of the plan: zones, fields, curves."""

from collections.abc import Sequence

import numpy as np

from laydown.physics.colour.count_chances import zones_join
from laydown.physics.colour.difference import de2000
from laydown.physics.colour.letdown import curve
from laydown.physics.values import Floats
from laydown.planning.counts.effect_coats import EffectWay, least_loss
from laydown.planning.counts.ground_check import GroundRecord
from laydown.planning.counts.readings import PanelReadings
from laydown.planning.counts.zone_message import LEAST_CHANCE, differs_of, next_step_of, reason_of
from laydown.planning.counts.zone_verdict import Judged
from laydown.schema.colour import AngleColour, AngleCurve, HalfChance, PanelEvidence, PanelField, ZoneVerdict

CURVE_STEP = 0.25
"""Distance of the points of a drawn curve [coats]; a choice."""

_PLASTIC = ("bumper", "plastic", "spoiler", "mirror", "trim")
"""Words of zones that are plastic; common practice, no source: they never share a count by themselves."""


def zone_nouns(
    zones: Sequence[Judged],
    read: PanelReadings | None,
    ground: GroundRecord,
    ways: dict[float, EffectWay],
    panel_g_m2: float | None,
) -> tuple[ZoneVerdict, ...]:
    """Return the verdict of each zone for the plan."""
    return tuple(_zone(one, zones, (read, ground), ways, panel_g_m2) for one in zones)


def _zone(
    one: Judged,
    zones: Sequence[Judged],
    known: tuple[PanelReadings | None, GroundRecord],
    ways: dict[float, EffectWay],
    panel_g_m2: float | None,
) -> ZoneVerdict:
    """One zone."""
    read, ground = known
    found, halves = one.posterior, one.halves
    chances: tuple[HalfChance, ...] = ()
    if halves is not None:
        chances = tuple(
            HalfChance(float(coats), round(float(chance), 4))
            for coats, chance in zip(halves.halves, halves.mass, strict=True)
            if chance >= LEAST_CHANCE
        )
    left = one.misfit_de
    ordered = least_loss(found, ways, panel_g_m2) if one.counts and found is not None else None
    worst = int(left.argmax()) if left is not None else None
    return ZoneVerdict(
        zone=one.zone,
        verdict=one.verdict,
        coats=ordered,
        mean=_rounded(found.mean if found is not None else None),
        low=_rounded(found.low if found is not None else None),
        high=_rounded(found.high if found is not None else None),
        chances=chances,
        worst_de=_rounded(float(left[worst]) if left is not None and worst is not None else None),
        worst_angle_deg=float(read.angles_deg[worst]) if read is not None and worst is not None else None,
        differs=(differs_of(one, read, ground) or "") if read is not None else "",
        joins_with=tuple(other.zone for other in zones if other is not one and joins(one, other)),
        reason=reason_of(one, ground),
        next_step=next_step_of(one, read, ground, ordered) or "",
    )


def joins(first: Judged, second: Judged) -> bool:
    """Return whether two zones may share a count: near enough, both counted, neither of plastic.

    Source: ``zones_join``; plastic: common practice, no source.
    """
    if not (first.counts and second.counts) or first.posterior is None or second.posterior is None:
        return False
    if any(word in zone.zone.casefold() for zone in (first, second) for word in _PLASTIC):
        return False
    return zones_join(first.posterior, second.posterior)


def evidence_of(
    fields: tuple[PanelField, ...],
    read: PanelReadings | None,
    ground: GroundRecord,
    wanted: tuple[str, float | None],
) -> PanelEvidence:
    """Return the panel as it was read."""
    if read is None:
        return PanelEvidence(fields, ground_de=_rounded(ground.difference_de))
    drawn = fields or tuple(PanelField(float(coats)) for coats in np.unique(read.fit.coats))
    return PanelEvidence(
        drawn, _curves(read, ground, wanted), *read.light, ground_de=_rounded(ground.difference_de)
    )


def _curves(
    read: PanelReadings, ground: GroundRecord, wanted: tuple[str, float | None]
) -> tuple[AngleCurve, ...]:
    """One curve for each angle."""
    zone, coats = wanted
    points = np.arange(round(read.fit.last / CURVE_STEP) + 1) * CURVE_STEP
    lines, _ = curve(read.fit, np.minimum(points, read.fit.last), ground.delta)
    aim = None
    if coats is not None:
        aim = curve(read.fit, np.array([min(coats, read.fit.last)]), ground.delta)[0][0]
    found = []
    for at, angle in enumerate(read.angles_deg):
        target = read.cars[zone].lab[at] if zone in read.cars else None
        far = float(de2000(aim[at], target)) if aim is not None and target is not None else None
        found.append(
            AngleCurve(
                float(angle),
                tuple(_colour(float(n), "", lab[at]) for n, lab in zip(points, lines, strict=True)),
                tuple(
                    _colour(float(n), "", lab[at])
                    for n, lab in zip(read.fit.coats, read.fit.lab, strict=True)
                ),
                tuple(_colour(None, name, car.lab[at]) for name, car in read.cars.items()),
                _colour(coats, zone, aim[at]) if aim is not None else None,
                _rounded(far),
            )
        )
    return tuple(found)


def _colour(coats: float | None, zone: str, lab: Floats) -> AngleColour:
    """A colour, rounded as it is printed."""
    return AngleColour(
        coats, zone, (round(float(lab[0]), 3), round(float(lab[1]), 3), round(float(lab[2]), 3))
    )


def _rounded(value: float | None) -> float | None:
    """Three digits behind the point."""
    return None if value is None else round(float(value), 3)
