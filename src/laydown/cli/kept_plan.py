"""Commands that ask a kept plan: why, card, mix, fix."""

from dataclasses import replace
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING, Any

import click
from click.shell_completion import CompletionItem

from laydown.cli.options import PATH, as_json, complete_items, debug, layer, pairs, units
from laydown.cli.output import ProgressBar, say, write_out
from laydown.schema.message import Name
from laydown.schema.problem import InputError
from laydown.words.show import ENGLISH

if TYPE_CHECKING:
    from laydown.desk.plans.mix_sheet import Poured
    from laydown.schema.plan import Plan
    from laydown.schema.supplies import Mix
    from laydown.words.show import Words

WIDTH = 80
"""Columns of printed text."""


def plan_at(path: Path) -> "Plan":
    """Read a kept plan, or plan the job at once; the planner is loaded only then."""
    from laydown.desk.plans.kept import kept_plan

    kept = kept_plan(path)
    if kept is not None:
        return kept
    from laydown.desk.plans.plan import plan_job

    with ProgressBar() as progress:
        return plan_job(path, progress, drawn=False).planned.plan


@click.command(short_help="Say why the plan says what it says.")
@click.argument("plan", type=PATH)
@click.argument("item", required=False, shell_complete=complete_items)
@as_json
@units
@debug
def why(plan: Path, item: str | None, as_json: bool, words: "Words") -> int:
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

    explanations = explain(plan_at(plan), item)
    if as_json:
        write_out({"format": "laydown-why/1", "explanations": encode(explanations, 6, ENGLISH)})
    else:
        click.echo("\n".join(why_text(one, words, WIDTH) for one in explanations), nl=False)
    return 0


@click.command()
@click.argument("plan", type=PATH)
@click.option(
    "-o", "--output", "path", type=PATH, default=Path("card.pdf"), show_default=True, help="PDF to write."
)
@units
@debug
def card(plan: Path, path: Path, words: "Words") -> int:
    """Write the booth card of a plan as PDF.

    \b
    Example:
      laydown card today -o card.pdf
    """
    from laydown.desk.plans.outputs import write_card

    write_card(plan_at(plan), path, words)
    say(words.say("wrote", path=Name(str(path))))
    return 0


@click.command(short_help="Print the mix sheet, also after an over-pour.")
@click.argument("plan", type=PATH)
@layer
@click.option(
    "--poured", multiple=True, metavar="LINE=GRAMS", help="What is in the cup already, such as base=540."
)
@click.option("--have", multiple=True, metavar="LINE=GRAMS", help="What there is at most, such as base=430.")
@as_json
@units
@debug
def mix(plan: Path, poured: tuple[str, ...], have: tuple[str, ...], as_json: bool, **more: Any) -> int:
    """Print the mix sheet; put an over-pour right; make less with what is there.

    A line is called by its name or by its role (base, hardener, reducer, water).

    \b
    Examples:
      laydown mix today
      laydown mix today --layer ground --poured base=540
      laydown mix today --layer ground --have base=430
    """
    from laydown.desk.plans.mix_sheet import pour as sheets_of
    from laydown.reader.encode import encode
    from laydown.report.text.mix_sheet import mix_sheet_text

    typed, there = pairs(poured, "--poured"), pairs(have, "--have")
    kept = plan_at(plan)
    sheets = sheets_of(kept, more["layer"], typed, there)
    if as_json:
        write_out({"format": "laydown-mix/1", "sheets": encode(sheets, 6, ENGLISH)})
    elif not typed and not there:
        click.echo(mix_sheet_text(kept, more["layer"], more["words"], WIDTH), nl=False)
    else:
        click.echo("\n\n".join(_sheet_text(sheet, more["words"]) for sheet in sheets))
    return 0


def _sheet_text(sheet: "Poured", words: "Words") -> str:
    """Write a mix sheet in 80 columns."""
    mix, has_cup = sheet.mix, bool(sheet.in_cup_g)
    head = {"short_layer": mix.layer, "product": Name(mix.product), "mix_ml": sheet.factor * mix.mix_ml}
    lines = [words.say("poured-head", **head), _row(_heads(words), has_cup=has_cup)]
    for index, (line, step) in enumerate(zip(mix.lines, sheet.steps, strict=False)):
        grams = (sheet.in_cup_g[index] if has_cup else 0.0, step.step_g, step.running_g)
        shown = (words.amount(one, "line_g", "~.1f") for one in grams)
        lines.append(_row((line.name[:34], *shown), has_cup=has_cup))
    lines.append(f"  {_limits(mix, words)}")
    if sheet.text:
        decision = words.word("pour_decision", sheet.decision.replace(" ", "_")).upper()
        lines += _wrapped(words.say("poured-decided", decision=Name(decision), text=sheet.text))
    if mix.ask:
        lines += _wrapped(words.say("poured-ask", ask=mix.ask))
        lines += [
            f"    {words.say('poured-reading', reading=one.reading, water_g=one.water_g)}"
            for one in mix.readings
        ]
    return "\n".join(lines)


