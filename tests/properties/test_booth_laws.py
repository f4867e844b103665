"""Laws of the guide: no order of taps breaks it, and the log alone decides."""

from hypothesis import given, settings
from hypothesis import strategies as st

from cases.planning import MILD, quick
from cases.thorough import examples
from laydown.booth.day_steps import legs_of
from laydown.booth.guide import add, now
from laydown.booth.progress import live, replay, standing_of, standings_of
from laydown.desk.sessions.ahead import way_ahead
from laydown.desk.sessions.places import MOST_BACK, passed
from laydown.schema.session import Event, Session

PLAN = quick(MILD).plan
LEGS = legs_of(PLAN)
STEPS = ["", *(leg.id for leg in LEGS)]
KINDS = [
    "mixed", "begin", "next", "refill", "hold", "earlier", "matt", "not_yet", "answer", "release",
    "release_anyway", "done", "weighed", "fault", "note", "close",
]  # fmt: skip

taps = st.builds(
    Event,
    id=st.text("abcdef", min_size=1, max_size=3),
    at_s=st.floats(0.0, 200_000.0),
    kind=st.sampled_from(KINDS),
    step=st.sampled_from(STEPS) | st.just(""),
    section=st.integers(-1, 6),
    layer=st.sampled_from([None, "ground", "effect", "clear"]),
    item=st.integers(-2, 5),
    yes=st.booleans(),
    seconds_s=st.floats(-10.0, 500.0),
    text=st.sampled_from(["", "R.", "good"]),
)
undos = st.builds(
    Event,
    id=st.text("uvwxyz", min_size=1, max_size=3),
    at_s=st.floats(0.0, 200_000.0),
    kind=st.just("undo"),
    target=st.text("abcdefuvwxyz", min_size=1, max_size=3),
)
logs = st.lists(taps | undos, max_size=60)


def session_of(events):
    session = Session(PLAN.id)
    for event in events:
        session = add(session, event)
    return session


@settings(max_examples=examples(150))
@given(logs, st.floats(0.0, 300_000.0))
def test_any_order_of_taps_gives_a_screen(events, now_s):
    screen = now(PLAN, session_of(events), now_s)
    assert screen.step in STEPS
    assert screen.sentence


@settings(max_examples=examples(150))
@given(st.lists(taps, max_size=60))
def test_without_undo_the_work_never_goes_back_and_time_neither(events):
    session, place, last_s = Session(PLAN.id), (0, 0), 0.0
    for event in events:
        session = add(session, event)
        state = replay(LEGS, session, 0.0)
        assert (state.leg, state.section) >= place
        assert state.last_s >= last_s
        marks = [mark.at_s for mark in state.marks]
        assert marks == sorted(marks)
        place, last_s = (state.leg, state.section), state.last_s


@settings(max_examples=examples(100))
@given(logs, st.data(), st.floats(0.0, 300_000.0))
def test_a_tap_sent_twice_changes_nothing(events, data, now_s):
    session = session_of(events)
    if session.events:
        again = data.draw(st.sampled_from(session.events))
        assert add(session, again) is session
        assert now(PLAN, add(session, again), now_s) == now(PLAN, session, now_s)


@settings(max_examples=examples(100))
@given(logs, st.floats(0.0, 300_000.0))
def test_replaying_a_log_gives_the_same_screen(events, now_s):
    session = session_of(events)
    assert now(PLAN, session_of(session.events), now_s) == now(PLAN, session, now_s)


@settings(max_examples=examples(100))
@given(logs, taps, st.floats(200_000.0, 300_000.0))
def test_a_tap_that_is_taken_back_leaves_the_work_where_it_was(events, tap, now_s):
    session = session_of(events)
    known = {event.id for event in session.events} | {event.target for event in session.events}
    if tap.id in known:
        return
    there = add(session, tap)
    back = add(there, Event("undoing", tap.at_s, "undo", target=tap.id))
    assert replay(LEGS, back, now_s) == replay(LEGS, session, now_s)


@settings(max_examples=examples(100))
@given(logs, st.floats(0.0, 300_000.0), st.floats(0.0, 5_000.0))
def test_as_time_passes_without_a_tap_the_number_only_falls(events, now_s, later_s):
    session = session_of(events)
    first, second = now(PLAN, session, now_s), now(PLAN, session, now_s + later_s)
    assert first.step == second.step
    if live(session) and first.counts_to_s is not None and second.counts_to_s is not None:
        assert second.counts_to_s == first.counts_to_s
        assert second.number_s <= first.number_s


@settings(max_examples=examples(60))
@given(logs, st.integers(0, 20))
def test_where_a_log_stood_is_where_its_shorter_log_stands(events, last):
    session = session_of(events)
    held = live(session)
    stood = standings_of(PLAN, session, 0.0, last)
    assert len(stood) == min(last, len(held)) + 1
    for back, standing in enumerate(reversed(stood)):
        shorter = Session(PLAN.id, held[: len(held) - back])
        if shorter.events or not held:
            assert standing == standing_of(PLAN, shorter, 0.0)
            assert standing.state == replay(LEGS, shorter, 0.0)


@settings(max_examples=examples(25))
@given(logs, taps)
def test_undo_leads_back_to_places_that_are_prepared(events, tap):
    session = session_of([*events, tap])
    now_s = max(event.at_s for event in session.events)
    stood = standings_of(PLAN, session, now_s, MOST_BACK)
    behind = passed(stood)
    prepared = {node.key for node in way_ahead(stood, now_s, most=2 * MOST_BACK)}
    assert [step.tap for step in behind.back] == [one.id for one in reversed(live(session)[-MOST_BACK:])][
        : len(behind.back)
    ]
    assert {step.node for step in behind.back} <= prepared
