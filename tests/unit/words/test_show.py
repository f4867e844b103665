"""How one sentence fits into another, and what is never touched."""

import pytest

from cases.speech import US, english
from laydown.schema.message import Name, message

SAID = message("do.second-cup")


def test_a_sentence_within_another_may_begin_it_with_a_large_letter():
    told = english(message("why-verdict.finding", finding=SAID))
    assert told == english(SAID)[:1].upper() + english(SAID)[1:]


def test_a_sentence_that_is_followed_by_another_loses_its_full_stop_only():
    reason = message("next-spray-panel")
    assert english(reason).endswith(".")
    told = english(message("why-colour.reason", reason=reason))
    assert told == english(reason)[:-1]


@pytest.mark.parametrize("words", [english, US])
def test_what_a_person_wrote_is_shown_as_it_is(words):
    assert words(Name("bay 3 m")) == "bay 3 m"
