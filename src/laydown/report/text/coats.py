"""Coats of a layer as plain text: sections with seconds, grams, cup and the join to the next."""

from laydown.report.kit.coat_scene import coat_parts
from laydown.report.text.lines import columns, fit, paragraph
from laydown.schema.coat import Coat, Join, Layer, Section
from laydown.schema.plan import Plan
from laydown.units import System, show
from laydown.words.gun import gun_text
from laydown.words.numbers import MARKS, spread_text

_Rows = tuple[str, ...]

_FIXED = 26
_LEAST_ROOM = 7
_SAME_COUNT = 0.01
_HEAD = f"{'join to next':21}spare (9 of 10)"


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
    ends += [len(_HEAD) for layer in plan.layers if any(coat.joins for coat in layer.coats)]
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
    head = f"{layer.name.upper():8} {_count(layer)}   {layer.product}   panel {panel}"
    lines = [fit(head, width).rstrip()]
    lines += paragraph("  gun    ", gun_text(layer.coats, system).replace(" | ", "; "), width)
    groups: dict[_Rows, list[Coat]] = {}
    for coat in layer.coats:
        rows = tuple(_coat(coat, room, system, width, clear=layer.name == "clear"))
        groups.setdefault((coat_parts(coat), *rows), []).append(coat)
    for block, coats in groups.items():
        lines += [f" {_names(coats)}   {block[0]}{_counting(coats[0])}", *block[1:]]
    return lines


def _count(layer: Layer) -> str:
    """How many coats, and for how many they count where passes make it differ."""
    plain = [coat for coat in layer.coats if coat.part != "control"]
    control = " + control" if len(plain) < len(layer.coats) else ""
    total = sum(coat.counts for coat in plain)
    counting = "" if abs(total - len(plain)) < _SAME_COUNT else f", counting {total:g}"
    return f"{len(plain)} coat{'' if len(plain) == 1 else 's'}{counting}{control}"


def _counting(coat: Coat) -> str:
    """For how much a coat counts where it is not one."""
    return "" if abs(coat.counts - 1.0) < _SAME_COUNT else f", counts {coat.counts:g}"


def _names(coats: list[Coat]) -> str:
    """Name the coats of one block."""
    names = ["control" if coat.part == "control" else str(coat.number) for coat in coats]
    return f"{'coat' if len(names) == 1 else 'coats'} {', '.join(names)}"


def _coat(coat: Coat, room: int, system: System, width: int, *, clear: bool) -> list[str]:
    """Rows of one coat."""
    last = [_end(coat, section, system) for section in coat.sections]
    head = _row(("sec", "panel", "s", "g", "cup g"), _HEAD if coat.joins else "join to next", room)
    rows = [head] if coat.sections else []
    for section, end in zip(coat.sections, last, strict=True):
        names, *rest = _wrapped(section.panels, room)
        numbers = (f"{section.spray_s:.0f}", f"{section.sprayed_g:.0f}", f"{section.cup_g_after:.0f}")
        rows.append(_row((str(section.order), names, *numbers), end, room))
        rows += [" " * 5 + more for more in rest]
    high = [str(section.order) for section in coat.sections if section.needs_step]
    if high:
        rows += paragraph("  step   ", f"above reach in section {', '.join(high)}", width)
    rows += paragraph("  start  ", f"{coat.start}, {coat.direction}; {_refills(coat, system)}", width)
    flash = coat.flash_s
    ask = "" if clear else "   gloss gone? [ ]" if coat.wet_next else "   matt? [ ]"
    span = f"{flash.low / 60:.0f}-{flash.high / 60:.0f}"
    text = f"{flash.value / 60:.0f} min ({span})   edge open {spread_text(coat.open_s)}{ask}"
    rows += paragraph("  flash  ", text, width)
    return rows


def _wrapped(panels: tuple[str, ...], room: int) -> list[str]:
    """Names of panels in lines that fit; one that is too long is cut."""
    lines = [""]
    for number, name in enumerate(panels):
        part = name + ("," if number < len(panels) - 1 else "")
        longer = f"{lines[-1]} {part}".lstrip()
        if len(longer) <= room:
            lines[-1] = longer
        else:
            lines.append(fit(part, room).rstrip())
    return [line for line in lines if line] or [""]


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
