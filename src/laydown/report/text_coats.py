"""Coats of a layer as plain text: sections with seconds, grams, cup and the join to the next."""

from laydown.report.lines import columns, fit, paragraph
from laydown.report.text_words import MARKS, names_that_fit, pace_text, spread_text
from laydown.schema.coat import Coat, Join, Layer, Section
from laydown.schema.plan import Plan
from laydown.units import System, show

_Rows = tuple[str, ...]

_FIXED = 26
_LEAST_ROOM = 7


def plan_room(plan: Plan, system: System, width: int) -> int:
    """Width that is left for names of panels, so that all tables of a plan stand under each other.

    Parameters
    ----------
    plan
        The plan.
    system
        How figures are shown.
    width
        Columns there are.

    Returns
    -------
    Columns.
    """
    ends = [
        len(_end(coat, section, system))
        for layer in plan.layers
        for coat in layer.coats
        for section in coat.sections
    ]
    return max(_LEAST_ROOM, width - _FIXED - max(ends, default=0))


def layer_lines(layer: Layer, room: int, system: System, width: int) -> list[str]:
    """Write one layer.

    Parameters
    ----------
    layer
        The layer.
    room
        Width for names of panels.
    system
        How figures are shown.
    width
        Columns there are.

    Returns
    -------
    Lines; coats that are worked alike share their rows.
    """
    panel = show(layer.panel_c.value, "panel_c", system)
    control = any(coat.part == "control" for coat in layer.coats)
    plain = sum(coat.part != "control" for coat in layer.coats)
    count = f"{plain} coat{'' if plain == 1 else 's'}{' + control' if control else ''}"
    lines = [fit(f"{layer.name.upper():8} {count}   {layer.product}   panel {panel}", width).rstrip()]
    groups: dict[_Rows, list[Coat]] = {}
    for coat in layer.coats:
        groups.setdefault(tuple(_coat(coat, room, system, width, clear=layer.name == "clear")), []).append(
            coat
        )
    for rows, coats in groups.items():
        lines += [f" {_names(coats)}", *rows]
    return lines


def _names(coats: list[Coat]) -> str:
    """Name the coats of one block."""
    names = ["control" if coat.part == "control" else str(coat.number) for coat in coats]
    return f"{'coat' if len(names) == 1 else 'coats'} {', '.join(names)}"


def _coat(coat: Coat, room: int, system: System, width: int, *, clear: bool) -> list[str]:
    """Rows of one coat."""
    last = [_end(coat, section, system) for section in coat.sections]
    head = _row(("sec", "panel", "s", "g", "cup g"), "join to next", room)
    rows = [head] if coat.sections else []
    for section, end in zip(coat.sections, last, strict=True):
        name = names_that_fit(section.panels, lambda text: len(text) <= room)
        numbers = (f"{section.spray_s:.0f}", f"{section.sprayed_g:.0f}", f"{section.cup_g_after:.0f}")
        rows.append(_row((str(section.order), name, *numbers), end, room))
    high = [str(section.order) for section in coat.sections if section.needs_step]
    if high:
        rows += paragraph("  step   ", f"above reach in section {', '.join(high)}", width)
    held = coat.passes[0] if coat.passes else None
    rows += paragraph("  start  ", f"{coat.start}, {coat.direction}; {_refills(coat, system)}", width)
    if held is not None:
        text = (
            f"overlap {show(held.overlap, 'overlap', system)}, {show(held.distance_m, 'distance_m', system)} away, "
            f"{pace_text(held.seconds_per_m, system)}, {_pressure(held.pressure_bar, system)}"
        )
        rows += paragraph("  gun    ", text, width)
    flash = coat.flash_s
    ask = "" if clear else "   gloss gone? [ ]" if coat.wet_next else "   matt? [ ]"
    span = f"{flash.low / 60:.0f}-{flash.high / 60:.0f}"
    text = f"{flash.value / 60:.0f} min ({span})   edge open {spread_text(coat.open_s)}{ask}"
    rows += paragraph("  flash  ", text, width)
    return rows


def _pressure(pressure_bar: float | None, system: System) -> str:
    """Pressure, or who knows it."""
    return "pressure as the sheet" if pressure_bar is None else show(pressure_bar, "pressure_bar", system)


def _row(cells: tuple[str, ...], end: str, room: int) -> str:
    """One row: order, panel, three numbers, and the join, which is never cut."""
    order, panel, *numbers = cells
    sizes = (-4, -5, -6)
    fixed = columns(((order, -4), (panel, room), *zip(numbers, sizes, strict=True)), 1)
    return f"{fixed}  {end}".rstrip()


def _end(coat: Coat, section: Section, system: System) -> str:
    """Join at the end of a section."""
    join = next((row for row in coat.joins if row.between[0] == section.order), None)
    return "  end" if join is None else _join(join, system)


def _join(join: Join, system: System) -> str:
    """One join: mark, word, place, spare time with interval."""
    kind = join.kind.replace("_", " ")
    place = f"{show(round(join.x_m, 2), 'x_m', system)} {kind}"
    return f"{MARKS[join.state]} {join.state:5} {place:12.12} {spread_text(join.spare_s)}"


def _refills(coat: Coat, system: System) -> str:
    """Refills of a coat in words."""
    if not coat.refills:
        return "no refill in the coat"
    return ", ".join(
        f"fill {show(round(row.fill_g), 'fill_g', system)} after section {row.after_section} "
        f"({show(row.takes_s, 'takes_s', system)})"
        for row in coat.refills
    )
