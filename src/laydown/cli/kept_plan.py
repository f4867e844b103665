"""The command fault."""

from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING, Any

import click
from click.shell_completion import CompletionItem

from laydown.cli.options import PATH, as_json, complete_items, debug, layer, pairs, units
from laydown.cli.output import Progress, say, write_out

if TYPE_CHECKING:
    from laydown.desk.plans.pour import Poured
    from laydown.schema.plan import Plan

WIDTH = 80
"""Columns of printed text."""


def plan_at(path: Path) -> "Plan":
    """Read a kept plan, or plan the job at once; the planner is loaded only then.

    Parameters
    ----------
    path
        A plan.json, the folder it lies in, or a job file.

    Returns
    -------
    The plan.
    """
    from laydown.desk.plans.kept import kept_plan

    kept = kept_plan(path)
    if kept is not None:
        return kept
    from laydown.desk.plans.plan import plan_job

    with Progress() as progress:
        return plan_job(path, progress, drawn=False).planned.plan


@click.command(short_help="Say why the plan says what it says.")
@click.argument("plan", type=PATH)
@click.argument("item", required=False, shell_complete=complete_items)
@as_json
@units
@debug
def why(plan: Path, item: str | None, as_json: bool, system: Any) -> int:
    """Say why the plan says so: reason, next best, and what it rests on.

    ITEM is a join (e1.2), adjustment.effect, colour, hiding, coat.effect.1,
    panel.front_wing, mix.ground, bake, limits_of_use, or the code of a finding.
    Without it: the choices that weigh most.

    \b
    Examples:
      laydown why today e1.2
      laydown why job.toml
    """
    from laydown.desk.plans.why import why as explain
    from laydown.reader.encode import encode
    from laydown.report.text.why import why_text
    from laydown.words.show import names_of, told

    kept = plan_at(plan)
    explanations = explain(kept, item)
    if as_json:
        write_out({"format": "laydown-why/1", "explanations": encode(explanations, 6)})
    else:
        shown = told(explanations, system, names_of(kept))
        click.echo("\n".join(why_text(one, system, WIDTH) for one in shown), nl=False)
    return 0


@click.command()
@click.argument("plan", type=PATH)
@click.option(
    "-o", "--output", "path", type=PATH, default=Path("card.pdf"), show_default=True, help="PDF to write."
)
@units
@debug
def card(plan: Path, path: Path, system: Any) -> int:
    """Write the booth card of a plan as PDF.

    \b
    Example:
      laydown card today -o card.pdf
    """
    from laydown.desk.plans.outputs import write_card

    write_card(plan_at(plan), path, system)
    say(f"wrote {path}")
    return 0


@click.command(short_help="Print the pour sheet, also after an over-pour.")
@click.argument("plan", type=PATH)
@layer
@click.option(
    "--poured", multiple=True, metavar="LINE=GRAMS", help="What is in the cup already, such as base=540."
)
@click.option("--have", multiple=True, metavar="LINE=GRAMS", help="What there is at most, such as base=430.")
@as_json
@units
@debug
def pour(plan: Path, poured: tuple[str, ...], have: tuple[str, ...], as_json: bool, **more: Any) -> int:
    """Print the pour sheet; put an over-pour right; make less with what is there.

    A line is called by its name or by its role (base, hardener, reducer, water).

    \b
    Examples:
      laydown pour today
      laydown pour today --layer ground --poured base=540
      laydown pour today --layer ground --have base=430
    """
    from laydown.desk.plans.pour import pour as sheets_of
    from laydown.reader.encode import encode
    from laydown.report.text.pour import pour_text

    typed, there = pairs(poured, "--poured"), pairs(have, "--have")
    kept = plan_at(plan)
    sheets = sheets_of(kept, more["layer"], typed, there)
    if as_json:
        write_out({"format": "laydown-pour/1", "sheets": encode(sheets, 6)})
    elif not typed and not there:
        click.echo(pour_text(kept, more["layer"], more["system"], WIDTH), nl=False)
    else:
        from laydown.words.show import names_of, told

        shown = told(sheets, more["system"], names_of(kept))
        click.echo("\n\n".join(_sheet_text(sheet, more["system"]) for sheet in shown))
    return 0


