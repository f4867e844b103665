"""The commands plan and try."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from laydown.cli.new import air_parts
from laydown.cli.options import PATH, as_json, debug, units
from laydown.cli.output import ProgressBar, say, write_out
from laydown.schema.message import Name

if TYPE_CHECKING:
    from laydown.desk.plans.plan import Tried
    from laydown.schema.plan import Plan
    from laydown.words.show import Words

WIDTH = 80
"""Columns of printed text; the width of the oldest terminals, common practice."""

CODES = {"good": 0, "outside the sheet": 4, "no good plan": 5}
"""Exit code of each standing of a plan."""


@click.command()
@click.argument("job", type=PATH)
@click.option(
    "-o", "--output", "folder", type=PATH, help="Write plan.json, card.pdf and all pictures into this folder."
)
@as_json
@units
@debug
def plan(job: Path, folder: Path | None, as_json: bool, words: "Words") -> int:
    """Plan a job and print the plan.

    Exit code 4 if the air or a fixed choice lies outside the product sheet,
    5 if no good plan exists; the best plan found is printed all the same.

    \b
    Examples:
      laydown plan job.toml
      laydown plan job.toml -o today
      laydown plan job.toml --json > plan.json
    """
    from laydown.desk.plans.plan import plan_job

    with ProgressBar(words) as progress:
        answer = plan_job(job, progress, drawn=folder is not None)
        written = []
        if folder is not None:
            from laydown.desk.plans.outputs import write_outputs

            written = write_outputs(answer.planned, folder, words, progress)
    made = answer.planned.plan
    if as_json:
        from laydown.desk.papers.document import plan_json

        write_out(plan_json(made))
    else:
        from laydown.report.text.plan import plan_text

        click.echo(plan_text(made, words, WIDTH), nl=False)
    if folder is not None:
        say(words.say("wrote-files", count=len(written), folder=Name(str(folder))))
    say_standing(made, words)
    return CODES[answer.standing]


def say_standing(plan: "Plan", words: "Words") -> None:
    """Say why a plan ends with an exit code of its own."""
    from laydown.desk.plans.plan import standing_said

    said = standing_said(plan)
    if said is not None:
        say(words(said))


@click.command("try", short_help="Show what changes if something were different.")
@click.argument("job", type=PATH)
@click.option("--air", help="Booth air, such as 24C,35%.")
@click.option("--reducer", help="fast, standard or slow.")
@click.option("--water", help="Share of the base, such as 5%.")
@click.option("--hardener", help="Hardener in the ground coat: yes or no.")
@click.option("--nozzle", "nozzle_mm", help="Nozzle, such as 1.3.")
@click.option("--painters", help="1 or 2.")
@click.option("--hand-speed", "speed_m_s", help="Hand speed, such as '0.6 m/s'.")
@click.option("--refill-time", "refill_s", help="Time of one refill, such as '45 s'.")
@click.option("--effect-coats", help="Effect coats, in halves.")
@click.option("--walk", "can_walk", help="Walk the whole length in one stroke: yes or no.")
@click.option("--second-cup", "spare_cup", help="A second filled cup stands ready: yes or no.")
@as_json
@units
@debug
def try_(job: Path, air: str | None, as_json: bool, words: "Words", **wishes: str | None) -> int:
    """Show what changes if something were different; the job stays as it is.

    Several values with commas give a table; several options give every
    combination. The plans are made coarsely: plan the job for the last word.

    \b
    Examples:
      laydown try job.toml --water 0,5%,10%
      laydown try job.toml --painters 2 --second-cup yes
      laydown try job.toml --air 24C,35%
    """
    values = {
        name: [part.strip() for part in text.split(",")] for name, text in wishes.items() if text is not None
    }
    if air is not None:
        values |= {name: [text] for name, text in air_parts(air).items()}
    if not values:
        raise click.UsageError("Say what to change, such as --water 0,5%,10% (see: laydown try --help).")
    from laydown.desk.plans.plan import try_changes

    with ProgressBar(words) as progress:
        rows = try_changes(job, values, progress)
    if as_json:
        write_out({"format": "laydown-try/1", "tried": [_row_document(row) for row in rows]})
    else:
        click.echo(_table(rows, words))
    return 0


def _row_document(row: "Tried") -> dict[str, Any]:
    """Return a row as plain tables."""
    from laydown.desk.plans.glance import minutes_of, weakest_join
    from laydown.reader.encode import encode
    from laydown.words.show import ENGLISH

    weakest = weakest_join(row.plan)
    return {
        "change": encode(row.change, say=ENGLISH),
        "standing": row.standing,
        "verdict": row.plan.verdict.state,
        "text": encode(row.plan.verdict.text, say=ENGLISH),
        "weakest_join": weakest.id if weakest else None,
        "margin_s": round(weakest.margin_s.value, 1) if weakest else None,
        "wet_chance": round(weakest.wet_chance, 3) if weakest else None,
        "effect_coats": row.plan.colour.effect_coats,
        "ground_coats": row.plan.hiding.ground_coats,
        "minutes": round(minutes_of(row.plan), 1),
    }


def _table(rows: "tuple[Tried, ...]", words: "Words") -> str:
    """Return the comparison as text."""
    from laydown.desk.plans.glance import minutes_of, weakest_join

    heads = ("change", "verdict", "join", "margin", "wet", "minutes")
    change, verdict, join, margin, wet, shown = (words.say(f"tried-head.{head}") for head in heads)
    lines = [f"{change:<33} {verdict:<7} {join:<12} {margin:>8} {wet:>6} {shown:>8}"]
    first = minutes_of(rows[0].plan)
    for row in rows:
        weakest = weakest_join(row.plan)
        margin = (
            words.amount(round(weakest.margin_s.value), "margin_s", ".0f")
            if weakest
            else words.say("tried-no-join")
        )
        wet = words.amount(weakest.wet_chance, "wet_chance", ".0f") if weakest else ""
        minutes = minutes_of(row.plan)
        shown = f"{minutes:.0f}" if row is rows[0] else f"{minutes - first:+.0f}"
        change = words(row.change)
        name = change if len(change) <= 33 else change[:31] + ".."
        sheet = f" {words.say('tried-sheet')}" if row.standing == "outside the sheet" else ""
        state = words.word("verdict", row.plan.verdict.state)
        join = weakest.id if weakest else ""
        lines.append(f"{name:<33} {state:<7} {join:<12} {margin:>8} {wet:>6} {shown:>8}{sheet}")
    lines.append(words.say("tried-key.join"))
    lines.append(words.say("tried-key.minutes"))
    return "\n".join(lines)
