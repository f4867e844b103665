"""The command demo."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from laydown.words.show import Words

from laydown.cli.options import PATH, as_json, debug, units
from laydown.cli.output import ProgressBar, say, write_out
from laydown.cli.plan import CODES, WIDTH, say_standing
from laydown.schema.message import Name


@click.command(short_help="Plan an invented job and write everything.")
@click.argument("folder", type=PATH, default=Path("demo"), metavar="[DIR]")
@as_json
@units
@debug
def demo(folder: Path, as_json: bool, words: "Words") -> int:
    """Plan an invented job and write everything into DIR (default: demo).

    Job files, shelf, plan document, card and pictures; all figures of the job
    and of its products are invented and marked so.

    \b
    Example:
      laydown demo
    """
    from laydown.desk.demo import demonstrate
    from laydown.desk.papers.document import plan_json
    from laydown.report.text.plan import plan_text

    with ProgressBar(words) as progress:
        shown = demonstrate(folder, words, progress)
    plan = shown.answer.planned.plan
    if as_json:
        write_out(plan_json(plan))
    else:
        click.echo(plan_text(plan, words, WIDTH), nl=False)
    places = {"folder": Name(str(folder)), "job": Name(str(shown.job))}
    say(words.say("wrote-demonstration", count=len(shown.files), **places))
    say_standing(plan, words)
    return CODES[shown.answer.standing]