def _sheet_text(sheet: "Poured", system: Any) -> str:
    """Write a pour sheet in 80 columns."""
    from laydown.units import show

    mix = sheet.mix
    volume = show(sheet.factor * mix.mix_ml, "mix_ml", system)
    lines = [f"{mix.layer}: {mix.product}, about {volume}; press zero with the empty cup only"]
    cup = bool(sheet.in_cup_g)
    lines.append(f"  {'line':<34}" + (f" {'in cup g':>9}" if cup else "") + f" {'add g':>9} {'SCALE g':>9}")
    for index, (line, step) in enumerate(zip(mix.lines, sheet.steps, strict=False)):
        there = f" {sheet.in_cup_g[index]:>9.1f}" if cup else ""
        lines.append(f"  {line.name[:34]:<34}{there} {step.step_g:>9.1f} {step.running_g:>9.1f}")
    life = show(mix.pot_life_s, "pot_life_s") if mix.pot_life_s is not None else "not on the sheet"
    lines.append(f"  pot life {life}; never mix less than {show(mix.least_mix_g, 'least_g')}")
    if sheet.text:
        lines += wrap(
            f"{sheet.decision.upper()}: {sheet.text}", WIDTH, initial_indent="  ", subsequent_indent="    "
        )
    if mix.ask:
        lines += wrap(f"ASK THE SHEET: {mix.ask}", WIDTH, initial_indent="  ", subsequent_indent="    ")
        lines += [f"    {reading.reading}: {show(reading.water_g, 'water_g')}" for reading in mix.readings]
    return "\n".join(lines)


def _complete_faults(_ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete the name of a fault."""
    from laydown.desk.sessions.fault import faults
    from laydown.report.text.fault import word_of

    names = (word_of(one.key) for one in faults())
    return [CompletionItem(name) for name in names if name.startswith(incomplete)]


def _complete_stages(_ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete the name of a stage."""
    from laydown.desk.sessions.fault import STAGE_WORDS

    return [CompletionItem(name) for name in STAGE_WORDS if name.startswith(incomplete)]


@click.command(short_help="Something went wrong: what can still be done.")
@click.argument("plan", type=PATH)
@click.option("--stage", shell_complete=_complete_stages, help="When it is seen, such as effect-wet.")
@click.option("--fault", shell_complete=_complete_faults, help="What it is, such as clouds.")
@click.option("--panel", default="", help="Where, such as 'rear door'; the whole side if left out.")
@click.option("--size", default="all over", show_default=True, help="How large, such as '30 cm'.")
@as_json
@units
@debug
def fault(plan: Path, stage: str | None, fault: str | None, as_json: bool, **more: Any) -> int:
    """Say what can still be done about a fault, the cheapest sound way first.

    Without --stage and --fault: everything that may go wrong, how it is seen
    and where it comes from. Nothing is written; the booth guide keeps a log.

    \b
    Examples:
      laydown fault today
      laydown fault today --stage effect-wet --fault clouds --panel "rear door"
    """
    from laydown.desk.sessions.fault import STAGE_WORDS, faults, rescue
    from laydown.reader.encode import encode
    from laydown.report.text.fault import faults_text, ways_text
    from laydown.words.show import names_of, told

    if stage is None and fault is None:
        if as_json:
            write_out(
                {"format": "laydown-faults/1", "stages": list(STAGE_WORDS), "faults": encode(faults(), 6)}
            )
        else:
            click.echo(faults_text(faults(), STAGE_WORDS, WIDTH), nl=False)
        return 0
    if stage is None or fault is None:
        missing = "--stage" if stage is None else "--fault"
        raise click.UsageError(f"{missing} is missing: 'laydown fault PLAN' lists stages and faults")
    kept = plan_at(plan)
    found = rescue(kept, stage, fault, more["panel"], more["size"])
    if as_json:
        write_out({"format": "laydown-ways/1", "ways": encode(found.ways, 6)})
    else:
        shown = told(found.ways, more["system"], names_of(kept))
        click.echo(ways_text(found.where, found.fault, shown, WIDTH), nl=False)
    return 0
