"""The commands plan and try."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from laydown.cli.new import air_parts
from laydown.cli.options import PATH, as_json, debug, units
from laydown.cli.output import Progress, say, write_out

if TYPE_CHECKING:
    from laydown.desk.plans.plan import Tried

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
def plan(job: Path, folder: Path | None, as_json: bool, system: Any) -> int:
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

    with Progress() as progress:
        answer = plan_job(job, progress, drawn=folder is not None)
        written = []
        if folder is not None:
            from laydown.desk.plans.outputs import write_outputs

            written = write_outputs(answer.planned, folder, system, progress)
    from laydown.words.show import told_plan

    shown = told_plan(answer.planned.plan, system)
    if as_json:
        from laydown.reader.encode import to_json

        write_out(to_json(answer.planned.plan))
    else:
        from laydown.report.text.plan import plan_text

        click.echo(plan_text(shown, system, WIDTH), nl=False)
    if folder is not None:
        say(f"wrote {len(written)} files into {folder}")
    say_standing(answer.standing, shown.verdict.text)
    return CODES[answer.standing]


def say_standing(standing: str, verdict: str) -> None:
    """Say why a plan ends with an exit code of its own.

    Parameters
    ----------
    standing
        How the plan stands.
    verdict
        The plan's own words.
    """
    if standing == "outside the sheet":
        say(f"sheet says no: air or a fixed choice lies outside a product sheet. {verdict}")
    elif standing == "no good plan":
        told = verdict.removeprefix("no good plan exists ")
        say(f"no good plan: {verdict if told == verdict else f'none {told}'}")


@click.command("try", short_help="Show what changes if something were different.")
@click.argument("job", type=PATH)
@click.option("--air", help="Booth air, such as 24C,35%.")
@click.option("--reducer", help="fast, standard or slow.")
@click.option("--water", help="Share of the base, such as 5%.")
@click.option("--hardener", help="Hardener in the ground coat: yes or no.")
@click.option("--nozzle", "nozzle_mm", help="Nozzle, such as 1.3.")
@click.option("--painters", help="1 or 2.")
@click.option("--speed", "speed_m_s", help="Hand speed, such as '0.6 m/s'.")
@click.option("--refill", "refill_s", help="Time of one refill, such as '45 s'.")
@click.option("--coats", "effect_coats", help="Effect coats, in halves.")
@click.option("--can-walk", help="Walk the whole length in one stroke: yes or no.")
@click.option("--spare-cup", help="A second filled cup stands ready: yes or no.")
@as_json
@units
@debug
def try_(job: Path, air: str | None, as_json: bool, system: Any, **wishes: str | None) -> int:
    """Show what changes if something were different; the job stays as it is.

    Several values with commas give a table; several options give every
    combination. The plans are made coarsely: plan the job for the last word.

    \b
    Examples:
      laydown try job.toml --water 0,5%,10%
      laydown try job.toml --painters 2 --spare-cup yes
      laydown try job.toml --air 24C,35%
    """
    del system  # The table holds seconds, minutes and shares only.
    values = {
        name: [part.strip() for part in text.split(",")] for name, text in wishes.items() if text is not None
    }
    if air is not None:
        values |= {name: [text] for name, text in air_parts(air).items()}
    if not values:
        raise click.UsageError("Say what to change, such as --water 0,5%,10% (see: laydown try --help).")
    from laydown.desk.plans.plan import try_changes

    with Progress() as progress:
        rows = try_changes(job, values, progress)
    if as_json:
        write_out({"format": "laydown-try/1", "tried": [_row_document(row) for row in rows]})
    else:
        click.echo(_table(rows))
    return 0


def _row_document(row: "Tried") -> dict[str, Any]:
    """Return a row as plain tables."""
    from laydown.desk.plans.glance import minutes_of, weakest_join

    weakest = weakest_join(row.plan)
    return {
        "change": row.change,
        "standing": row.standing,
        "verdict": row.plan.verdict.state,
        "text": row.plan.verdict.text,
        "weakest_join": weakest.id if weakest else None,
        "spare_s": round(weakest.spare_s.value, 1) if weakest else None,
        "wet_chance": round(weakest.wet_chance, 3) if weakest else None,
        "effect_coats": row.plan.colour.effect_coats,
        "ground_coats": row.plan.hiding.ground_coats,
        "minutes": round(minutes_of(row.plan), 1),
    }


def _table(rows: "tuple[Tried, ...]") -> str:
    """Return the comparison as text."""
    from laydown.desk.plans.glance import minutes_of, weakest_join

    lines = [f"{'change':<33} {'verdict':<7} {'weakest join':<12} {'spare':>8} {'wet':>6} {'minutes':>8}"]
    first = minutes_of(rows[0].plan)
    for row in rows:
        weakest = weakest_join(row.plan)
        spare = f"{round(weakest.spare_s.value)} s" if weakest else "none"
        wet = f"{100 * weakest.wet_chance:.0f} %" if weakest else ""
        minutes = minutes_of(row.plan)
        shown = f"{minutes:.0f}" if row is rows[0] else f"{minutes - first:+.0f}"
        name = row.change if len(row.change) <= 33 else row.change[:31] + ".."
        sheet = " sheet!" if row.standing == "outside the sheet" else ""
        join = weakest.id if weakest else ""
        lines.append(
            f"{name:<33} {row.plan.verdict.state:<7} {join:<12} {spare:>8} {wet:>6} {shown:>8}{sheet}"
        )
    lines.append("weakest join: e2.1 is effect coat 2, its first join; wet: of 100 cases")
    lines.append("minutes: to the end of the day's plan; below the first row, the difference to it")
    return "\n".join(lines)
