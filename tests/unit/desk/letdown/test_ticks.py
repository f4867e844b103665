import pytest

from cases.problems import problems_of
from cases.speech import english
from laydown.desk.letdown.ticks import Spoken, fields_of, hear

SIX = (0.0, 1.0, 2.0, 3.0, 4.0, 5.0)


def test_one_field_that_matches_puts_few_below_and_many_above():
    heard = hear(Spoken(face="2"), ())
    assert heard.coats == SIX
    assert heard.face == ("few", "few", "match", "many", "many", "many")
    assert heard.flop == ()


def test_between_two_fields_nothing_matches():
    heard = hear(Spoken(flop="Between 2 and 3"), ())
    assert heard.flop == ("few", "few", "few", "many", "many", "many")


def test_words_are_taken_field_by_field_in_any_case():
    heard = hear(Spoken(face="Few, few MATCH"), ())
    assert heard.coats == (0.0, 1.0, 2.0)
    assert heard.face == ("few", "few", "match")


def test_fields_of_the_job_hold_unless_others_are_named():
    assert hear(Spoken(face="2"), (1.0, 2.0, 3.0)).face == ("few", "match", "many")
    assert hear(Spoken(face="2", coats="0,2,4"), (1.0, 2.0, 3.0)).face == ("few", "match", "many")


def test_half_coats_may_be_fields():
    heard = hear(Spoken(coats="0 1 2 2.5 3", face="between 2.5 and 3"), ())
    assert heard.face == ("few", "few", "few", "few", "many")


def test_a_field_between_two_others_must_be_judged():
    problems = problems_of(hear, Spoken(coats="0 1 2 2.5 3", face="between 2 and 3"), ())
    assert "lies between" in english(problems[0].what)


def test_nothing_said_is_nothing_heard():
    heard = hear(Spoken(), SIX)
    assert (heard.coats, heard.face, heard.flop) == ((), (), ())


@pytest.mark.parametrize(
    "text",
    ["", "none", "few match", "between 2 and", "between 2 and 2", "2.7", "-1", "few " * 40, "🙂", "two"],
)
def test_what_cannot_be_understood_is_told_and_never_guessed(text):
    problems = problems_of(hear, Spoken(face=text), SIX)
    assert problems
    assert all(problem.where == "--face" and problem.hint for problem in problems)


@pytest.mark.parametrize(
    ("text", "fields"),
    [("0-5", SIX), ("1 to 3", (1.0, 2.0, 3.0)), ("0,2,4", (0.0, 2.0, 4.0)), ("0; 2.5", (0.0, 2.5))],
)
def test_fields_are_read(text, fields):
    assert fields_of(text, "job.toml") == fields


@pytest.mark.parametrize("text", ["", "5-1", "3-3", "2 1", "1 1", "9", "-1", "a-b", "1e9", "nan"])
def test_fields_that_are_none_are_told(text):
    problems = problems_of(fields_of, text, "job.toml")
    assert problems
