"""The sections on the card: which coats share a table or a sketch, and what stands in each row."""

from laydown.report.kit.coat_scene import coat_name
from laydown.report.kit.text_width import ELLIPSIS, shorten, text_width, wrap
from laydown.schema.coat import Coat, Join, Layer, Refill, Section
from laydown.units import System, show
from laydown.words.numbers import names_that_fit

_JOINS = {"wet": "wet", "hurry": "hurry", "late": "LATE"}
_RANKS = ("wet", "hurry", "late")
_NO_JOIN = ("end", "", "")
_TABLE_PT = 93.0 / 0.3528 - 22.0
_FIGURES_EM = 9.8


def section_blocks(
    layers: tuple[Layer, ...], system: System, size_pt: float, lines: int = 2
) -> list[dict[str, object]]:
    """Tables of sections; coats with the same sections, seconds and grams share one.

    Parameters
    ----------
    layers
        Layers on the card.
    system
        How figures are shown.
    size_pt
        Type size [pt]; names of panels take what the figures leave.
    lines
        Lines they may take; what does not fit is counted.

    Returns
    -------
    Head and rows of each table. Where coats share one, each join is that of the coat with the least spare time.
    """
    blocks: list[dict[str, object]] = []
    for layer in layers:
        for coats in _alike(layer, system):
            told = coats_text(coats).replace("coats ", "").replace("coat ", "")
            head = f"{layer.name} {told}"
            blocks.append(
                {
                    "head": head,
                    "rows": _rows(coats, system, size_pt, lines),
                    "joins": bool(coats[0].joins),
                    "least": len(coats) > 1,
                }
            )
    return blocks


def _alike(layer: Layer, system: System) -> list[list[Coat]]:
    """Coats that share their sections to the last printed figure."""
    tables: dict[tuple[object, ...], list[Coat]] = {}
    for coat in layer.coats:
        work = tuple((row.panels, *_figures(row), row.needs_step) for row in coat.sections)
        places = tuple((row.between, _where(row, system)) for row in coat.joins)
        fills = tuple((row.after_section, _fill_text(row, system)) for row in coat.refills)
        tables.setdefault((work, places, fills), []).append(coat)
    return list(tables.values())


def coats_text(coats: list[Coat]) -> str:
    """Name several coats of a layer.

    Parameters
    ----------
    coats
        At least one coat.

    Returns
    -------
    Such as "coats 1, 2", "coats 1 to 3" or "control coat".
    """
    plain = [coat.number for coat in coats if coat.part != "control"]
    words = []
    if len(plain) > 2 and plain[-1] - plain[0] == len(plain) - 1:
        words.append(f"coats {plain[0]} to {plain[-1]}")
    elif plain:
        words.append(("coat " if len(plain) == 1 else "coats ") + ", ".join(map(str, plain)))
    if len(plain) < len(coats):
        words.append("control" if plain else "control coat")
    return ", ".join(words)


def _rows(coats: list[Coat], system: System, size_pt: float, lines: int) -> list[list[str]]:
    """Sections of coats that are worked alike, and a row of its own wherever the cup is filled."""
    ends = [_end(coats, section, system) for section in coats[0].sections]
    taken = sum(max(text_width(end[cell], size_pt, bold=cell == 0) for end in ends) for cell in range(3))
    room = _TABLE_PT - taken - _FIGURES_EM * size_pt
    rows: list[list[str]] = []
    for section, end in zip(coats[0].sections, ends, strict=True):
        rows.append([*_section(section, room, size_pt, lines), *end])
        rows += [
            [_fill_text(refill, system)]
            for refill in coats[0].refills
            if refill.after_section == section.order
        ]
    return rows


def _end(coats: list[Coat], section: Section, system: System) -> tuple[str, str, str]:
    """Join at the end of a section, that of the tightest coat."""
    joins = [row for coat in coats for row in coat.joins if row.between[0] == section.order]
    return join_cells(tightest(joins), system) if joins else _NO_JOIN


def _fill_text(refill: Refill, system: System) -> str:
    """What is filled, and how long it takes."""
    return f"fill {refill.fill_g:.0f} g here ({show(refill.takes_s, 'takes_s', system)})"


def tightest(joins: list[Join]) -> Join:
    """Find the join that leaves the least time.

    Parameters
    ----------
    joins
        At least one join.

    Returns
    -------
    The gravest state first, then the least spare time.
    """
    return max(joins, key=lambda row: (_RANKS.index(row.state), -row.spare_s.value))


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


def _where(join: Join, system: System) -> str:
    """Place of a join: the gap, else the metre behind the front wheel."""
    return "gap" if join.kind == "gap" else show(round(join.x_m, 2), "x_m", system)


def join_cells(join: Join, system: System) -> tuple[str, str, str]:
    """Say a join in few words.

    Parameters
    ----------
    join
        The join.
    system
        How figures are shown.

    Returns
    -------
    State and place, spare time, and its interval.
    """
    spare = join.spare_s
    span = f"({round(spare.low)} to {round(spare.high)})"
    cells = (f"{_JOINS[join.state]} {_where(join, system)}", f"{round(spare.value)} s", span)
    first, *rest = cells
    minus = [text.replace("-", "\N{MINUS SIGN}") for text in rest]
    return first, minus[0], minus[1]


def distinct_orders(layers: tuple[Layer, ...]) -> list[tuple[Layer, list[Coat]]]:
    """Coats that are worked in the same order from the same end, for one sketch each.

    Parameters
    ----------
    layers
        Layers on the card.

    Returns
    -------
    Layer and its coats of one kind.
    """
    groups: list[tuple[Layer, list[Coat]]] = []
    for layer in layers:
        kinds: dict[tuple[object, ...], list[Coat]] = {}
        for coat in layer.coats:
            key = (coat.direction, tuple(section.panels[:1] for section in coat.sections))
            kinds.setdefault(key, []).append(coat)
        groups += [(layer, coats) for coats in kinds.values()]
    return groups


def sketch_head(layer: Layer, coats: list[Coat]) -> str:
    """Caption of a sketch.

    Parameters
    ----------
    layer, coats
        What it stands for.

    Returns
    -------
    Such as "effect coats 1 to 3".
    """
    return f"{layer.name} {coats_text(coats)}" if len(coats) > 1 else f"{layer.name} {coat_name(coats[0])}"


def sketch_start(coats: list[Coat]) -> str:
    """Where the work starts and which way it goes.

    Parameters
    ----------
    coats
        Coats of a sketch; they start alike.

    Returns
    -------
    Such as "start front end, at the bottom"; the way is said where the start does not tell it.
    """
    start, direction = coats[0].start, coats[0].direction
    told = start.split()[:1] == direction.split()[:1]
    return f"start {start}" if told else f"start {start}, {direction}"
