"""The command new."""

import sys
from pathlib import Path
from typing import Any

import click

from laydown.cli.options import PATH, complete_panels, complete_shapes, debug
from laydown.cli.output import say
from laydown.schema.message import Name
from laydown.words.show import ENGLISH


@click.command()
@click.option("--name", help="What the shop calls the job.")
@click.option("--side", type=click.Choice(["left", "right"]), help="Side, as the driver sees it.")
@click.option("--vehicle", "shape", shell_complete=complete_shapes, help="Shape; see: laydown vehicle --list")
@click.option(
    "--panel",
    "panels",
    multiple=True,
    shell_complete=complete_panels,
    help="A panel that is touched, such as 'front wing=new'; new, repaired or sound. Repeat it.",
)
@click.option("--air", help="Booth air, such as 20C,35%.")
@click.option("--ground", help="Ground coat on the shelf.")
@click.option("--effect", help="Effect coat on the shelf.")
@click.option("--clear", help="Clear coat on the shelf.")
@click.option("--painter", help="Who sprays.")
@click.option("-o", "--output", "path", type=PATH, required=True, help="Job file to write.")
@click.option("--replace", is_flag=True, help="Replace a file that is there.")
@debug
def new(path: Path, replace: bool, **given: Any) -> int:
    """Write a new job file with comments.

    On a terminal it asks for what is missing; elsewhere that is a wrong call.

    \b
    Example:
      laydown new --name "4711 left" --side left --vehicle "medium hatch" \\
        --panel "front wing=new" --panel "front door=repaired" \\
        --air 20C,35% -o job.toml
    """
    from laydown.desk.papers.new_job import NEEDED, new_job, shape_names

    answers = _answers(given)
    missing = [name for name in NEEDED if not answers.get(name)]
    if missing and not _can_ask():
        options = {"temperature_c": "--air", "rh": "--air", "panels": "--panel", "shape": "--vehicle"}
        names = dict.fromkeys(options.get(name, f"--{name}") for name in missing)
        raise click.UsageError(f"Missing: {', '.join(names)} (no terminal to ask on).")
    for name in missing:
        shapes = click.Choice(shape_names()) if name == "shape" else None
        kind = click.Choice(["left", "right"]) if name == "side" else shapes
        answers[name] = click.prompt(ENGLISH(NEEDED[name]).capitalize(), type=kind, err=True)
    job = new_job(answers, path, replace=replace)
    say(ENGLISH.say("wrote-job", count=len(job.panel), path=Name(str(path))))
    return 0


def _can_ask() -> bool:
    """Whether somebody sits at a terminal."""
    return sys.stdin.isatty()


def _answers(given: dict[str, Any]) -> dict[str, str]:
    """Collect what was given as answers."""
    answers = {name: value for name, value in given.items() if isinstance(value, str) and name != "air"}
    if given["panels"]:
        answers["panels"] = ",".join(given["panels"])
    if given["air"]:
        answers |= air_parts(given["air"])
    return answers


def air_parts(text: str) -> dict[str, str]:
    """Split an air such as 20C,35% into temperature and humidity."""
    found: dict[str, str] = {}
    for part in text.replace(";", ",").split(","):
        name = "rh" if part.strip().endswith("%") else "temperature_c"
        if name in found or not part.strip():
            raise click.BadParameter(
                f"'{text}': write temperature and humidity, such as 20C,35%", param_hint="--air"
            )
        found[name] = part.strip()
    return found
