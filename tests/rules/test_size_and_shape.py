"""Files and functions stay small, packages stay empty, and no module is named after nothing."""

import ast
import sys
import tomllib

import pytest

from rules.source_tree import ROOT, SOURCE, TESTS, functions, modules

LONGEST_FILE = 500
MOST_MODULES = 16
LONGEST_FUNCTION = 60
NAMES_THAT_SAY_NOTHING = {
    "utils",
    "util",
    "helpers",
    "helper",
    "common",
    "base",
    "manager",
    "service",
    "misc",
}


@pytest.mark.parametrize("name", modules())
def test_no_file_is_longer_than_it_can_be_read_in_one_go(name):
    lines = len((SOURCE / name).read_text(encoding="utf-8").splitlines())
    assert lines <= LONGEST_FILE, (
        f"src/laydown/{name} has {lines} lines; split it at a noun (at most {LONGEST_FILE})"
    )


@pytest.mark.parametrize("name", modules())
def test_no_function_is_longer_than_a_screen(name):
    long = {node.name: _lines(node) for node in functions(modules()[name]) if _lines(node) > LONGEST_FUNCTION}
    assert not long, f"src/laydown/{name}: functions over {LONGEST_FUNCTION} lines without docstring: {long}"


def _lines(node):
    """Lines of a function without its docstring."""
    words = node.body[0]
    is_docstring = isinstance(words, ast.Expr) and isinstance(words.value, ast.Constant)
    return node.end_lineno - node.lineno + 1 - (words.end_lineno - words.lineno + 1 if is_docstring else 0)


@pytest.mark.parametrize("name", [name for name in modules() if name.endswith("/__init__.py")])
def test_a_package_holds_one_docstring_and_nothing_else(name):
    body = modules()[name].body
    only_words = len(body) == 1 and isinstance(body[0], ast.Expr) and isinstance(body[0].value, ast.Constant)
    assert only_words, f"src/laydown/{name} holds more than a docstring; import from the module itself"


@pytest.mark.parametrize("folder", sorted({name.rpartition("/")[0] for name in modules()}))
def test_no_folder_holds_more_modules_than_a_newcomer_reads(folder):
    held = [
        name for name in modules() if name.rpartition("/")[0] == folder and not name.endswith("__init__.py")
    ]
    assert len(held) <= MOST_MODULES, (
        f"src/laydown/{folder} holds {len(held)} modules; give it a room (at most {MOST_MODULES})"
    )


def test_a_unit_test_lies_where_its_module_lies():
    lost = []
    for test in sorted((TESTS / "unit").rglob("test_*.py")):
        folder, stem = test.parent.relative_to(TESTS / "unit").as_posix(), test.stem.removeprefix("test_")
        here = {
            name.rpartition("/")[2][:-3]
            for name in modules()
            if name.rpartition("/")[0] == folder.removeprefix(".")
        }
        if not any(stem == module or stem.startswith(f"{module}_") for module in here):
            lost.append(str(test.relative_to(TESTS)))
    assert not lost, f"no module of src is tested by {lost}"


def test_no_module_is_named_after_nothing():
    named = [name for name in modules() if set(name[:-3].split("/")) & NAMES_THAT_SAY_NOTHING]
    assert not named, f"name these after what they hold: {named}"


def test_a_name_of_a_class_or_a_type_means_one_thing():
    places = {}
    for name, tree in modules().items():
        for called in _types(tree):
            places.setdefault(called, []).append(name)
    twice = {called: at for called, at in places.items() if len(at) > 1}
    assert not twice, f"one name, one meaning: rename one of each in {twice}"


def _types(tree):
    """Public classes and aliases of types that a module defines; type variables have no meaning of their own."""
    for node in tree.body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield node.name
        elif isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None:
            target = node.targets[0] if isinstance(node, ast.Assign) else node.target
            called = target.id if isinstance(target, ast.Name) else ""
            if (
                called[:1].isupper()
                and not called.isupper()
                and not ast.unparse(node.value).startswith("TypeVar(")
            ):
                yield called


@pytest.mark.parametrize("name", [name for name in modules() if not name.startswith("cli/")])
def test_imports_stand_at_the_top_except_behind_the_door(name):
    inside = [
        f"{function.name}, line {node.lineno}"
        for function in functions(modules()[name])
        for node in ast.walk(function)
        if isinstance(node, ast.Import | ast.ImportFrom)
    ]
    assert not inside, f"src/laydown/{name} imports inside functions: {inside}; only cli may"


@pytest.mark.parametrize("name", modules())
def test_imports_are_absolute_and_never_of_everything(name):
    odd = [
        node.lineno
        for node in ast.walk(modules()[name])
        if isinstance(node, ast.ImportFrom) and (node.level or any(a.name == "*" for a in node.names))
    ]
    assert not odd, f"src/laydown/{name}: relative or star imports in lines {odd}"


def test_every_run_time_dependency_is_imported_and_every_import_is_declared():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    declared = {line.split(">")[0].strip().replace("-", "_") for line in project["dependencies"]}
    declared -= {"python_multipart"}  # starlette imports it when a form with a file comes
    declared = {"argon2" if one == "argon2_cffi" else one for one in declared}
    own = {"laydown", "pydantic_core", "markupsafe"}  # parts of pydantic and of jinja2
    used = set()
    for tree in modules().values():
        for node in ast.walk(tree):
            if isinstance(node, ast.Import):
                used |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                used.add(node.module.split(".")[0])
    named = {one for one in declared if any(f'"{one}"' in (SOURCE / name).read_text() for name in modules())}
    outside = (used - set(sys.stdlib_module_names) - own) | named  # the font is data: found by its name
    assert outside == declared, (
        f"declared but not used: {declared - outside}; used but not declared: {outside - declared}"
    )
