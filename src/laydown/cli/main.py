"""The door: all commands, exit codes, and one place where faults become words."""

import os
import sys
import traceback
from collections.abc import Iterator, Mapping, Sequence
from importlib import import_module
from typing import Any

import click

from laydown.cli.output import problem_document, say, say_problems, write_out
from laydown.schema.message import Name
from laydown.schema.problem import InputError
from laydown.version import VERSION
from laydown.words.show import ENGLISH

EPILOG = """\b
First steps:
  laydown demo                     an invented job, planned and drawn into ./demo
  laydown new -o job.toml          asks and writes a job file
  laydown check job.toml           lists every fault of it
  laydown plan job.toml            prints the plan
  laydown plan job.toml -o DIR     writes plan, card and pictures

\b
Completion of commands, shapes, panels and layers (bash; also zsh, fish):
  eval "$(_LAYDOWN_COMPLETE=bash_source laydown)"

Exit codes: 0 done, 1 fault in laydown, 2 wrong call, 3 faulty file, 4 outside
a limit of the product sheet, 5 no good plan, 6 not known, 130 stopped.
"""

FAULT, WRONG_CALL, FAULTY_FILE, STOPPED = 1, 2, 3, 130
"""Exit codes that any command may end with."""


ROOMS = {
    "new": "new",
    "check": "check",
    "plan": "plan",
    "try": "plan",
    "why": "kept_plan",
    "card": "kept_plan",
    "mix": "kept_plan",
    "fix": "kept_plan",
    "coats": "letdown",
    "vehicle": "vehicle",
    "schema": "check",
    "demo": "demo",
    "serve": "serve",
    "guide": "guide",
}
"""Module of this package that holds each command."""

RENAMED = {"pour": "mix", "strip": "coats", "side": "vehicle", "fault": "fix"}
"""What commands were called before."""


class Commands(Mapping[str, click.Command]):
    """All commands by name; each is imported when it is asked for, so that a wish starts without all the others."""

    def __getitem__(self, name: str) -> click.Command:
        """Return a command."""
        room = import_module(f"laydown.cli.{ROOMS[name]}")
        command: click.Command = getattr(room, "try_" if name == "try" else name)
        return command

    def __iter__(self) -> Iterator[str]:
        """Go through the names."""
        return iter(ROOMS)

    def __len__(self) -> int:
        """Return how many there are."""
        return len(ROOMS)


class CommandGroup(click.Group):
    """The group of all commands, with house exit codes."""

    def main(self, args: Sequence[str] | None = None, **extra: Any) -> Any:  # type: ignore[override]
        """Run a command and leave with its exit code."""
        given = list(sys.argv[1:] if args is None else args)
        for stream in (sys.stdout, sys.stderr):
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="replace")
        extra["standalone_mode"] = False
        extra.setdefault("prog_name", "laydown")
        sys.exit(self._run(given, extra))

    def _run(self, given: list[str], extra: dict[str, Any]) -> int:
        """Return the exit code of a call."""
        try:
            code = super().main(args=given, **extra)
        except click.ClickException as error:
            error.show(sys.stderr)
            return error.exit_code
        except (click.Abort, KeyboardInterrupt):
            say(ENGLISH.say("stopped"))
            return STOPPED
        except InputError as error:
            if "--json" in given:
                write_out(problem_document([(error.file, error.problems)]))
            say_problems(error)
            return FAULTY_FILE if error.file else WRONG_CALL
        except Exception as error:  # noqa: BLE001 - the last door: a fault becomes words, the trace is for --debug
            return _fault(error, debug="--debug" in given)
        return code if isinstance(code, int) else 0

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; a reader that has gone away, as in "| head", is nobody's fault."""
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return 0

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find a command, or name the nearest one."""
        from difflib import get_close_matches

        name = args[0]
        if name in RENAMED:
            raise click.UsageError(f"No such command '{name}': it is called '{RENAMED[name]}'.", ctx)
        if self.get_command(ctx, name) is None and not name.startswith("-"):
            near = get_close_matches(name.casefold(), self.list_commands(ctx), n=1, cutoff=0.5)
            hint = (
                f"Did you mean '{near[0]}'?" if near else f"Commands: {', '.join(self.list_commands(ctx))}."
            )
            raise click.UsageError(f"No such command '{name}'. {hint}", ctx)
        return super().resolve_command(ctx, args)


def _fault(error: Exception, *, debug: bool) -> int:
    """Say that laydown itself is at fault."""
    say(ENGLISH.say("fault-in-laydown", kind=Name(type(error).__name__), said=Name(str(error))))
    if debug:
        say("".join(traceback.format_exception(error)).rstrip())
    else:
        say(ENGLISH.say("fault-in-laydown.do"))
    return FAULT


@click.group(
    cls=CommandGroup,
    epilog=EPILOG,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)
@click.version_option(VERSION, prog_name="laydown")
@click.option("--debug", is_flag=True, expose_value=False, help="Show where a fault in laydown happened.")
def cli() -> None:
    """Plan a three-stage refinish on a whole side: sections, joins, grams, clocks.

    A JOB is a job file (TOML). A PLAN is a plan.json, the folder it lies in, or
    a job file, which is planned first.
    """


cli.commands = Commands()  # type: ignore[assignment] # click only reads it


def main() -> None:
    """Start laydown from the command line."""
    cli()
