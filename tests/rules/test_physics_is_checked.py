"""Every public law occurs in a check against something outside: a printed value, a library, or a property."""

import pytest

from rules.source_tree import TESTS, modules, public_functions

CHECKED_BY = "\n".join(
    path.read_text(encoding="utf-8")
    for folder in ("published", "second", "properties")
    for path in sorted((TESTS / folder).glob("*.py"))
)

ELSEWHERE = {
    "require_between": "refuses numbers outside a range; no law",
    "is_plausible": "a limit that was chosen; tests/unit/physics/film/test_calibration.py",
    "stepped": "one step of the integrator, which tests/second/test_film_second.py checks as a whole",
    "march": "the same",
    "walk": "the same",
    "flows_at": "the same",
}
"""Public functions of physics that are no laws, and why no outside check exists."""

LAWS = [
    (name, called)
    for name, tree in modules().items()
    if name.startswith("physics/")
    for called, _ in public_functions(tree)
    if "." not in called and called not in ELSEWHERE
]


@pytest.mark.parametrize(("name", "called"), LAWS, ids=[called for _, called in LAWS])
def test_a_law_is_checked_against_something_outside(name, called):
    assert called in CHECKED_BY, (
        f"{called} in src/laydown/{name} occurs nowhere in tests/published, tests/second or tests/properties; "
        "check it against a printed value, another library or a property it must have"
    )
