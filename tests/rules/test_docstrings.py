"""Docstrings say what a signature does not, and laws say where they come from.

* Laws and rules (physics, trade): numpydoc, with every parameter, and a source with its standing or a numbered equation.
  At most six lines of code are their own definition.
* Nouns (schema): one line, and Attributes with units and bounds, from which the page about files is written.
* Everywhere else: one line; a second paragraph only for a reason, an equation or a trap.
"""

import ast
import re

import pytest

from rules.source_tree import arguments, classes, modules, public_functions, sections

LAWS = ("physics/", "trade/")
PUBLIC = ("interface.py", "__init__.py")
SMALL = 6
LONGEST = 120
SAYS_NOTHING = ("Definition", "The book", "The job", "See ")
FILLER = {"a", "an", "the", "of", "to", "is", "one", "return", "returns", "get", "its", "in", "for", "and"}


def _words(text):
    return {word.rstrip("s") for word in re.findall(r"[a-z]+", text.lower())} - FILLER


def _public(tree):
    """Module, public classes, and public functions and methods, with what they are called."""
    yield "the module", tree
    yield from ((node.name, node) for node in classes(tree) if not node.name.startswith("_"))
    yield from public_functions(tree)


@pytest.mark.parametrize("name", modules())
def test_everything_public_has_a_first_line_that_adds_to_its_name(name):
    wrong = []
    for called, node in _public(modules()[name]):
        first = (ast.get_docstring(node) or "").partition("\n")[0]
        own = called.rpartition(".")[2]
        repeats = called != "the module" and _words(first) <= _words(
            re.sub(r"(?<!^)(?=[A-Z])", "_", own).replace("_", " ")
        )
        if not first or len(first) > LONGEST or repeats:
            wrong.append(f"{called}: {first!r}")
    assert not wrong, f"src/laydown/{name}: {wrong}"


@pytest.mark.parametrize("name", [name for name in modules() if name.startswith((*LAWS, "schema/"))])
def test_every_public_constant_says_what_it_is(name):
    body = modules()[name].body
    silent = []
    for node, after in zip(body, [*body[1:], None], strict=True):
        called = _constant(node)
        if called and not (isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant)):
            silent.append(called)
    assert not silent, f"src/laydown/{name}: put a docstring with unit and source below {silent}"


def _constant(node):
    """Name of a public constant."""
    if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
        called = node.targets[0].id
        return called if called.isupper() and not called.startswith("_") else None
    return None


def _laws():
    """Public functions of laws and rules that are more than a line of arithmetic."""
    for name, tree in modules().items():
        if name.startswith(LAWS):
            for called, node in public_functions(tree):
                if "." not in called:
                    yield pytest.param(name, node, id=f"{name}::{called}")


@pytest.mark.parametrize(("name", "node"), list(_laws()))
def test_a_law_names_what_it_takes_and_where_it_comes_from(name, node):
    text = ast.get_docstring(node) or ""
    missing = [one.arg for one in arguments(node) if not re.search(rf"\b{one.arg}\b", text)]
    assert not missing or (_is_small(node) and "\n" not in text), (
        f"{node.name} does not say what {missing} are"
    )
    of_module = re.search(r"^Sources?: \S", ast.get_docstring(modules()[name]) or "", re.MULTILINE)
    sourced = "Sources" in sections(text) or re.search(r"\(1\)$", text, re.MULTILINE)
    assert of_module or sourced or _is_small(node), f"{node.name}: no source, no numbered equation"


@pytest.mark.parametrize("name", modules())
def test_a_source_says_something(name):
    empty = []
    for called, node in _public(modules()[name]):
        text = ast.get_docstring(node) or ""
        found = re.search(r"^Sources\n-+\n(.*?)(?:\n\n|\Z)", text, re.MULTILINE | re.DOTALL)
        if found and (len(found[1]) < 12 or found[1].startswith(SAYS_NOTHING)):
            empty.append(called)
    assert not empty, f"src/laydown/{name}: no source is better than an empty one at {empty}"


@pytest.mark.parametrize(
    "name", [name for name in modules() if not name.startswith(LAWS) and name not in PUBLIC]
)
def test_no_sections_repeat_a_signature(name):
    kept = {"Attributes"} if name.startswith(("schema/", "planning/setup/weights")) else set()
    wrong = [
        called
        for called, node in _public(modules()[name])
        if sections(ast.get_docstring(node) or "")
        & ({"Parameters", "Returns", "Raises", "Sources", "Attributes"} - kept)
    ]
    assert not wrong, f"src/laydown/{name}: one line is enough at {wrong}"


def _is_small(node):
    return node.end_lineno - node.body[0].end_lineno <= SMALL
