"""What frames the plan: the inputs in doubt, the side with its panels, the overspray of all coats."""

import math
from collections.abc import Sequence

from laydown.planning.process import Process
from laydown.planning.setup import Setup
from laydown.schema.coat import Layer
from laydown.schema.figure import Figure
from laydown.schema.plan import DrySpray, Inputs, PlannedPanel, PlannedSide
from laydown.trade.side import panel_areas


def _figures(owner: object, names: Sequence[str]) -> dict[str, Figure]:
    """Figures of a part of the job by name; what was left out is missing."""
    found = {name: getattr(owner, name) for name in names}
    return {name: value for name, value in found.items() if isinstance(value, Figure)}


def inputs_of(setup: Setup) -> Inputs:
    """Return the inputs a person may doubt.

    Parameters
    ----------
    setup
        The job.

    Returns
    -------
    Figures with spread and source.

    Sources
    -------
    The job.
    """
    job = setup.job
    invented = job.invented or any(paint.product.status == "invented" for paint in setup.paints.values())
    air = ("temperature_c", "rh", "speed_m_s", "blower_speed_m_s", "blower_temperature_c", "pressure_pa")
    gun = ("fan_m", "distance_m", "flow_g_s", "speed_m_s", "overlap", "transfer")
    return Inputs(
        job.job.name,
        job.painter.name,
        job.job.painters,
        invented,
        _figures(job.air, air),
        _figures(job.gun, gun),
        _figures(job.surface, ("temperature_c", "effect_temperature_c")),
        job.limits.ready_by,
    )


def side_of(setup: Setup) -> PlannedSide:
    """Return the side with its panels and how far each layer reaches.

    Parameters
    ----------
    setup
        Side and extents.

    Returns
    -------
    The side; panels that get nothing are left out.

    Sources
    -------
    ``laydown.trade.extents`` and ``panel_areas``.
    """
    areas = panel_areas(setup.side)
    touched = [
        reach
        for reach in setup.extents.panels
        if "none" not in {reach.clear, reach.effect, reach.ground} or reach.clear != "none"
    ]
    panels = tuple(
        PlannedPanel(
            reach.label,
            reach.panel,
            areas[reach.panel].planned_m2,
            reach.ground,
            reach.effect,
            reach.clear,
            max((fade.length_m for fade in reach.fades.get("effect", ())), default=None),
            reach.proposed,
            reach.reason,
        )
        for reach in touched
    )
    total = math.fsum(panel.area_m2 for panel in panels)
    side = setup.side
    return PlannedSide(side.name, setup.job.job.side, side.status, total, panels, side)


def dry_spray_of(process: Process, layers: Sequence[Layer]) -> DrySpray:
    """Return overspray on set paint and on what is not painted, of all coats.

    Parameters
    ----------
    process, layers
        Simulated coats, and their nouns.

    Returns
    -------
    Grams, and the join with the most of it.

    Sources
    -------
    ``laydown.physics.overspray``.
    """
    dry = bare = 0.0
    worst: tuple[float, str | None] = (1e-3, None)
    nouns = {(layer.name, coat.number): coat for layer in layers for coat in layer.coats}
    for name, layer in process.layers.items():
        for coat in layer.coats:
            outcome = coat.planned.outcome
            cell = outcome.fog_sheet.cell_m**2
            mass = float(outcome.dry_g_m2.sum()) * cell
            dry += mass
            bare += outcome.fog_bare_g
            noun = nouns[name, coat.number]
            if mass > worst[0] and noun.joins:
                worst = mass, max(noun.joins, key=lambda join: join.age_s.value).id
    return DrySpray(dry, worst[1], bare)
