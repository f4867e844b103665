"""The command vehicle."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from laydown.cli.options import PATH, as_json, complete_shapes, debug, pairs, units
from laydown.cli.output import say, write_out
from laydown.schema.message import Name, message

if TYPE_CHECKING:
    from laydown.desk.papers.sides import ListedSide
    from laydown.words.show import Words


@click.command()
@click.argument("shape", required=False, shell_complete=complete_shapes)
@click.option("--list", "listed", is_flag=True, help="List the shipped shapes and their panels.")
@click.option(
    "--measure", multiple=True, metavar="NAME=VALUE", help="Own tape measure, such as roof_m=1.46. Repeat it."
)
@click.option("--import", "imported", type=PATH, help="Read a side file or a drawing (SVG).")
@click.option("--mirror", is_flag=True, help="The other side of the same vehicle.")
@click.option("--svg", type=PATH, help="Draw it into this file.")
@click.option("-o", "--output", "path", type=PATH, help="Write it as a side file (JSON).")
@as_json
@units
@debug
def vehicle(shape: str | None, imported: Path | None, path: Path | None, **more: Any) -> int:
    """List, measure, draw, import and mirror sides.

    \b
    Examples:
      laydown vehicle --list
      laydown vehicle "medium hatch" --measure roof_m=1.46 --svg side.svg
      laydown vehicle --import drawing.svg -o side.json
      laydown vehicle "large van" --mirror -o right.json
    """
    from laydown.desk.papers.sides import draw_side, measured, mirrored, opened, shapes, write_side

    measures = pairs(more["measure"], "--measure")
    if shape is None and imported is None:
        if path is not None or more["svg"] is not None or more["mirror"] or measures:
            raise click.UsageError("Name a shape, or a file with --import.")
        return _show(shapes(), more["as_json"], more["words"])
    if shape is not None and imported is not None:
        raise click.UsageError("Name a shape or a file with --import, not both.")
    if imported is not None and measures:
        raise click.UsageError("--measure changes a shipped shape, not a file.")
    shown = opened(imported) if imported is not None else measured(shape or "", measures)
    shown = mirrored(shown) if more["mirror"] else shown
    if path is not None:
        write_side(shown, path)
        say(more["words"].say("wrote", path=Name(str(path))))
    if more["svg"] is not None:
        draw_side(shown, more["svg"])
        say(more["words"].say("wrote", path=Name(str(more["svg"]))))
    return _show((shown,), more["as_json"], more["words"])


def _show(listed: "tuple[ListedSide, ...]", as_json: bool, words: "Words") -> int:
    """Print sides with the areas of their panels."""
    if as_json:
        rows = [
            {
                "name": shown.side.name,
                "side": shown.side.side,
                "status": shown.side.status,
                "measures": shown.side.measures,
                "panels": [
                    {"name": name, "area_m2": round(area, 4)} for name, area in shown.areas_m2.items()
                ],
            }
            for shown in listed
        ]
        write_out({"format": "laydown-vehicles/1", "sides": rows})
        return 0
    for shown in listed:
        head = message(
            "listed-side",
            shape=Name(shown.side.name),
            side=shown.side.side,
            area_m2=sum(shown.areas_m2.values()),
            side_status=shown.side.status,
        )
        click.echo(words(head))
        for name, area in shown.areas_m2.items():
            shown_area = words.amount(area, "area_m2", ".2f" if words.system == "metric" else "")
            click.echo(f"  {name:<34} {shown_area:>10}")
    return 0
