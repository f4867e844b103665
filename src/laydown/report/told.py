"""Retells every sentence inside a noun; its figures, names and sources stay as they are."""

from collections.abc import Iterable
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from laydown.report.retell import retell
from laydown.schema.plan import Plan
from laydown.units import System

SENTENCES = frozenset(
    {
        "ask",
        "change",
        "consequence",
        "decision",
        "differs",
        "do",
        "needs",
        "next_step",
        "note",
        "reason",
        "runner_up",
        "second",
        "sentence",
        "text",
        "title",
        "why",
        "why_not",
        "words",
    }
)
"""Names of the fields that hold sentences laydown wrote, wherever they stand.

Sources are quoted as they were given, so they are not among them.
"""

_Noun = TypeVar("_Noun")


def told_plan(plan: Plan, system: System) -> Plan:
    """Retell the sentences of a plan, to be shown; the plan document itself always stays metric.

    Parameters
    ----------
    plan
        The plan.
    system
        How figures are shown; ``metric`` returns the plan itself.

    Returns
    -------
    The same figures in house units with sentences in US units.
    """
    return plan if system == "metric" else told(plan, system, names_of(plan))


def told(noun: _Noun, system: System, names: Iterable[str] = ()) -> _Noun:
    """Retell the sentences of a noun.

    Parameters
    ----------
    noun
        A frozen dataclass, or a tuple of such.
    system
        How figures are shown; ``metric`` returns the noun itself.
    names
        Names that people gave, see ``retell``.

    Returns
    -------
    The noun with every field of ``SENTENCES`` retold, also in the nouns within it.
    """
    if system == "metric":
        return noun
    kept = frozenset(name for name in names if any(sign.isdigit() for sign in name))
    made: _Noun = _walk(noun, kept)
    return made


def names_of(plan: Plan) -> frozenset[str]:
    """Gather the names in a plan that people may have given.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Job, painter, shape, panels, features, zones, products and lines of recipes.
    """
    side = plan.side
    coats = [coat for layer in plan.layers for coat in layer.coats]
    found = {plan.inputs.job, plan.inputs.painter, side.shape, side.outline.name, plan.bake.slowest_part}
    found |= {name for panel in side.panels for name in (panel.name, panel.id)}
    found |= {name for panel in side.outline.panels for name in (panel.label, panel.id)}
    found |= {name for coat in coats for join in coat.joins for name in join.feature.split("|")}
    found |= {zone.zone for zone in plan.colour.zones}
    found |= {layer.product for layer in plan.layers}
    found |= {name for mix in plan.mixes for name in (mix.product, *(line.name for line in mix.lines))}
    return frozenset(found - {""})


def _walk(value: Any, names: frozenset[str]) -> Any:
    """Retell what is inside a value; points and other plain values are passed by."""
    if is_dataclass(value) and not isinstance(value, type):
        changed = {}
        for field in fields(value):
            old = getattr(value, field.name)
            new = _said(old, names) if field.name in SENTENCES else _walk(old, names)
            if new is not old:
                changed[field.name] = new
        return replace(value, **changed) if changed else value
    if isinstance(value, tuple) and value and _holds_nouns(value[0]):
        made = tuple(_walk(one, names) for one in value)
        return made if any(new is not old for new, old in zip(made, value, strict=True)) else value
    return value


def _holds_nouns(first: Any) -> bool:
    """Whether a tuple that begins so holds nouns, or rows of nouns."""
    return is_dataclass(first) or (isinstance(first, tuple) and any(is_dataclass(one) for one in first))


def _said(value: Any, names: frozenset[str]) -> Any:
    """Retell a field of sentences: one, several, or a noun of the same name."""
    if isinstance(value, str):
        new = retell(value, "us", names)
        return value if new == value else new
    if isinstance(value, tuple) and value and isinstance(value[0], str):
        made = tuple(retell(one, "us", names) for one in value)
        return value if made == value else made
    return _walk(value, names)
