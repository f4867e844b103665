"""The source as syntax trees, for the rules that are checked by reading it."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "laydown"
DOCS = ROOT / "docs"
TESTS = ROOT / "tests"


@cache
def modules() -> dict[str, ast.Module]:
    """Syntax tree of every module by its path below src/laydown."""
    return {
        path.relative_to(SOURCE).as_posix(): ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(SOURCE.rglob("*.py"))
    }


def functions(tree: ast.AST) -> Iterator[ast.FunctionDef]:
    """Every function and method of a module, nested ones too."""
    return (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))


def public_functions(tree: ast.Module) -> Iterator[tuple[str, ast.FunctionDef]]:
    """Name and node of public functions and of public methods of public classes."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node.name, node
        elif isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            for item in node.body:
                if isinstance(item, ast.FunctionDef) and not item.name.startswith("_"):
                    yield f"{node.name}.{item.name}", item


def classes(tree: ast.AST) -> Iterator[ast.ClassDef]:
    """Every class of a module."""
    return (node for node in ast.walk(tree) if isinstance(node, ast.ClassDef))


def fields(node: ast.ClassDef) -> Iterator[ast.AnnAssign]:
    """Annotated fields of a class."""
    return (item for item in node.body if isinstance(item, ast.AnnAssign))


def arguments(node: ast.FunctionDef) -> list[ast.arg]:
    """Parameters of a function without self and cls."""
    given = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    return [one for one in given if one.arg not in {"self", "cls"}]


def sections(docstring: str) -> set[str]:
    """Names of the underlined sections of a docstring."""
    return set(re.findall(r"^\s*([A-Z][a-z]+)\n\s*-{3,}\s*$", docstring, re.MULTILINE))


def finding_codes() -> dict[str, list[str]]:
    """Codes of all findings made in the source, with the modules that make them."""
    found: dict[str, list[str]] = {}
    for name, tree in modules().items():
        for call in ast.walk(tree):
            if isinstance(call, ast.Call) and getattr(call.func, "id", "") == "Finding":
                for code in codes_of(call, tree):
                    found.setdefault(code, []).append(name)
    return found


def codes_of(call: ast.Call, tree: ast.Module) -> list[str]:
    """The code a call of Finding gives: a text, a choice of texts, or a parameter of the function around it."""
    given = call.args[1] if len(call.args) > 1 else next(k.value for k in call.keywords if k.arg == "code")
    if isinstance(given, ast.Name):
        return _handed_over(call, given.id, tree)
    return _texts(given)


def _texts(node: ast.AST) -> list[str]:
    """Texts an expression may come to; a condition is not one of them."""
    if isinstance(node, ast.Constant):
        return [node.value] if isinstance(node.value, str) else []
    if isinstance(node, ast.IfExp):
        return _texts(node.body) + _texts(node.orelse)
    return [text for part in node.elts for text in _texts(part)] if isinstance(node, ast.Tuple) else []


def _handed_over(call: ast.Call, name: str, tree: ast.Module) -> list[str]:
    """Codes behind a name: a constant, a variable of the function around the call, or what callers hand over."""
    inside = next(one for one in functions(tree) if call in ast.walk(one))
    given = [
        one.value
        for one in (*tree.body, *ast.walk(inside))
        if isinstance(one, ast.Assign) and _sets(one, name)
    ]
    names = [one.arg for one in arguments(inside)]
    if name in names:
        for other in ast.walk(tree):
            if isinstance(other, ast.Call) and getattr(other.func, "id", "") == inside.name:
                given += other.args[names.index(name) : names.index(name) + 1]
                given += [word.value for word in other.keywords if word.arg == name]
    return [text for value in given for text in _texts(value) if _is_code(text)]


def _sets(node: ast.Assign, name: str) -> bool:
    """Whether an assignment sets a name, alone or among others."""
    return any(
        isinstance(one, ast.Name) and one.id == name for target in node.targets for one in ast.walk(target)
    )


def _is_code(text: str) -> bool:
    """Whether a text is a code and not a level."""
    return re.fullmatch(r"[a-z]+(-[a-z]+)*", text) is not None and text not in {"note", "caution", "stop"}
