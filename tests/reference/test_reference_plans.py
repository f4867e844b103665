"""Whole plans against stored ones: a change is shown as a table, and stored again on purpose only.

The stored figures are made by this program. They tell that something changed, never that it is right; what is right
is checked in the other folders.
"""

import json

import pytest

from reference.extracts import CASES, NOTE, extract, path_of, same, stored, table


@pytest.mark.parametrize("name", CASES)
def test_a_plan_is_as_it_was(name):
    changed = table(stored(name), extract(CASES[name]))
    head = [
        f"{name}: {len(changed)} figures changed (old, new); if it is meant, run tests/reference/update.py"
    ]
    assert not changed, "\n".join([*head, *changed])


def test_every_stored_plan_is_compared_and_marked_as_our_own():
    assert sorted(path.stem for path in path_of("x").parent.glob("*.json")) == sorted(CASES)
    for name in CASES:
        assert json.loads(path_of(name).read_text(encoding="utf-8"))["note"] == NOTE


def test_a_changed_figure_a_lost_one_and_a_new_one_stand_in_the_table():
    old = {"a": 100.0, "b": [1.0, 2.0], "c": "slow"}
    assert table(old, {"a": 100.9, "b": [1.0, 2.0], "c": "slow"}) == []
    lines = table(old, {"a": 102.0, "b": [1.0], "c": "standard", "d": 1})
    assert [line.split()[0] for line in lines] == ["a", "b[1]", "c", "d"]
    assert table({"b": []}, {"b": [3.0]})
    assert not same(True, 1)
