"""The command fault."""

from pathlib import Path
from typing import Any

import click
from click.shell_completion import CompletionItem

from laydown.cli.options import PATH, as_json, debug, units
from laydown.cli.reading import WIDTH, plan_at
from laydown.cli.say import write_out


def _complete_faults(_ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete the name of a fault."""
    from laydown.desk.fault import faults
    from laydown.report.fault_text import word_of

    names = (word_of(one.key) for one in faults())
    return [CompletionItem(name) for name in names if name.startswith(incomplete)]


def _complete_stages(_ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete the name of a stage."""
    from laydown.desk.fault import STAGES

    return [CompletionItem(name) for name in STAGES if name.startswith(incomplete)]


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
    from laydown.desk.fault import STAGES, faults, rescue
    from laydown.reader.encode import encode
    from laydown.report.fault_text import faults_text, ways_text
    from laydown.report.told import names_of, told

    if stage is None and fault is None:
        if as_json:
            write_out({"format": "laydown-faults/1", "stages": list(STAGES), "faults": encode(faults(), 6)})
        else:
            click.echo(faults_text(faults(), STAGES, WIDTH), nl=False)
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
