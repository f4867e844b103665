"""laydown guide."""

from pathlib import Path
from time import time
from typing import TYPE_CHECKING

import click

from laydown.cli.options import PATH, debug
from laydown.words.show import ENGLISH

if TYPE_CHECKING:
    from laydown.store.book import Book

PORT = 8470
"""Port of the pages, as of ``laydown serve``."""


@click.command()
@click.argument("plan", type=PATH)
@click.option(
    "--port", default=PORT, show_default=True, type=click.IntRange(0, 65535), help="Port; 0 takes a free one."
)
@click.option(
    "--database", "book", type=PATH, help="File the taps are kept in; without it, guide.book beside the plan."
)
@click.option("--restart", "fresh", is_flag=True, help="Begin a new session even if one is open.")
@debug
def guide(plan: Path, port: int, book: Path | None, fresh: bool) -> int:
    """Show what to do now, on a tablet behind the booth window.

    Every tap is kept before it is answered, so the guide goes on where it was
    after a stop, and without the network meanwhile. No screen belongs into the
    spraying enclosure.

    \b
    Examples:
      laydown guide today/plan.json
      laydown guide today --port 8471
      laydown guide job.toml
    """
    from laydown.cli.serve import answer
    from laydown.desk.plans.kept import Ready, open_kept_plan
    from laydown.desk.sessions.session import iso, open_session
    from laydown.store.opening import open_book
    from laydown.web.request.visitor import Settings
    from laydown.web.security.keys import open_secret
    from laydown.web.server import Secured

    where = book or (plan if plan.is_dir() else plan.parent) / "guide.book"
    opened = open_book(where)
    try:
        kept = open_kept_plan(opened, Ready(), _bring_in(opened, plan, iso(time())))
        if kept is None:
            raise click.ClickException(ENGLISH.say("plan-left-book"))
        session = open_session(opened, kept[0], time(), fresh=fresh)
        settings = Settings(open_secret(where.with_name(f"{where.name}.secret")))
        return answer(opened, settings, ("127.0.0.1", port), Secured(), f"guide/{session}")
    finally:
        opened.close()


def _bring_in(book: "Book", path: Path, at: str) -> str:
    """Keep the plan in the book, with its job where the job was given; return the plan's id."""
    from laydown.desk.exchange import bring_in
    from laydown.desk.plans.kept import kept_plan
    from laydown.desk.plans.plan import plan_job
    from laydown.reader.files import LARGEST_PLAN, read_bytes
    from laydown.reader.papers.other_files import NAME

    plan = kept_plan(path) or plan_job(path, drawn=False).planned.plan
    if book.plan(plan.id) is not None:
        return plan.id
    file = path / NAME if path.is_dir() else path
    return bring_in(book, read_bytes(file, LARGEST_PLAN), file.name, at)[1]
