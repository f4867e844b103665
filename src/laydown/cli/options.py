"""Options that several commands share, and what the shell may complete."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

import click
from click.shell_completion import CompletionItem

Command = TypeVar("Command", bound=Callable[..., Any])

PATH = click.Path(path_type=Path)
"""A path; what is wrong with it is said by the reader, in house wording."""

as_json = click.option(
    "--json", "as_json", is_flag=True, help="Print one JSON document on stdout, all talk on stderr."
)
"""The option --json."""


def _speaks(_ctx: click.Context, _param: click.Parameter, system: Any) -> Any:
    """How laydown speaks to whoever gave the option."""
    from laydown.words.show import Words

    return Words(system=system)


units = click.option(
    "--units",
    "words",
    type=click.Choice(["metric", "us"]),
    default="metric",
    show_default=True,
    envvar="LAYDOWN_UNITS",
    callback=_speaks,
    help="Units of what is printed; files always hold metric ones. Also: LAYDOWN_UNITS.",
)
"""The option --units."""

debug = click.option(
    "--debug", is_flag=True, expose_value=False, help="Show where a fault in laydown happened."
)
"""The option --debug; the door looks for it among the words of the call."""

LAYERS = ("ground", "effect", "clear")
"""The layers, in the order of work."""

layer = click.option("--layer", type=click.Choice(LAYERS), help="Only this layer.")
"""The option --layer."""


def pairs(given: tuple[str, ...], option: str) -> Mapping[str, str]:
    """Split values such as base=540."""
    found: dict[str, str] = {}
    for text in given:
        name, equals, value = text.partition("=")
        if not equals or not name.strip() or name.strip() in found:
            raise click.BadParameter(f"'{text}': write NAME=VALUE, each name once", param_hint=option)
        found[name.strip()] = value.strip()
    return found


def complete_shapes(_ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete the name of a shipped shape."""
    from laydown.trade.side.measures import SHAPES

    return [CompletionItem(name) for name in SHAPES if name.startswith(incomplete)]


def complete_panels(ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete the name of a panel of the shape typed before, or of any shape."""
    from laydown.desk.papers.sides import shapes

    wanted = ctx.params.get("shape")
    labels = {
        label: None for shown in shapes() if wanted in {None, shown.side.name} for label in shown.areas_m2
    }
    return [CompletionItem(label) for label in labels if label.startswith(incomplete)]


def complete_items(ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete an item of a kept plan."""
    from laydown.desk.plans.why import items
    from laydown.reader.papers.other_files import read_plan
    from laydown.schema.problem import InputError

    try:
        plan = read_plan(Path(ctx.params["plan"]))
    except (InputError, KeyError, TypeError):
        return []
    return [CompletionItem(item) for item in items(plan) if item.startswith(incomplete)]
