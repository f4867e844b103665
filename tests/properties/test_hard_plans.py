"""Jobs at the ends of what a job file may say: a plan is made and written, however bad it is."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.planning import MILD, ONE_PANEL, SHAPES, WING_ONLY, Case, coats_of, codes, request_of
from cases.thorough import examples
from laydown.planning.plan import make_plan
from laydown.reader.encode import to_json
from laydown.trade.side.build import build_side


def made(case: Case, cup_ml=550.0):
    """The plan of a case, written as a document."""
    request = request_of(case)
    gun = replace(request.job.gun, cup_ml=cup_ml)
    plan = make_plan(replace(request, job=replace(request.job, gun=gun)), drawn=False).plan
    assert to_json(plan)
    return plan


def test_a_cup_too_small_for_any_section_is_no_good_plan_and_no_exception():
    plan = made(MILD, cup_ml=50.0)
    assert "no-good-plan" in codes(plan)
    assert plan.verdict.state == "stop"


def test_air_hotter_and_drier_than_any_sheet_allows_is_stopped():
    plan = made(replace(MILD, temperature_c=45.0, rh=0.05))
    assert "air-outside-sheet" in codes(plan)
    assert plan.verdict.state == "stop"


def test_a_side_with_one_panel_in_clear_only_has_no_colour_layer():
    clear = (("front door", "sound", 90.0, "none", "none", "full"),)
    plan = made(replace(MILD, works=clear))
    assert [layer.name for layer in plan.layers] == ["clear"]
    assert plan.hiding.ground_coats == 0.0


def test_an_effect_coat_alone_is_planned():
    effect = (("front door", "repaired", 90.0, "none", "full", "full"),)
    plan = made(replace(MILD, works=effect))
    assert [layer.name for layer in plan.layers] == ["effect", "clear"]


@pytest.mark.parametrize("works", [ONE_PANEL, WING_ONLY], ids=["door", "wing"])
@pytest.mark.parametrize("painters", [1, 2])
def test_small_jobs_are_planned_for_one_and_for_two(works, painters):
    assert made(replace(MILD, works=works, painters=painters)).layers


@pytest.mark.parametrize(("temperature_c", "rh"), [(15.0, 0.85), (15.0, 0.97), (45.0, 0.80), (45.0, 0.97)])
def test_air_in_which_nothing_gets_matt_is_written_as_a_document(temperature_c, rh):
    plan = made(replace(MILD, temperature_c=temperature_c, rh=rh, blower_m_s=0.0))
    assert plan.verdict.state == "stop"


@pytest.mark.parametrize("panel_c", [-5.0, 8.0, 60.0])
def test_a_panel_far_from_the_air_is_planned(panel_c):
    assert made(replace(MILD, panel_c=panel_c)).layers


def test_a_panel_still_hot_before_the_effect_coat_is_planned():
    plan = made(replace(MILD, effect_panel_c=65.0))
    assert "panel-not-ready" in codes(plan)


def test_a_very_slow_hand_is_planned():
    plan = made(replace(MILD, hand_m_s=0.15, overlap=0.85))
    assert "film-off-sheet" in codes(plan)


def test_eight_effect_coats_on_six_ground_coats_of_a_slow_hand_are_planned():
    plan = made(replace(MILD, ground_coats=6.0, effect_coats=8.0, hand_m_s=0.25, overlap=0.85))
    assert "effect-beyond-sheet" in codes(plan)


def test_where_no_adjustment_leads_to_sections_a_reason_is_still_given():
    plan = made(MILD, cup_ml=50.0)
    assert plan.adjustment.ground.reason


def test_a_film_thicker_than_the_model_knows_is_planned():
    thick = replace(MILD, ground_coats=6.0, effect_coats=8.0, hand_m_s=0.15, overlap=0.90)
    assert "film-off-sheet" in codes(made(thick, cup_ml=2000.0))


def test_an_edge_heavier_than_the_model_knows_is_planned():
    assert "film-off-sheet" in codes(made(replace(MILD, hand_m_s=0.15, overlap=0.90), cup_ml=2000.0))


EXTENT = st.sampled_from(["full", "fade", "none", None])


@st.composite
def jobs(draw):
    """Any shipped side with any panels in the air the sheets allow."""
    shape = draw(st.sampled_from(SHAPES))
    labels = [panel.label for panel in build_side(shape, {}).panels]
    chosen = draw(st.lists(st.sampled_from(labels), min_size=1, unique=True))
    works = tuple(
        (
            label,
            draw(st.sampled_from(["new", "repaired", "sound"])),
            draw(st.sampled_from([30.0, 60.0, 90.0])),
            draw(EXTENT),
            draw(EXTENT),
            "full",
        )
        for label in chosen
    )
    return Case(
        shape=shape,
        works=works,
        temperature_c=float(draw(st.integers(15, 35))),
        rh=draw(st.integers(20, 75)) / 100.0,
        painters=draw(st.integers(1, 2)),
        can_walk=draw(st.booleans()),
        spare_cup=draw(st.booleans()),
        hardener=draw(st.sampled_from([None, True, False])),
        effect_coats=draw(st.sampled_from([None, 2.0, 3.0])),
    )


@settings(max_examples=examples(10), database=None, derandomize=True)
@given(jobs())
def test_any_panels_in_any_allowed_air_become_a_plan_that_loses_no_paint(case):
    for _, coat in coats_of(made(case)):
        balance = coat.balance
        assert balance.on_panel_g + balance.edges_g + balance.overspray_g == pytest.approx(
            balance.sprayed_g, rel=1e-6
        )
        assert all(section.sprayed_g > 0.0 for section in coat.sections)
        assert [section.order for section in coat.sections] == list(range(1, len(coat.sections) + 1))
        assert len(coat.joins) == len(coat.sections) - 1
