"""Everything public says what it is, what it takes, what it gives and where that comes from.

The full form is numpydoc: Parameters, Returns, Sources. What may be left out, and why:

* Parameters and Returns, where a one-line docstring stands over at most six lines of code: the line says all.
* Returns, where the first line already names what is returned: it begins with "Return" or gives the unit in
  brackets or the range "0 to 1".
* Sources of a function, where the docstring of its module has a line "Sources:" that holds for the whole module.
* Sources on the upper floors (reader, report, desk, cli): they hold no law and no rule, so there is nothing to cite.
* All sections on methods: their class says what they work on.
* All sections on commands: their docstring is the help text that a user reads.
"""

import ast
import re

import pytest
from source_tree import arguments, classes, modules, public_functions, sections

LAWS_AND_RULES = ("physics/", "trade/", "planning/")
SMALL = 6


@pytest.mark.parametrize("name", modules())
def test_every_module_class_and_function_has_a_docstring(name):
    tree = modules()[name]
    bare = [] if ast.get_docstring(tree) else ["the module"]
    bare += [
        node.name for node in classes(tree) if not node.name.startswith("_") and not ast.get_docstring(node)
    ]
    bare += [called for called, node in public_functions(tree) if not ast.get_docstring(node)]
    assert not bare, f"src/laydown/{name}: no docstring on {bare}"


@pytest.mark.parametrize(
    "name", [name for name in modules() if not name.startswith(("cli/", "report/", "desk/"))]
)
def test_every_public_constant_says_what_it_is(name):
    body = modules()[name].body
    silent = []
    for node, after in zip(body, [*body[1:], None], strict=True):
        called = _constant(node)
        if called and not (isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant)):
            silent.append(called)
    assert not silent, f"src/laydown/{name}: put a docstring with unit and source below {silent}"


def _constant(node):
    """Name of a public constant; aliases of array types and type variables say it themselves."""
    if not isinstance(node, ast.Assign) or not isinstance(node.targets[0], ast.Name):
        return None
    called = node.targets[0].id
    says_itself = ast.unparse(node.value).startswith(("NDArray[", "TypeVar("))
    return None if called.startswith("_") or says_itself or not called.isupper() else called


@pytest.mark.parametrize("name", modules())
def test_public_functions_name_what_they_take_and_what_they_give(name):
    wrong = {}
    for called, node in public_functions(modules()[name]):
        if "." in called or _is_command(node) or _is_small(node):
            continue
        text = ast.get_docstring(node) or ""
        needed = {"Parameters"} if arguments(node) else set()
        gives = node.returns is not None and ast.unparse(node.returns) != "None"
        if gives and not _first_line_names_it(text):
            needed.add("Returns")
        if needed - sections(text):
            wrong[called] = sorted(needed - sections(text))
    assert not wrong, f"src/laydown/{name}: sections are missing: {wrong}"


@pytest.mark.parametrize("name", [name for name in modules() if name.startswith(LAWS_AND_RULES)])
def test_laws_and_rules_name_their_sources(name):
    tree = modules()[name]
    if re.search(r"^Sources: \S", ast.get_docstring(tree) or "", re.MULTILINE):
        return
    silent = [
        called
        for called, node in public_functions(tree)
        if "." not in called and "Sources" not in sections(ast.get_docstring(node) or "")
    ]
    assert not silent, f"src/laydown/{name}: no source on {silent}, and none for the whole module"


def _is_command(node):
    return any("click" in ast.unparse(one) for one in node.decorator_list)


def _is_small(node):
    text = ast.get_docstring(node, clean=False) or ""
    lines = node.end_lineno - node.body[0].end_lineno
    return "\n" not in text and lines <= SMALL


def _first_line_names_it(text):
    first = text.splitlines()[0] if text else ""
    return first.startswith("Return ") or re.search(r"\[[^\]]+\]|0 to 1", first) is not None