def _heads(words: "Words") -> tuple[str, ...]:
    """Heads of the columns of a mix sheet."""
    return tuple(words.say(f"poured-column.{name}") for name in ("line", "cup", "add", "scale"))


def _row(cells: tuple[str, ...], *, has_cup: bool) -> str:
    """One row of a mix sheet."""
    line, cup, add, scale = cells
    return f"  {line:<34}" + (f" {cup:>9}" if has_cup else "") + f" {add:>9} {scale:>9}"


def _limits(mix: "Mix", words: "Words") -> str:
    """How long a mix lives, and how little of it can be weighed."""
    if mix.pot_life_s is None:
        return words.say("poured-limits-unknown", least_g=mix.least_mix_g)
    return words.say("poured-limits", pot_life_s=mix.pot_life_s, least_g=mix.least_mix_g)


def _wrapped(text: str) -> list[str]:
    """Break a text into lines below a mix sheet."""
    return wrap(text, WIDTH, initial_indent="  ", subsequent_indent="    ")


def _complete_defects(_ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete the name of a defect."""
    from laydown.desk.sessions.fix import defects
    from laydown.report.text.fix import word_of

    names = (word_of(one.key) for one in defects())
    return [CompletionItem(name) for name in names if name.startswith(incomplete)]


def _complete_stages(_ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete the name of a stage."""
    from laydown.desk.sessions.fix import STAGE_WORDS

    return [CompletionItem(name) for name in STAGE_WORDS if name.startswith(incomplete)]


_ASKED_BY = {"stage": "--when", "defect": "--defect", "panel": "--panel", "size": "--size"}
"""Options that ask for the parts of a question about a defect."""


@click.command(short_help="Something went wrong: what can still be done.")
@click.argument("plan", type=PATH)
@click.option("--when", "stage", shell_complete=_complete_stages, help="When it is seen, such as effect-wet.")
@click.option("--defect", shell_complete=_complete_defects, help="What it is, such as clouds.")
@click.option("--panel", default="", help="Where, such as 'rear door'; the whole side if left out.")
@click.option("--size", default="all over", show_default=True, help="How large, such as '30 cm'.")
@as_json
@units
@debug
def fix(plan: Path, stage: str | None, defect: str | None, as_json: bool, **more: Any) -> int:
    """Say what can still be done about a defect, the cheapest sound way first.

    Without --when and --defect: everything that may go wrong, how it is seen
    and where it comes from. Nothing is written; the booth guide keeps a log.

    \b
    Examples:
      laydown fix today
      laydown fix today --when effect-wet --defect clouds --panel "rear door"
    """
    from laydown.desk.sessions.fix import STAGE_WORDS, defects, rescue
    from laydown.reader.encode import encode
    from laydown.report.text.fix import defects_text, ways_text

    if stage is None and defect is None:
        if as_json:
            write_out(
                {
                    "format": "laydown-defects/1",
                    "stages": list(STAGE_WORDS),
                    "defects": encode(defects(), 6, ENGLISH),
                }
            )
        else:
            click.echo(defects_text(defects(), STAGE_WORDS, WIDTH, more["words"]), nl=False)
        return 0
    if stage is None or defect is None:
        missing = "--when" if stage is None else "--defect"
        raise click.UsageError(f"{missing} is missing: 'laydown fix PLAN' lists stages and defects")
    kept = plan_at(plan)
    try:
        found = rescue(kept, stage, defect, more["panel"], more["size"])
    except InputError as error:
        asked = tuple(replace(one, where=_ASKED_BY.get(one.where, one.where)) for one in error.problems)
        raise InputError(error.file, asked) from None
    if as_json:
        write_out({"format": "laydown-ways/1", "ways": encode(found.ways, 6, ENGLISH)})
    else:
        click.echo(ways_text(found.where, found.defect, found.ways, WIDTH, more["words"]), nl=False)
    return 0
