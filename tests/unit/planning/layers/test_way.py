"""Where the work starts: what the user fixed, else the better end, else habit."""

from dataclasses import replace

import numpy as np
import pytest

from cases.planning import MILD, process_for, quick, request_of
from cases.rectangle import CLOSED, place
from cases.speech import english
from laydown.planning.layers.adjustments import Option
from laydown.planning.layers.choice import Offer
from laydown.planning.layers.open_time import Wetting
from laydown.planning.layers.way import resolve_start

PLACES = (place(1.0), place(2.0))
JOB = request_of(MILD).job


def resolve(start):
    return resolve_start(replace(JOB, job=replace(JOB.job, start=start)), PLACES)


def offer(forward, backward):
    one = np.ones(1)
    times = Wetting(one, one, one, one, one)
    option = Option("standard", 0.0, False, 1.2)
    return Offer((option,), (CLOSED,), times, one * forward, one * backward, one * 0.0)


def test_a_tie_is_decided_by_habit_and_says_so():
    for habit in ("front", "rear"):
        start = resolve("best").settle(offer(9.0, 9.2), 0, habit)
        assert start.backwards == (habit == "rear")
        assert start.tie
        assert "habit" in english(start.reason)
        assert english(start.reason).startswith(f"from the {habit}")


def test_without_a_habit_a_tie_takes_the_usual_start():
    start = resolve("best").settle(offer(9.0, 9.0), 0, None)
    assert start.backwards
    assert start.tie
    assert "usual start" in english(start.reason)


def test_the_better_end_beats_the_habit():
    start = resolve("best").settle(offer(9.0, 12.0), 0, "rear")
    assert not start.backwards
    assert not start.tie
    assert "3.0 minutes" in english(start.reason)


@pytest.mark.parametrize(
    ("forward", "backward", "tie"), [(9.0, 9.49, True), (9.0, 9.51, False), (40.0, 41.9, True)]
)
def test_a_tie_is_half_a_minute_or_5_percent(forward, backward, tie):
    assert resolve("best").settle(offer(forward, backward), 0, None).tie is tie


@pytest.mark.parametrize("end", ["front", "rear"])
def test_a_fixed_end_rules_out_the_other(end):
    start = resolve(end)
    kept = start.keep(offer(9.0, 3.0))
    ruled_out = kept.backward if end == "front" else kept.forward
    assert np.isinf(ruled_out).all()
    settled = start.settle(kept, 0, None)
    assert settled.backwards == (end == "rear")
    assert "fixed by the user" in english(settled.reason)


def test_a_feature_is_known_by_id_and_by_label():
    assert resolve(PLACES[0].id).feature == PLACES[0].id
    assert resolve("gap at 1").feature == PLACES[0].id
    assert resolve("tow hook").unknown == "tow hook"
    assert not resolve("best").unknown


def test_where_nothing_is_possible_the_usual_start_is_shown():
    assert resolve("best").settle(offer(np.inf, np.inf), 0, None).tie


def test_the_plan_says_why_it_starts_where_it_does():
    habit = process_for(replace(MILD, habit="front")).layers["clear"].start
    for coat in quick(replace(MILD, habit="front")).plan.layers[2].coats:
        assert coat.reason == habit.reason
    if habit.tie:
        assert not habit.backwards
        assert "habit" in english(habit.reason)
