"""The command demo."""

from pathlib import Path
from typing import Any

import click

from laydown.cli.options import PATH, as_json, debug, units
from laydown.cli.output import Progress, say, write_out
from laydown.cli.plan import CODES, WIDTH, say_standing


@click.command(short_help="Plan an invented job and write everything.")
@click.argument("folder", type=PATH, default=Path("demo"), metavar="[DIR]")
@as_json
@units
@debug
def demo(folder: Path, as_json: bool, system: Any) -> int:
    """Plan an invented job and write everything into DIR (default: demo).

    Job files, shelf, plan document, card and pictures; all figures of the job
    and of its products are invented and marked so.

    \b
    Example:
      laydown demo
    """
    from laydown.desk.demo import demonstrate
    from laydown.reader.encode import to_json
    from laydown.report.text.plan import plan_text
    from laydown.words.show import told_plan

    with Progress() as progress:
        shown = demonstrate(folder, system, progress)
    plan = shown.answer.planned.plan
    if as_json:
        write_out(to_json(plan))
    else:
        click.echo(plan_text(plan, system, WIDTH), nl=False)
    say(f"wrote {len(shown.files)} files into {folder}; the job: {shown.job}")
    say_standing(shown.answer.standing, told_plan(plan, system).verdict.text)
    return CODES[shown.answer.standing]
