"""The command coats: the leaf of the let-down panel, what was ticked on it, and the count that follows."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from laydown.cli.options import PATH, as_json, debug, units
from laydown.cli.output import say, write_out
from laydown.schema.message import Name, message
from laydown.words.show import ENGLISH

if TYPE_CHECKING:
    from laydown.desk.letdown.panel import PanelAnswer
    from laydown.words.show import Words

WIDTH = 80
"""Columns of printed text."""

NOT_KNOWN = 6
"""Exit code where a count was asked for and none can be given."""

_BESIDE_JOB = "beside the job"

_ENTRIES = (
    click.option("--ground-match", "ground", help='Bare ground of panel and car: match, "slightly off", off, "not accessible".'),
    click.option("--face", help='"few few match many many many", or 2, or "between 2 and 3".'),
    click.option("--flop", help="The same at the flop."),
    click.option("--step-coats", "coats", help='Coats of the steps, such as "0 1 2 3 4 5" or 1-6.'),
    click.option("--readings", type=PATH, help="File of instrument readings."),
    click.option("--readings-map", type=PATH, help="How that file is to be understood."),
    click.option("--zone", help="Zone whose count is planned."),
    click.option("--card-gone-after", metavar="N", help="Ground coat after which the hiding card looked alike."),
    click.option("--coat-g-m2", metavar="G_M2", help="Wet film of one coat of the panel, weighed."),
)  # fmt: skip


def _entries(command: Any) -> Any:
    """Add the options that say what was ticked."""
    for option in reversed(_ENTRIES):
        command = option(command)
    return command


@click.command(short_help="Print the let-down sheet, or say what the panel tells.")
@click.argument("job", type=PATH)
@click.option(
    "--print",
    "printed",
    type=PATH,
    is_flag=False,
    flag_value=_BESIDE_JOB,
    metavar="[FILE.pdf]",
    help="Write the sheet as PDF; without a name, beside the job.",
)
@click.option(
    "--steps",
    default="0-5",
    show_default=True,
    help="Steps of the sheet: 0-5, 1-6, or 0,2,4 with an instrument.",
)
@_entries
@click.option("--save", is_flag=True, help="Write what was ticked into the job file; comments stay.")
@click.option("--count", is_flag=True, help="Print the number of coats alone; exit code 6 if there is none.")
@as_json
@units
@debug
def coats(
    job: Path, printed: Path | None, steps: str, save: bool, count: bool, as_json: bool, **more: Any
) -> int:
    """Print the let-down sheet of JOB, or say what the panel tells.

    Without --save the job file stays as it is. "between 2 and 3" says that
    every field up to 2 has too few coats and every field from 3 on too many;
    2 says that field 2 matches.

    \b
    Examples:
      laydown coats job.toml --print
      laydown coats job.toml --ground-match match --face 2 --flop "between 2 and 3"
      laydown coats job.toml --readings panel.csv --save
    """
    words = more.pop("words")
    if printed is not None:
        _print_sheet(job, printed, steps, words)
        if not (save or count or as_json or any(value is not None for value in more.values())):
            return 0
    from laydown.desk.letdown.panel import Entry, read_panel, save_panel
    from laydown.desk.letdown.ticks import Spoken

    spoken = Spoken(more.pop("coats"), more.pop("face"), more.pop("flop"))
    answer = read_panel(job, Entry(spoken=spoken, **more))
    if save:
        save_panel(job, answer)
        wrote = message("wrote-sample", job=Name(str(job)))
        say(words(wrote if answer.entered else message("nothing-entered")))
    _tell(answer, words, count=count, as_json=as_json)
    if not save and answer.entered:
        say(words.say("job-stays"))
    return NOT_KNOWN if count and answer.coats is None else 0


def _print_sheet(job: Path, printed: Path, steps: str, words: "Words") -> None:
    """Write the leaf."""
    from laydown.desk.letdown.panel import usual_path, write_sheet
    from laydown.desk.letdown.ticks import fields_of

    coats = fields_of(steps, str(job))
    output = usual_path(job) if str(printed) == _BESIDE_JOB else printed
    write_sheet(job, output, coats, words)
    say(words.say("wrote-leaf", path=Name(str(output))))


def _tell(answer: "PanelAnswer", words: "Words", *, count: bool, as_json: bool) -> None:
    """Print the answer; of a missing count the reason is talk."""
    from laydown.reader.encode import encode
    from laydown.report.text.letdown import strip_text

    text = strip_text(answer.colour, answer.fixed, WIDTH, words)
    if as_json:
        document = {
            "format": "laydown-coats/1",
            "count": answer.coats,
            "fixed": answer.fixed,
            "entered": answer.entered,
            "colour": answer.colour,
        }
        write_out(encode(document, 6, ENGLISH))
    elif count and answer.coats is not None:
        click.echo(words.amount(answer.coats, "coats", "g"))
        say(text.rstrip())
    elif count:
        say(text.rstrip())
    else:
        click.echo(text, nl=False)
