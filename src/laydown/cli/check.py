"""The commands check and schema."""

from pathlib import Path

import click

from laydown.cli.options import PATH, as_json, debug
from laydown.cli.output import problem_document, problem_line, say, write_out
from laydown.schema.message import Name
from laydown.words.show import ENGLISH


@click.command()
@click.argument("files", nargs=-1, required=True, type=PATH, metavar="FILE...")
@as_json
@debug
def check(files: tuple[Path, ...], as_json: bool) -> int:
    """Read files and list every fault; nothing is planned.

    A FILE is a job, product, side or plan; its first line says which. Exit
    code 3 if any of them is faulty.

    \b
    Examples:
      laydown check job.toml
      laydown check shelf/*.toml --json
    """
    from laydown.desk.papers.files import check_files

    found = check_files(files)
    if as_json:
        write_out(problem_document((item.file, item.problems) for item in found))
    for item in found:
        if not item.problems:
            say(ENGLISH.say("checked-good", file=Name(item.file), paper=item.kind))
            continue
        say(ENGLISH.say("checked-faulty", count=len(item.problems), file=Name(item.file)))
        for problem in item.problems:
            say(f"  {problem_line(problem)}")
    return 3 if any(item.problems for item in found) else 0


@click.command()
@click.argument("kind", type=click.Choice(["job", "product", "side", "plan"]))
@debug
def schema(kind: str) -> int:
    """Print the JSON Schema of a kind of file.

    \b
    Example:
      laydown schema job > job.schema.json
    """
    from laydown.reader.json_schema import json_schema

    write_out(json_schema(kind))
    return 0
