"""What a tablet is told: never older than the book, worked out once for each tap, and enough to go back without network."""

import re

import pytest

from cases.guide import AT, SECRET, Booth, Visitor
from laydown.desk.sessions.places import MOST_BACK
from laydown.store.kept import KeptEvent
from laydown.store.opening import open_book
from laydown.web.app import make_app
from laydown.web.pages import guide_screen as guide_state
from laydown.web.request.visitor import Settings


@pytest.fixture(scope="module")
def booth(tmp_path_factory):
    made = Booth(tmp_path_factory.mktemp("booth"))
    yield made
    made.book.close()


@pytest.fixture
def visitor(booth):
    return Visitor(booth, booth.new_session())


class Elsewhere:
    """The same book, opened and served by another process."""

    def __init__(self, booth):
        self.book = open_book(booth.file)
        self.app = make_app(self.book, Settings(SECRET), booth.clock)


@pytest.fixture
def elsewhere(booth):
    made = Elsewhere(booth)
    yield made
    made.book.close()


WAY = [
    {"kind": "done", "step": "prepare"},
    {"kind": "begin"},
    {"kind": "next"},
    {"kind": "next"},
    {"kind": "matt"},
    {"kind": "begin"},
    {"kind": "next"},
]
"""Into the second section of the second ground coat."""


def without_clock(state):
    return {name: value for name, value in state.items() if name != "now_s"}


def said_in(html):
    return re.search(r"data-say>([^<]+)<", html)[1]


def test_two_servers_on_one_book_always_tell_the_same(visitor, elsewhere):
    other = Visitor(elsewhere, visitor.session)
    for number, event in enumerate([*WAY, {"kind": "hold"}, {"kind": "next"}]):
        one, two = (visitor, other) if number % 2 else (other, visitor)
        told = one.taps(event, ids=[f"turn {number}"]).json()["state"]
        assert without_clock(two.get("/state").json()) == without_clock(told)
        assert said_in(two.get("").text) == said_in(told["phases"][0]["html"])
    undone = visitor.taps({"kind": "undo", "target": "turn 8"}).json()["state"]
    assert without_clock(other.get("/state").json()) == without_clock(undone)


def test_what_another_program_writes_is_told_at_the_next_look(booth, visitor):
    have = visitor.get("/state").json()["have"]
    asked = {"x-laydown-have": have}
    address = f"/guide/{visitor.session}/state"
    assert visitor.client.get(address, headers=asked).json().get("same")
    text = '{"id":"past the program","at_s":1.8e9,"kind":"done","step":"prepare"}'
    booth.book.add_events(visitor.session, [KeptEvent("past the program", AT, AT, text)])
    told = visitor.client.get(address, headers=asked).json()
    assert told["node"].split("/")[1] == "ground.1.spray"
    assert "First stroke" in visitor.get("").text


def test_a_session_is_worked_out_once_for_each_tap_however_many_screens_ask(visitor, elsewhere, monkeypatch):
    made = []
    real = guide_state._told
    monkeypatch.setattr(
        guide_state, "_told", lambda view, now_s: (made.append(view.have), real(view, now_s))[1]
    )
    for event in WAY[:3]:
        visitor.taps(event)
        for _ in range(5):
            visitor.get("/state")
            visitor.get("")
    assert len(made) == len(set(made)) == 3


def test_a_plan_is_read_from_the_book_once(booth, visitor, monkeypatch):
    asked = []
    real = type(booth.book).plan
    monkeypatch.setattr(type(booth.book), "plan", lambda *given: (asked.append(given), real(*given))[1])
    for event in WAY[:3]:
        visitor.taps(event)
        visitor.get("/state")
    assert asked == []


def test_the_way_back_names_every_tap_and_its_screens_come_with_the_way_ahead(visitor):
    names = [f"step {number}" for number in range(len(WAY))]
    places = []
    for name, event in zip(names, WAY, strict=True):
        places.append(visitor.get("/state").json()["node"])
        visitor.taps(event, ids=[name])
    state = visitor.get("/state").json()
    assert [(one["tap"], one["node"]) for one in state["back"]] == list(
        zip(reversed(names), reversed(places), strict=True)
    )
    nodes = visitor.get("/ahead").json()["nodes"]
    assert {one["node"] for one in state["back"]} <= set(nodes)
    for before, after in zip(reversed(places), [state["node"], *reversed(places)], strict=False):
        assert after in nodes[before]["to"].values(), f"from {before} it goes on again"
    assert set(names) <= set(state["recent"])


def test_the_way_back_is_bounded_and_does_not_lead_into_another_plan(booth, visitor):
    visitor.taps(*WAY, *[{"kind": "note", "text": "x"} for _ in range(10)])
    back = visitor.get("/state").json()["back"]
    assert len(back) == MOST_BACK
    assert {one["node"] for one in back} <= set(visitor.get("/ahead").json()["nodes"])
    form = {"token": visitor.token, "kind": "air changed", "temperature_c": "27 °C", "rh": "30 %"}
    page = visitor.client.post(f"/guide/{visitor.session}/day", data=form).text
    plan = re.search(r'name="plan" value="(\w+)"', page)[1]
    visitor.client.post(f"/guide/{visitor.session}/follow", data={"token": visitor.token, "plan": plan})
    assert visitor.get("/state").json()["back"] == []
    state = visitor.taps({"kind": "next"}).json()["state"]
    assert [one["node"].split("/")[0] for one in state["back"]] == [plan]
    assert all(key.startswith(plan) for key in visitor.get("/ahead").json()["nodes"])


def test_the_place_passed_keeps_its_time_when_a_cup_is_weighed_or_a_tap_does_not_fit(visitor):
    visitor.taps(*WAY[:4])
    before = visitor.get("/state").json()
    visitor.number += 60  # a minute later
    after = visitor.taps(
        {"kind": "weighed", "weight_g": 61.5}, {"kind": "release", "step": "ground.release"}
    ).json()["state"]
    assert after["node"] == before["node"]
    assert after["arrivals"][after["node"]] == before["arrivals"][before["node"]]


def test_a_tap_that_came_late_is_put_back_by_its_undo(visitor):
    visitor.taps(*WAY[:6])
    before = visitor.get("/state").json()
    moved = visitor.taps({"kind": "earlier", "seconds_s": 5.0}).json()["state"]
    assert moved["arrivals"][moved["node"]] == before["arrivals"][before["node"]] - 5.0
    assert moved["back"][0]["at_s"] == before["arrivals"][before["node"]]


def test_clocks_after_a_moved_tap_stand_in_the_way_ahead_as_the_server_will_tell_them(visitor):
    # Pot life counts from the first stroke; that was 5 s earlier than tapped.
    visitor.number = 2000
    visitor.taps(*WAY[:1])
    visitor.number += 100
    visitor.taps({"kind": "begin"})
    visitor.number += 20
    visitor.taps({"kind": "earlier", "seconds_s": 5.0})
    nodes, state = visitor.get("/ahead").json()["nodes"], visitor.get("/state").json()
    for key in (state["node"], state["back"][1]["node"]):
        assert key in nodes
    here = nodes[state["node"]]["phases"][0]["html"]
    after, plus_s = re.search(
        r'data-main data-deadline="[\d.]+" data-deadline-after="([^"]+)" data-deadline-plus="([\d.]+)"', here
    ).groups()
    told = re.search(r'data-main data-deadline="([\d.]+)"', state["phases"][0]["html"])[1]
    assert state["arrivals"][after] + float(plus_s) == pytest.approx(float(told), abs=0.01)
