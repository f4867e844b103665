"""Coats of a layer as plain text: sections with seconds, grams, cup and the join to the next."""

from laydown.report.kit.coat_scene import coat_parts
from laydown.report.text.lines import columns, fit, paragraph
from laydown.schema.coat import Coat, Join, Layer, Section
from laydown.schema.message import Name
from laydown.schema.plan import Plan
from laydown.words.gun import gun_text
from laydown.words.numbers import MARKS, plural, spread_text
from laydown.words.show import Words

_Rows = tuple[str, ...]

_FIXED = 26
_LEAST_ROOM = 7
_SAME_COUNT = 0.01
_JOIN = 21


def plan_room(plan: Plan, words: Words, width: int) -> int:
    """Width that is left for names of panels, so that all tables of a plan stand under each other."""
    ends = [
        len(_end(coat, section, words))
        for layer in plan.layers
        for coat in layer.coats
        for section in coat.sections
    ]
    ends += [len(_head(words)) for layer in plan.layers if any(coat.joins for coat in layer.coats)]
    return max(_LEAST_ROOM, width - _FIXED - max(ends, default=0))


def _head(words: Words) -> str:
    """Head of the joins."""
    return f"{words.say('coat-join'):{_JOIN}}{words.say('coat-margin')}"


def layer_lines(layer: Layer, room: int, words: Words, width: int) -> list[str]:
    """Write one layer."""
    panel = words.say("coat-panel", panel_c=layer.panel_c.value)
    name = words.word("short_layer", layer.name).upper()
    head = f"{name:8} {_count(layer, words)}   {layer.product}   {panel}"
    lines = [fit(head, width).rstrip()]
    gun = gun_text(layer.coats, words).replace(" | ", "; ")
    lines += paragraph(f"  {words.say('coat-gun'):6} ", gun, width)
    groups: dict[_Rows, list[Coat]] = {}
    for coat in layer.coats:
        rows = tuple(_coat(coat, room, words, width, clear=layer.name == "clear"))
        groups.setdefault((coat_parts(coat, words), *rows), []).append(coat)
    for block, coats in groups.items():
        lines += [f" {_names(coats, words)}   {block[0]}{_counting(coats[0], words)}", *block[1:]]
    return lines


def _count(layer: Layer, words: Words) -> str:
    """How many coats, and for how many they count where passes make it differ."""
    plain = [coat for coat in layer.coats if coat.part != "drop"]
    total = sum(coat.counts for coat in plain)
    count = len(plain)
    if abs(total - count) < _SAME_COUNT:
        told = words.say("coats", count=plural(count), coats=count)
    else:
        told = words.say("coats-counting", count=count, total=total)
    return words.say("coats-and-drop", coats=Name(told)) if count < len(layer.coats) else told


def _counting(coat: Coat, words: Words) -> str:
    """For how much a coat counts where it is not one."""
    return "" if abs(coat.counts - 1.0) < _SAME_COUNT else words.say("coat-counts", coats=coat.counts)


def _names(coats: list[Coat], words: Words) -> str:
    """Name the coats of one block."""
    names = tuple(Name(words.say("drop") if coat.part == "drop" else str(coat.number)) for coat in coats)
    return words.say("coats-named", count=len(names), names=names)


def _coat(coat: Coat, room: int, words: Words, width: int, *, clear: bool) -> list[str]:
    """Rows of one coat."""
    last = [_end(coat, section, words) for section in coat.sections]
    cells = tuple(words.say(f"coat-head.{name}") for name in ("section", "panel", "seconds", "grams", "cup"))
    head = _row(cells, _head(words) if coat.joins else words.say("coat-join"), room)
    rows = [head] if coat.sections else []
    for section, end in zip(coat.sections, last, strict=True):
        names, *rest = _wrapped(section.panels, room)
        numbers = (f"{section.spray_s:.0f}", f"{section.sprayed_g:.0f}", f"{section.cup_g_after:.0f}")
        rows.append(_row((str(section.order), names, *numbers), end, room))
        rows += [" " * 5 + more for more in rest]
    high = tuple(section.order for section in coat.sections if section.needs_step)
    if high:
        rows += paragraph(
            f"  {words.say('coat-step'):6} ", words.say("coat-above-reach", sections=high), width
        )
    start = words.say(
        "coat-starts",
        start=coat.start,
        direction=coat.direction,
        refills=Name(_refills(coat, words)),
    )
    rows += paragraph(f"  {words.say('coat-start'):6} ", start, width)
    return rows + paragraph(f"  {words.say('coat-flash'):6} ", _flash(coat, words, clear=clear), width)


def _flash(coat: Coat, words: Words, *, clear: bool) -> str:
    """How long a coat flashes, and what is looked at before the next; clear is never asked."""
    code = "coat-flashes" if clear else "coat-flashes-gloss" if coat.wet_next else "coat-flashes-matt"
    flash = coat.flash_s
    return words.say(
        code,
        flash_s=flash.value,
        low_s=flash.low,
        high_s=flash.high,
        open=Name(spread_text(coat.open_s, words)),
    )


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


def _end(coat: Coat, section: Section, words: Words) -> str:
    """Join at the end of a section."""
    join = next((row for row in coat.joins if row.between[0] == section.order), None)
    return f"  {words.say('coat-end')}" if join is None else _join(join, words)


def _join(join: Join, words: Words) -> str:
    """One join: mark, word, place, margin with interval."""
    place = words.say("coat-place", x_m=round(join.x_m, 2), feature_kind=join.kind)
    margin = spread_text(join.margin_s, words)
    return f"{MARKS[join.state]} {words.word('join', join.state):5} {place:12.12} {margin}"


def _refills(coat: Coat, words: Words) -> str:
    """Refills of a coat in words."""
    if not coat.refills:
        return words.say("coat-no-refill")
    return ", ".join(
        words.say(
            "coat-refill", fill_g=round(row.fill_g), after_section=row.after_section, takes_s=row.takes_s
        )
        for row in coat.refills
    )
