"""The sections on the card: which coats share a table or a sketch, and what stands in each row."""

from laydown.report.measure_text import shorten, text_width
from laydown.report.scene import coat_name
from laydown.report.text_words import names_that_fit
from laydown.schema.coat import Coat, Join, Layer, Section
from laydown.units import System, show

_JOINS = {"wet": "wet", "hurry": "hurry", "late": "LATE"}


def section_blocks(layers: tuple[Layer, ...], system: System, room: float) -> list[dict[str, object]]:
    """Tables of sections; coats that are worked alike to the last printed figure share one.

    Parameters
    ----------
    layers
        Layers on the card.
    system
        How figures are shown.
    room
        Room for names of panels at 8 pt; what does not fit is counted [pt].

    Returns
    -------
    Head and rows of each table.
    """
    blocks: list[dict[str, object]] = []
    for layer in layers:
        tables: dict[tuple[tuple[str, ...], ...], list[Coat]] = {}
        for coat in layer.coats:
            rows = tuple(_rows(coat, system, room))
            tables.setdefault(rows, []).append(coat)
        for rows, coats in tables.items():
            blocks.append({"head": f"{layer.name} {coats_text(coats)}", "rows": [list(row) for row in rows]})
    return blocks


def coats_text(coats: list[Coat]) -> str:
    """Name several coats of a layer.

    Parameters
    ----------
    coats
        At least one coat.

    Returns
    -------
    Such as "coats 1, 2" or "control coat".
    """
    plain = [str(coat.number) for coat in coats if coat.part != "control"]
    words = []
    if plain:
        words.append(("coat " if len(plain) == 1 else "coats ") + ", ".join(plain))
    if len(plain) < len(coats):
        words.append("control" if plain else "control coat")
    return ", ".join(words)


def _rows(coat: Coat, system: System, room: float) -> list[tuple[str, ...]]:
    """Sections of a coat, and a row of its own wherever the cup is filled."""
    rows: list[tuple[str, ...]] = []
    for section in coat.sections:
        rows.append(_section(coat, section, system, room))
        rows += [
            (f"fill {refill.fill_g:.0f} g here ({show(refill.takes_s, 'takes_s', system)})",)
            for refill in coat.refills
            if refill.after_section == section.order
        ]
    return rows


def _section(coat: Coat, section: Section, system: System, room: float) -> tuple[str, ...]:
    """Order, panels, seconds, grams, cup, join to the next section."""
    join = next((row for row in coat.joins if row.between[0] == section.order), None)
    step = " ↑" if section.needs_step else ""
    left = room - text_width(step, 8)
    names = names_that_fit(section.panels, lambda text: text_width(text, 8) <= left)
    return (
        str(section.order),
        f"{shorten(names, left, 8)}{step}",
        f"{section.spray_s:.0f}",
        f"{section.sprayed_g:.0f}",
        f"{section.cup_g_after:.0f}",
        "end" if join is None else join_text(join, system),
    )


def join_text(join: Join, system: System) -> str:
    """Say a join in few words.

    Parameters
    ----------
    join
        The join.
    system
        How figures are shown.

    Returns
    -------
    State, place and spare time with its interval.
    """
    spare = join.spare_s
    where = "gap" if join.kind == "gap" else show(round(join.x_m, 2), "x_m", system)
    text = f"{_JOINS[join.state]} {where}, {round(spare.value)} s ({round(spare.low)} to {round(spare.high)})"
    return text.replace("-", "\N{MINUS SIGN}")


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
    Such as "effect coats 1, 2, 3".
    """
    return f"{layer.name} {coats_text(coats)}" if len(coats) > 1 else f"{layer.name} {coat_name(coats[0])}"
