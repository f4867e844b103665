"""Every sentence has one place: what is said has a code that stands in a table, and a table holds nothing unsaid."""

import ast
import re
from collections import Counter
from functools import cache
from importlib import import_module
from string import Formatter

import pytest

from laydown.words.catalogue import TABLES, CatalogueEntry, Counted
from rules.source_tree import SOURCE, modules

CODE = re.compile(r"[a-z][a-z0-9]*([-._][a-z0-9]+)*")
LISTED = ("list.", "range", "parts", "whole")
"""How lists and ranges are written; the renderer itself asks for them."""


@cache
def table(name: str) -> dict[str, CatalogueEntry]:
    return import_module(f"laydown.words.sentences.{name}").TABLE


@cache
def catalogue() -> dict[str, CatalogueEntry]:
    return {code: entry for name in TABLES for code, entry in table(name).items()}


def forms(entry: CatalogueEntry) -> list[str]:
    if isinstance(entry, Counted):
        return [entry.one, entry.many, *([entry.none] if entry.none is not None else [])]
    return [entry.text]


def named(entry: CatalogueEntry) -> set[str]:
    return {name for text in forms(entry) for _, name, _, _ in Formatter().parse(text) if name is not None}


@cache
def calls() -> list[tuple[str, ast.Call]]:
    """Every place where a sentence is said by its code."""
    return [
        (f"{name}:{node.lineno}", node)
        for name, tree in modules().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and node.args and is_saying(node.func)
    ]


def is_saying(called: ast.expr) -> bool:
    if isinstance(called, ast.Name):
        return called.id == "message"
    return isinstance(called, ast.Attribute) and called.attr == "say"


@cache
def texts() -> set[str]:
    """Every plain text of the source outside the tables, and the fixed beginnings of the made ones."""
    return {
        node.value
        for name, tree in modules().items()
        if not name.startswith("words/sentences/")
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    } | {
        word
        for path in [*(SOURCE / "web" / "templates").rglob("*.html"), *(SOURCE / "data").rglob("*.toml")]
        for word in re.findall(r"""["']([\w.-]+)["']""", path.read_text("utf-8"))
    }


def made_codes() -> set[str]:
    """Beginnings of codes that are made of a fixed part and a word: f"way.{key}"."""
    return {
        part.values[0].value
        for name, tree in modules().items()
        for part in ast.walk(tree)
        if isinstance(part, ast.JoinedStr)
        and part.values
        and isinstance(part.values[0], ast.Constant)
        and isinstance(part.values[0].value, str)
        and "." in part.values[0].value
    }


def test_a_code_stands_in_one_table():
    count = Counter(code for name in TABLES for code in table(name))
    assert [code for code, times in count.items() if times > 1] == []
    assert [code for code in count if not CODE.fullmatch(code)] == []


def test_every_table_is_in_the_catalogue():
    there = {path.stem for path in (SOURCE / "words" / "sentences").glob("*.py")} - {"__init__"}
    assert there == set(TABLES)


@pytest.mark.parametrize(("where", "call"), calls(), ids=[where for where, _ in calls()])
def test_what_is_said_stands_in_the_catalogue_with_its_figures(where, call):
    code = call.args[0]
    if not (isinstance(code, ast.Constant) and isinstance(code.value, str)):
        return
    assert code.value in catalogue(), f"{where}: no sentence {code.value!r}"
    if any(word.arg is None for word in call.keywords) or len(call.args) > 1:
        return
    given = {word.arg for word in call.keywords}
    wanted = named(catalogue()[code.value])
    for other, entry in catalogue().items():
        if other.startswith(f"{code.value}."):
            wanted |= named(entry) & given
    if isinstance(catalogue()[code.value], Counted):
        wanted |= {"count"}
    assert given == wanted, f"{where}: {code.value}"


def test_nothing_stands_in_a_table_that_nobody_says():
    said, made = texts(), made_codes()
    kinds = {name for entry in catalogue().values() for name in named(entry)} | {
        node.args[0].value
        for tree in modules().values()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr == "word"
        and node.args
        and isinstance(node.args[0], ast.Constant)
    }
    kinds |= {
        kind
        for path in (SOURCE / "web" / "templates").rglob("*.html")
        for kind in re.findall(r"words\.word\(.(\w+)", path.read_text("utf-8"))
    }
    unsaid = [
        code
        for code in catalogue()
        if code not in said
        and not code.startswith(LISTED)
        and not any(code.startswith(part) for part in made)
        and not (code in table("labels") and code.partition(".")[0] in kinds)
        and not (code.rpartition(".")[0] in catalogue() and code.rpartition(".")[2] in said)
    ]
    assert unsaid == []


def test_a_form_for_one_word_stands_in_the_table_of_its_sentence():
    for name in TABLES:
        for code in table(name):
            wider = code.rpartition(".")[0]
            if wider in catalogue() and code.rpartition(".")[2] not in {"why", "title", "text"}:
                assert wider in table(name), code
