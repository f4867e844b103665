"""Reading plan documents, products and sides."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from laydown.reader.decode import Decoded, decode
from laydown.reader.files import LARGEST_PLAN, decode_file, read_table, refused
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Bake, Flash, Product, SheetRange
from laydown.schema.side import Side

NAME = "plan.json"
"""Name of the plan document in a folder that laydown wrote."""

EARLIER = ("laydown-plan/1",)
"""Formats of plans that are not read any more."""


def decode_plan(raw: dict[str, Any]) -> Decoded[Plan]:
    """Turn a raw table into a plan; one that an earlier version made is refused."""
    if raw.get("format") in EARLIER:
        earlier = Problem("format", message("plan-of-earlier-version"), message("plan-the-job-again"))
        return Decoded(None, {}, (earlier,))
    return decode(Plan, raw, "plan")


def read_plan(path: Path) -> Plan:
    """Read a plan document."""
    file = path / NAME if path.is_dir() else path
    if file.suffix.lower() != ".json":
        raise refused(file, message("no-plan-document"), message("plan-the-job-first"))
    raw = read_table(file, LARGEST_PLAN)
    decoded = decode_plan(raw) if raw.get("format") in EARLIER else decode_file(Plan, raw, file, "plan")
    if decoded.noun is None:
        raise InputError(str(file), decoded.problems)
    return decoded.noun


def read_product(path: Path) -> Product:
    """Read a product file."""
    return decode_product(read_table(path), path)


def decode_product(raw: dict[str, Any], path: Path) -> Product:
    """Turn a raw table into a product."""
    said = raw.get("source")
    decoded = decode_file(Product, raw, path, said if isinstance(said, str) else "product file")
    problems = (*decoded.problems, *_rules(decoded.parts))
    if decoded.noun is None or problems:
        raise InputError(str(path), problems)
    return decoded.noun


def _rules(parts: dict[str, Any]) -> Iterator[Problem]:
    """Check what several fields of a sheet say together."""
    flash, bake, allowed = parts.get("flash"), parts.get("bake"), parts.get("allowed")
    if parts.get("recipe") == ():
        yield Problem("recipe", message("recipe-without-a-line"), message("write-each-recipe-line"))
    if isinstance(flash, Flash):
        yield from _ordered("flash.min_s", flash.min_s, "flash.max_s", flash.max_s)
    if isinstance(bake, Bake):
        yield from _ordered("bake.metal_c", bake.metal_c, "bake.max_c", bake.max_c)
    yield from _ordered("coats_min", parts.get("coats_min"), "coats_max", parts.get("coats_max"))
    if isinstance(allowed, SheetRange):
        low, high = allowed.temperature_low_c, allowed.temperature_high_c
        yield from _ordered("allowed.temperature_low_c", low, "allowed.temperature_high_c", high)
        yield from _ordered("allowed.rh_low", allowed.rh_low, "allowed.rh_high", allowed.rh_high)
    for name in ("coats_min", "coats_max"):
        count = parts.get(name)
        if isinstance(count, float) and not (2 * count).is_integer():
            yield Problem(name, message("not-in-halves", given=count), message("write-halves"))


def _ordered(low_at: str, low: float | None, high_at: str, high: float | None) -> Iterator[Problem]:
    """Yield a problem if two ends stand the wrong way round."""
    if low is not None and high is not None and low > high:
        what = message("above-the-other-end", low=low, place=Name(high_at), high=high)
        yield Problem(low_at, what, message("swap-or-read-again"))


def read_side(path: Path) -> Side:
    """Read a side file; whether its geometry can be painted is checked elsewhere."""
    decoded = decode_file(Side, read_table(path), path, "side file")
    if decoded.noun is None:
        raise InputError(str(path), decoded.problems)
    return decoded.noun
