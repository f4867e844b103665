"""Words on the maps: what each one shows, its worst place, and how to read it."""

from laydown.report.map_scale import AGE_BANDS, SEEN_BANDS
from laydown.report.measure_text import wrap
from laydown.report.retell import retell
from laydown.report.style import INK, MUTED, SMALLEST_PX, TEXT_PX
from laydown.report.svg import element, label
from laydown.schema.maps import CoatMap
from laydown.schema.side import Point
from laydown.units import System

HEADS = {
    "film": "Wet film of this coat",
    "age": "Age of the edge when it is joined",
    "dry spray": "Dry spray on set paint",
    "appearance": "Colour of all coats of the layer, from the film only",
}
"""Head of each kind of map."""

_READING = {
    "film": "Film: blue with level lines is thin, brown with dots is thick, plain is on target.",
    "age": "Age: light is early. Past the thin line (70 %) hurry; past the thick line (100 %) the edge has closed.",
    "dry spray": "Dry spray: light is none; dark will feel rough. The line marks half of the scale.",
    "appearance": "Colour: at the angle that shows it most; the thick line is 2, from where it is visible. From the film "
    "only: flakes that lie differently are not in it.",
}
_NONE = {
    "age": "Age: no edge is joined in this coat.",
    "dry spray": "Dry spray on set paint: none anywhere.",
    "appearance": "Colour: no difference anywhere.",
}
_ESTIMATE = "Estimates from the planned strokes; the paint on the panel comes first."
_STRETCH = 1.2
_LINE_PX = 22.0


def nowhere(field: CoatMap) -> bool:
    """Say whether there is nothing to show.

    Parameters
    ----------
    field
        A field.

    Returns
    -------
    True where the worst value is nought; a film is always shown.
    """
    return field.kind != "film" and field.worst <= 0


def worst_text(field: CoatMap, system: System = "metric") -> str:
    """Say the worst value, what it means and where it is.

    Parameters
    ----------
    field
        A field.
    system
        How figures are shown.

    Returns
    -------
    Such as "thinnest 36 g/m², 49 % of the target: quarter" or "oldest 58 % of the open time, wet: sill".
    """
    if nowhere(field):
        return "none anywhere"
    where = f": {field.worst_where}" if field.worst_where else ""
    unit = f" {field.unit}" if field.unit else ""
    if field.kind == "film":
        name = "thinnest" if field.worst < field.target else "thickest"
        share = f", {100 * field.worst / field.target:.0f} % of the target" if field.target else ""
        return retell(f"{name} {field.worst:.0f}{unit}", system) + share + where
    if field.kind == "age":
        return f"oldest {100 * field.worst:.0f} % of the open time, {_band(AGE_BANDS, field.worst)}{where}"
    if field.kind == "appearance":
        return f"worst {field.worst:.1f}{unit}, {_band(SEEN_BANDS, field.worst)}{where}"
    return retell(f"most {field.worst:.2g}{unit}", system) + where


def _band(bands: tuple[tuple[float, float, str], ...], value: float) -> str:
    """Word of the band a value lies in."""
    return next((word for _, high, word in bands if value < high), bands[-1][2])


def reading_words(
    found: list[CoatMap], place: Point, column: tuple[float, float], columns: int
) -> tuple[str, float]:
    """Write how to read the maps.

    Parameters
    ----------
    found
        Fields, also those that are nought everywhere.
    place
        Upper left corner [px].
    column
        Width of a column and the gap to the next [px].
    columns
        1 or 2.

    Returns
    -------
    Markup and its height [px].
    """
    wide, gap = column
    told = [_NONE[field.kind] if nowhere(field) else _READING[field.kind] for field in found]
    parts = [wrap(text, wide / _STRETCH, TEXT_PX) for text in told]
    half = len(parts) if columns == 1 else (len(parts) + 1) // 2
    shapes = [label("How to read the maps", (place[0], place[1] + 22), 18, INK, font_weight="700")]
    lowest = 0.0
    for number, mine in enumerate((parts[:half], parts[half:])):
        x, y = place[0] + number * (wide + gap), place[1] + 50
        for lines in mine:
            shapes += [label(line, (x, y + _LINE_PX * row), TEXT_PX, INK) for row, line in enumerate(lines)]
            y += _LINE_PX * len(lines) + 8
        lowest = max(lowest, y)
    shapes.append(ring((place[0] + 9, lowest - 5), 7))
    shapes.append(label("the worst place, named above each map", (place[0] + 24, lowest), TEXT_PX, INK))
    aside = columns == 2
    at = (place[0] + wide + gap, lowest) if aside else (place[0], lowest + 28)
    shapes += [
        label(line, (at[0], at[1] + 20 * row), SMALLEST_PX, MUTED)
        for row, line in enumerate(wrap(_ESTIMATE, wide / _STRETCH, SMALLEST_PX))
    ]
    return "".join(shapes), at[1] + 30 - place[1]


def ring(at: Point, radius: float) -> str:
    """Draw a ring in ink with a white rim.

    Parameters
    ----------
    at
        Middle [px].
    radius
        Radius [px].

    Returns
    -------
    Markup.
    """
    casing = element("circle", cx=at[0], cy=at[1], r=radius, fill="none", stroke="#FFFFFF", stroke_width=5.5)
    return casing + element("circle", cx=at[0], cy=at[1], r=radius, fill="none", stroke=INK, stroke_width=2.5)
