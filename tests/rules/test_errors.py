"""One way to refuse what a user gave: InputError with every problem; nobody hands problems back beside an answer."""

import ast
import re

import pytest

from rules.source_tree import functions, modules


@pytest.mark.parametrize("name", modules())
def test_problems_are_raised_and_not_handed_back_beside_an_answer(name):
    mixed = [
        node.name
        for node in functions(modules()[name])
        if node.returns is not None
        and re.search(
            r"\| (tuple\[Problem, \.\.\.\]|Problem\b)|, tuple\[Problem, \.\.\.\]\]$",
            ast.unparse(node.returns),
        )
    ]
    # One problem found on the way of an outline stands for that outline, and its reader goes on.
    mixed = [called for called in mixed if name != "reader/papers/svg_shapes.py"]
    assert not mixed, f"src/laydown/{name}: raise InputError in {mixed}; who collects uses gathered()"
