"""The sections on the card: which coats share a table or a sketch, and what stands in each row."""

from laydown.report.kit.coat_scene import coat_name
from laydown.report.kit.text_width import ELLIPSIS, shorten, text_width, wrap
from laydown.schema.coat import Coat, Join, Layer, Refill, Section
from laydown.schema.message import Message, Name, message
from laydown.words.numbers import names_that_fit
from laydown.words.show import Words

_RANKS = ("wet", "tight", "dry")
_TABLE_PT = 93.0 / 0.3528 - 22.0
_FIGURES_EM = 9.8


def section_blocks(
    layers: tuple[Layer, ...], words: Words, size_pt: float, lines: int = 2
) -> list[dict[str, object]]:
    """Tables of sections; coats with the same sections, seconds and grams share one."""
    blocks: list[dict[str, object]] = []
    for layer in layers:
        for coats in _alike(layer, words):
            rows = _rows(coats, words, size_pt, lines)
            blocks.append(
                {
                    "head": _head(layer, coats, words),
                    "rows": [row for row, _ in rows],
                    "tight": [is_tight for _, is_tight in rows],
                    "joins": bool(coats[0].joins),
                    "least": len(coats) > 1,
                }
            )
    return blocks


def _alike(layer: Layer, words: Words) -> list[list[Coat]]:
    """Coats that share their sections to the last printed figure."""
    tables: dict[tuple[object, ...], list[Coat]] = {}
    for coat in layer.coats:
        work = tuple((row.panels, *_figures(row), row.needs_step) for row in coat.sections)
        places = tuple((row.between, _where(row, words)) for row in coat.joins)
        fills = tuple((row.after_section, _fill_text(row, words)) for row in coat.refills)
        tables.setdefault((work, places, fills), []).append(coat)
    return list(tables.values())


def _head(layer: Layer, coats: list[Coat], words: Words) -> str:
    """Name several coats of a layer without the word for coats."""
    plain = [coat.number for coat in coats if coat.part != "drop"]
    said: list[Message] = []
    if _is_run(plain):
        said.append(message("numbers-run", first=plain[0], last=plain[-1]))
    elif plain:
        said.append(message("numbers-listed", numbers=tuple(plain)))
    if len(plain) < len(coats):
        said.append(message("drop"))
    return words.say("layer-coats", short_layer=layer.name, coats=tuple(said))


def coats_text(coats: list[Coat], words: Words) -> str:
    """Name several coats of a layer."""
    plain = [coat.number for coat in coats if coat.part != "drop"]
    said: list[Message] = []
    if _is_run(plain):
        said.append(message("coats-run", first=plain[0], last=plain[-1]))
    elif plain:
        said.append(message("coats-named", count=len(plain), names=tuple(Name(str(one)) for one in plain)))
    if len(plain) < len(coats):
        said.append(message("drop" if plain else "drop-coat"))
    return ", ".join(map(words, said))


def _is_run(numbers: list[int]) -> bool:
    """Whether numbers are written by their first and last."""
    return len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1


def _rows(coats: list[Coat], words: Words, size_pt: float, lines: int) -> list[tuple[list[str], bool]]:
    """Sections of coats that are worked alike, and a row of its own wherever the cup is filled.

    Beside each row stands whether its join has little time to spare.
    """
    ends = [_end(coats, section, words) for section in coats[0].sections]
    taken = sum(max(text_width(end[cell], size_pt, bold=cell == 0) for end, _ in ends) for cell in range(3))
    room = _TABLE_PT - taken - _FIGURES_EM * size_pt
    rows: list[tuple[list[str], bool]] = []
    for section, (end, is_tight) in zip(coats[0].sections, ends, strict=True):
        rows.append(([*_section(section, room, size_pt, lines), *end], is_tight))
        rows += [
            ([_fill_text(refill, words)], False)
            for refill in coats[0].refills
            if refill.after_section == section.order
        ]
    return rows


def _end(coats: list[Coat], section: Section, words: Words) -> tuple[tuple[str, str, str], bool]:
    """Join at the end of a section, that of the tightest coat, and whether it needs haste."""
    joins = [row for coat in coats for row in coat.joins if row.between[0] == section.order]
    if not joins:
        return (words.say("coat-end"), "", ""), False
    worst = tightest(joins)
    return join_cells(worst, words), worst.state != "wet"


def _fill_text(refill: Refill, words: Words) -> str:
    """What is filled, and how long it takes."""
    return words.say("card-fill", fill_g=refill.fill_g, takes_s=refill.takes_s)


def tightest(joins: list[Join]) -> Join:
    """Find the join that leaves the least time."""
    return max(joins, key=lambda row: (_RANKS.index(row.state), -row.margin_s.value))


def _section(section: Section, room: float, size_pt: float, lines: int) -> list[str]:
    """Order, panels, seconds, grams, cup; an arrow leads where a step is needed."""
    step = "↑ " if section.needs_step else ""
    names = names_that_fit(section.panels, lambda text: _fits(step + text, room, size_pt, lines))
    told = step + names
    if not _fits(told, room, size_pt, lines):
        told = shorten(told, room * (1.0 if lines == 1 else 1.6), size_pt)
    return [str(section.order), told, *_figures(section)]


def _fits(text: str, room: float, size_pt: float, lines: int) -> bool:
    """Whether a text breaks into so few lines, no word of it cut."""
    found = wrap(text, room, size_pt)
    return len(found) <= lines and not any(line.endswith(ELLIPSIS) for line in found)


def _figures(section: Section) -> tuple[str, str, str]:
    """Seconds, grams and cup of a section."""
    return f"{section.spray_s:.0f}", f"{section.sprayed_g:.0f}", f"{section.cup_g_after:.0f}"


def _where(join: Join, words: Words) -> str:
    """Place of a join: the gap, else the metre behind the front wheel."""
    return (
        words.word("feature_kind", "gap") if join.kind == "gap" else words.amount(round(join.x_m, 2), "x_m")
    )


def join_cells(join: Join, words: Words) -> tuple[str, str, str]:
    """Say a join in few words."""
    margin = join.margin_s
    span = words.say("card-span", low=round(margin.low), high=round(margin.high))
    value = words.amount(round(margin.value), "margin_s", ".0f")
    first = words.say(f"card-join.{join.state}", place=Name(_where(join, words)))
    return first, value.replace("-", "\N{MINUS SIGN}"), span


def distinct_orders(layers: tuple[Layer, ...]) -> list[tuple[Layer, list[Coat]]]:
    """Coats that are worked in the same order from the same end, for one sketch each."""
    groups: list[tuple[Layer, list[Coat]]] = []
    for layer in layers:
        kinds: dict[tuple[object, ...], list[Coat]] = {}
        for coat in layer.coats:
            key = (coat.direction, tuple(section.panels[:1] for section in coat.sections))
            kinds.setdefault(key, []).append(coat)
        groups += [(layer, coats) for coats in kinds.values()]
    return groups


def sketch_head(layer: Layer, coats: list[Coat], words: Words) -> str:
    """Caption of a sketch."""
    told = coats_text(coats, words) if len(coats) > 1 else coat_name(coats[0], words)
    return words.say("layer-coats", short_layer=layer.name, coats=(Name(told),))


def sketch_start(coats: list[Coat], words: Words) -> str:
    """Where the work starts and which way it goes."""
    start, direction = words(coats[0].start), words(coats[0].direction)
    if start.split()[:1] == direction.split()[:1]:
        return words.say("sketch-start", start=Name(start))
    return words.say("sketch-start-way", start=Name(start), direction=Name(direction))
