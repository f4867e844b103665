"""Findings as plain text, the gravest first; what is alike is said once."""

from itertools import groupby

from laydown.report.lines import columns, paragraph, plain
from laydown.report.text_words import place_words
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.finding import Finding
from laydown.schema.plan import Plan

_LEVELS = ("stop", "care", "note")
_LEVEL_MARKS = {"stop": "Z", "care": "!", "note": "i"}
_JOINS = {"join-late": "joins come too late", "join-hurry": "joins are tight"}
_FEW = 2

_Place = tuple[Layer, Coat, Join]


def finding_lines(plan: Plan, width: int) -> list[str]:
    """Write the findings.

    Parameters
    ----------
    plan
        The plan.
    width
        Columns there are.

    Returns
    -------
    Lines; several joins of one kind make a table, and what helps against several alike stands once under them.
    """
    ranked = sorted(plan.findings, key=lambda row: _LEVELS.index(row.level))
    lines = []
    for _, group in groupby(ranked, key=lambda row: (row.level, row.code, row.do)):
        alike = list(group)
        joins = [place for row in alike if (place := _join(plan, row)) is not None]
        coats = [where for row in alike if (where := _coat(plan, row)) is not None]
        if alike[0].code in _JOINS and len(joins) == len(alike) >= _FEW:
            lines += _table(alike[0], joins, width)
        elif len(coats) == len(alike) > _FEW:
            lines += [*_finding(alike[0], width), *paragraph("       also: ", ", ".join(coats[1:]), width)]
        else:
            for finding in alike:
                lines += _finding(finding, width)
        for action in alike[0].do:
            lines += paragraph("       do:  ", action, width)
    return lines


def _head(finding: Finding) -> str:
    """Mark, level and code."""
    return f"{_LEVEL_MARKS[finding.level]} {finding.level:4} {plain(finding.code)}: "


def _finding(finding: Finding, width: int) -> list[str]:
    """One finding: what and why."""
    told = paragraph(_head(finding), place_words(finding.text), width, 7)
    return told + (paragraph("       why: ", place_words(finding.why), width) if finding.why else [])


def _join(plan: Plan, finding: Finding) -> _Place | None:
    """Join a finding is about."""
    return next(
        (
            (layer, coat, join)
            for layer in plan.layers
            for coat in layer.coats
            for join in coat.joins
            if finding.where == f"{layer.name}.{coat.number}.{join.id}"
        ),
        None,
    )


def _coat(plan: Plan, finding: Finding) -> str | None:
    """Coat a finding is about, in words."""
    return next(
        (
            f"{layer.name} {coat.number}"
            for layer in plan.layers
            for coat in layer.coats
            if finding.where == f"{layer.name}.{coat.number}"
        ),
        None,
    )


def _table(first: Finding, joins: list[_Place], width: int) -> list[str]:
    """Joins of one kind, a row each."""
    sizes = (9, width - 50, -9, -9, -9)
    rows = [("coat", "join", "wet", "edge old", "open for")]
    rows += [
        (
            f"{layer.name} {coat.number}",
            place_words(join.feature),
            f"{100 * join.wet_chance:.0f} %",
            f"{round(join.age_s.value)} s",
            f"{round(join.open_s.value)} s",
        )
        for layer, coat, join in joins
    ]
    lines = paragraph(_head(first), f"{len(joins)} {_JOINS[first.code]}.", width, 7)
    return lines + [" " * 7 + columns(tuple(zip(row, sizes, strict=True)), 1) for row in rows]
