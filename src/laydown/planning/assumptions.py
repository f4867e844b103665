"""Every figure nobody gave, with its value and where the default comes from."""

from laydown.planning.between import CLEAR_OPEN_LN_SD_TEXT, COOL_TO_ABOVE_AIR_K
from laydown.planning.counts import undercoat_of
from laydown.planning.dehydration import RESIDUAL_SHARE
from laydown.planning.mixes import MIX_ASSUMPTIONS
from laydown.planning.paint import CLOSED_G_M2, bands_of
from laydown.planning.process import Process
from laydown.planning.setup import Setup
from laydown.planning.weights import MOVE_S, TURN_S
from laydown.schema.figure import Figure
from laydown.schema.plan import Assumption
from laydown.trade.paint_class import defaults


def _unsaid(name: str, figure: Figure | None) -> list[Assumption]:
    """A figure of the job that was left at its default."""
    if figure is None or not figure.source.startswith(
        ("default", "common practice", "not given", "standard")
    ):
        return []
    source = "bare number in the job file, no spread known" if figure.source == "not given" else figure.source
    return [Assumption(name, figure.value, source)]


def assumptions_of(setup: Setup, process: Process) -> tuple[Assumption, ...]:
    """Return the figures a plan leans on that nobody measured for this job.

    Parameters
    ----------
    setup, process
        The job, the sheets and the plan.

    Returns
    -------
    Assumptions, each once.

    Sources
    -------
    Named in each.
    """
    found = [*_of_job(setup), *_of_paints(setup, process), *_of_hiding(setup, process)]
    found += [
        Assumption("film.closed_g_m2", CLOSED_G_M2, "derived from assumed droplets, range 25 to 55"),
        Assumption("hand.turn_s", TURN_S, "assumption, 0.3 to 0.5 s"),
        Assumption("hand.move_s", MOVE_S, "common practice, no source"),
        Assumption("effect.cool_to_above_air_k", COOL_TO_ABOVE_AIR_K, "assumption"),
        Assumption("effect.residual_share", RESIDUAL_SHARE, "assumption set to common practice"),
        Assumption("clear.open_time", CLEAR_OPEN_LN_SD_TEXT, "assumption"),
        *MIX_ASSUMPTIONS,
    ]
    if setup.side.status == "generic_fitted":
        found.append(
            Assumption("side.area_scale", "fitted", "outline fitted to estimated areas, 10 % either way")
        )
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
        found.append(Assumption("surface.temperature_c", air_c, "not measured: as the booth air"))
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
            why = "no flash time on the sheet: handbook evaporation, wide"
            found.append(Assumption(f"{layer}.transfer", 1.0, why))
        option, material = result.option, setup.job.surface.material
        for one in defaults(option.reducer, activated=option.hardener, material=material):
            found.append(Assumption(f"{layer}.{one.figure}", one.value, one.source))
    return found


def _of_hiding(setup: Setup, process: Process) -> list[Assumption]:
    """Hiding figures and undercoats nobody measured."""
    if "ground" not in process.layers:
        return []
    found = [Assumption("ground.hiding", bands_of(setup.paints["ground"].product)[3], "hiding figures")]
    for reach in setup.extents.panels:
        work = setup.works.get(reach.panel)
        if reach.ground != "none" and work is not None and work.undercoat_lightness is None:
            lightness, _, _, source = undercoat_of(work)
            found.append(Assumption(f"panel.{reach.label}.undercoat_lightness", lightness, source))
    return found
