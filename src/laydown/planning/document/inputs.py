"""What frames the plan: the inputs in doubt, the side with its panels, the overspray of all coats."""

import math
from collections.abc import Sequence

from laydown.planning.document.mixes import MIX_ASSUMPTIONS
from laydown.planning.process.drying import COOL_TO_ABOVE_AIR_K, RESIDUAL_SHARE
from laydown.planning.process.process import Process
from laydown.planning.setup.coat_parts import undercoat_of
from laydown.planning.setup.paint import CLOSED_G_M2, hiding_source
from laydown.planning.setup.setup import Setup
from laydown.planning.setup.weights import MOVE_S, TURN_S
from laydown.schema.coat import Layer
from laydown.schema.figure import Figure
from laydown.schema.message import Message, Name, message
from laydown.schema.plan import Assumption, DrySpray, Inputs, PlannedPanel, PlannedSide
from laydown.trade.mixing.paint_classes import defaults
from laydown.trade.side.build import panel_areas


def _unsaid(name: str, figure: Figure | None) -> list[Assumption]:
    """A figure of the job that was left at its default."""
    if figure is None or not figure.source.startswith(
        ("default", "common practice", "not given", "standard")
    ):
        return []
    source = message("source.bare-number") if figure.source == "not given" else _as_given(figure.source)
    return [Assumption(name, figure.value, source)]


def _as_given(source: str) -> Message:
    """A source in the words in which it was given."""
    return message("source.as-given", source=Name(source))


def assumptions_of(setup: Setup, process: Process) -> tuple[Assumption, ...]:
    """Return the figures a plan leans on that nobody measured for this job."""
    found = [*_of_job(setup), *_of_paints(setup, process), *_of_hiding(setup, process)]
    found += [
        Assumption("film.closed_g_m2", CLOSED_G_M2, message("source.assumed-droplets")),
        Assumption("hand.turn_s", TURN_S, message("source.turn")),
        Assumption("hand.move_s", MOVE_S, message("source.common-practice")),
        Assumption("effect.cool_to_above_air_k", COOL_TO_ABOVE_AIR_K, message("source.assumption")),
        Assumption("effect.residual_share", RESIDUAL_SHARE, message("source.set-to-practice")),
        Assumption("clear.open_time", message("taken.half-the-flash"), message("source.assumption")),
        *MIX_ASSUMPTIONS,
    ]
    if setup.side.status == "generic_fitted":
        found.append(Assumption("side.area_scale", message("taken.fitted"), message("source.outline-fitted")))
    return tuple({one.figure: one for one in found}.values())


def _of_job(setup: Setup) -> list[Assumption]:
    """Figures of the job that were left out or have no spread."""
    job = setup.job
    found: list[Assumption] = []
    for name in ("speed_m_s", "blower_speed_m_s", "pressure_pa"):
        found += _unsaid(f"air.{name}", getattr(job.air, name))
    for name in ("fan_m", "distance_m", "flow_g_s", "speed_m_s", "overlap", "transfer"):
        found += _unsaid(f"gun.{name}", getattr(job.gun, name))
    if job.surface.temperature_c is None:
        air_c = job.air.temperature_c.value
        found.append(Assumption("surface.temperature_c", air_c, message("source.as-booth-air")))
    return found


def _of_paints(setup: Setup, process: Process) -> list[Assumption]:
    """What the sheets leave out, and the classes of the film model."""
    found: list[Assumption] = []
    for layer, result in process.layers.items():
        paint = setup.paints[layer]
        found += paint.assumptions
        if layer == "clear":
            continue
        if paint.product.flash is None:
            found.append(Assumption(f"{layer}.transfer", 1.0, message("source.handbook-evaporation")))
        option, material = result.option, setup.job.surface.material
        for one in defaults(option.reducer, activated=option.hardener, material=material):
            found.append(Assumption(f"{layer}.{one.figure}", one.value, _as_given(one.source)))
    return found


def _of_hiding(setup: Setup, process: Process) -> list[Assumption]:
    """Hiding figures and undercoats nobody measured."""
    if "ground" not in process.layers:
        return []
    found = [
        Assumption(
            "ground.hiding", hiding_source(setup.paints["ground"].product), message("source.hiding-figures")
        )
    ]
    for reach in setup.extents.panels:
        work = setup.works.get(reach.panel)
        if reach.ground != "none" and work is not None and work.undercoat_lightness is None:
            lightness, _, _, source = undercoat_of(work)
            found.append(Assumption(f"panel.{reach.label}.undercoat_lightness", lightness, source))
    return found


def _figures(owner: object, names: Sequence[str]) -> dict[str, Figure]:
    """Figures of a part of the job by name; what was left out is missing."""
    found = {name: getattr(owner, name) for name in names}
    return {name: value for name, value in found.items() if isinstance(value, Figure)}


def inputs_of(setup: Setup) -> Inputs:
    """Return the inputs a person may doubt."""
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
    """Return the side with its panels and how far each layer reaches."""
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
    """Return overspray on set paint and on what is not painted, of all coats."""
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
