"""Three papers, before, theirs and mine: what differs, who changed it, and both where that loses nothing.

What is expected is said by hand; the rule of three-way merging is that of diff3: a field that one side left alone takes the
value of the other (Khanna, Kunal and Pierce, "A Formal Investigation of Diff3", 2007, from memory).
"""

import json

from hypothesis import given
from hypothesis import strategies as st

from laydown.desk.papers.second_save import compare, fields_of_paper, paper_of_fields

BEFORE = {
    "job": {"name": "0417", "painters": 1},
    "panel": [{"name": "front wing", "state": "new"}, {"name": "sill", "state": "repaired"}],
    "air": {"temperature_c": {"value": 20.0, "source": "typed"}, "rh": {"value": 0.3, "source": "typed"}},
    "recipe": [{"name": "base", "amount": 2.0}, {"name": "water", "amount": 1.0}],
    "measures": {},
}


def changed(**moves):
    raw = json.loads(json.dumps(BEFORE))
    for place, value in moves.items():
        table, key = place.split("__")
        raw[table][key] = value
    return raw


def compared(theirs, mine, before=BEFORE):
    known = None if before is None else fields_of_paper(before)
    return compare(known, fields_of_paper(theirs), fields_of_paper(mine))


def said(result):
    return {".".join(one.path): (one.was, one.theirs, one.mine) for one in result.fields}


def test_a_paper_is_taken_apart_into_fields_and_put_together_again():
    found = fields_of_paper(BEFORE)
    assert found["air", "rh"] == {"value": 0.3, "source": "typed"}
    assert found["panel", "sill", "state"] == "repaired"
    assert found["recipe", "2", "amount"] == 1.0
    assert paper_of_fields(found) == {key: value for key, value in BEFORE.items() if key != "measures"}


def test_different_fields_are_told_with_who_changed_them_and_both_is_possible():
    theirs, mine = changed(job__painters=2), changed(air__rh={"value": 0.5, "source": "typed"})
    result = compared(theirs, mine)
    assert said(result) == {
        "job.painters": (1, 2, 1),
        "air.rh": ({"value": 0.3, "source": "typed"},) * 2 + ({"value": 0.5, "source": "typed"},),
    }
    assert [(one.both_changed, one.theirs_changed) for one in result.fields] == [
        (False, True),
        (False, False),
    ]
    assert result.both["job"]["painters"] == 2
    assert result.both["air"]["rh"]["value"] == 0.5


def test_the_same_field_changed_twice_leaves_no_way_to_keep_both():
    result = compared(changed(job__painters=2, job__name="a"), changed(job__name="b"))
    assert result.both is None
    assert result.fields[0].path == ("job", "name"), "what both changed comes first"
    assert result.fields[0].both_changed


def test_what_both_changed_alike_does_not_differ():
    result = compared(changed(job__painters=2), changed(job__painters=2, job__name="b"))
    assert list(said(result)) == ["job.name"]
    assert result.both["job"] == {"name": "b", "painters": 2}


def test_a_panel_is_the_same_one_wherever_it_stands_and_one_more_joins_it():
    theirs = changed()
    theirs["panel"] = [{"name": "roof", "state": "new"}, *reversed(theirs["panel"])]
    mine = changed()
    mine["panel"][1]["state"] = "new"
    result = compared(theirs, mine)
    assert said(result) == {
        "panel.sill.state": ("repaired", "repaired", "new"),
        "panel.roof.name": (None, "roof", None),
        "panel.roof.state": (None, "new", None),
    }
    assert sorted((one["name"], one["state"]) for one in result.both["panel"]) == [
        ("front wing", "new"),
        ("roof", "new"),
        ("sill", "new"),
    ]


def test_a_panel_that_one_took_away_and_the_other_changed_cannot_be_both():
    theirs, mine = changed(), changed()
    theirs["panel"] = theirs["panel"][:1]
    mine["panel"][1]["state"] = "new"
    assert compared(theirs, mine).both is None
    mine["panel"][1] = {"name": "sill", "state": "repaired", "undercoat": "white"}
    assert compared(theirs, mine).both is None, "a field that is new on a panel that is gone"
    assert compared(mine, theirs).both is None


def test_a_line_that_moves_the_others_changes_all_after_it():
    theirs, mine = changed(), changed()
    theirs["recipe"].insert(1, {"name": "hardener", "amount": 0.5})
    mine["recipe"][1]["amount"] = 3.0
    assert compared(theirs, mine).both is None
    mine = changed()
    mine["recipe"][0]["amount"] = 4.0
    assert [line["amount"] for line in compared(theirs, mine).both["recipe"]] == [4.0, 0.5, 1.0]


def test_what_was_taken_away_stays_away():
    mine = changed()
    del mine["air"]["rh"]
    assert compared(changed(job__painters=2), mine).both["air"] == {
        "temperature_c": BEFORE["air"]["temperature_c"]
    }


def test_where_nobody_knows_what_was_before_every_difference_has_to_be_decided():
    result = compared(changed(job__painters=2), changed(), before=None)
    assert said(result) == {"job.painters": (None, 2, 1)}
    assert result.fields[0].both_changed
    assert result.both is None


VALUES = st.one_of(st.none(), st.integers(0, 3), st.sampled_from(["a", "b"]))
TABLES = st.dictionaries(st.sampled_from("abc"), VALUES, max_size=3)
PAPERS = st.fixed_dictionaries(
    {
        "one": TABLES,
        "two": st.fixed_dictionaries({"in": TABLES}),
        "panel": st.lists(
            st.fixed_dictionaries({"name": st.sampled_from("pqr"), "state": VALUES}),
            max_size=3,
            unique_by=lambda panel: panel["name"],
        ),
    }
)


@given(PAPERS, PAPERS, PAPERS)
def test_both_keeps_every_change_of_either_and_invents_nothing(before, theirs, mine):
    old, other, own = (fields_of_paper(one) for one in (before, theirs, mine))
    result = compare(old, other, own)
    if result.both is None:
        return
    merged = fields_of_paper(result.both)
    for path in {*old, *other, *own, *merged}:
        wanted = other if other.get(path) != old.get(path) else own
        assert merged.get(path) == wanted.get(path)


@given(PAPERS, PAPERS)
def test_who_changed_nothing_gets_the_other_and_the_order_does_not_matter(before, theirs):
    old, other = fields_of_paper(before), fields_of_paper(theirs)
    for result in (compare(old, other, old), compare(old, old, other)):
        assert result.both is not None
        assert fields_of_paper(result.both) == other
