"""From log and plan to the stage of a defect and the figures behind its ways out."""

from dataclasses import replace

import pytest

from cases.booth_day import START_S, at, plan_of
from laydown.booth.defect_stage import context_of, stage_of
from laydown.reader.papers.tables import read_rescue
from laydown.schema.session import Session
from laydown.trade.rescue import ways_out


@pytest.mark.parametrize(
    ("step", "section", "stage"),
    [
        ("prepare", 0, "ground_dry"),
        ("ground.1.spray", 2, "ground_wet"),
        ("ground.1.flash", 0, "ground_wet"),
        ("ground.2.spray", 0, "ground_dry"),
        ("ground.release", 0, "ground_dry"),
        ("effect.1.spray", 0, "ground_dry"),
        ("effect.1.spray", 1, "effect_wet"),
        ("effect.release", 0, "effect_dry"),
        ("clear.1.spray", 0, "effect_dry"),
        ("clear.1.spray", 1, "clear_wet"),
        ("bake", 0, "clear_wet"),
        ("bake.cool", 0, "baked"),
        ("car.release", 0, "baked"),
        ("close", 0, "baked"),
    ],
)
def test_the_stage_is_preset_from_the_log(step, section, stage):
    plan = plan_of()
    session, at_s = at(plan, step, section)
    assert stage_of(plan, session, at_s) == stage


def test_the_figures_are_those_of_one_whole_coat_of_the_plan():
    plan = plan_of()
    context = context_of(plan, Session(plan.id), START_S)
    ground = plan.layers[0]
    coats = sum(one.counts for one in ground.coats)
    assert context.ground.coat_g * coats == pytest.approx(sum(one.sprayed_g for one in ground.coats))
    assert context.ground.coat_s * coats == pytest.approx(sum(one.elapsed_s for one in ground.coats))
    assert context.ground_hardened is plan.adjustment.ground.hardener
    assert context.region_share == 1.0
    assert context.effect_age_s == 0.0
    assert context.bake_s > plan.bake.hold_s


def test_a_panel_is_its_share_of_the_painted_side():
    plan = plan_of()
    door = next(one for one in plan.side.panels if one.name == "front door")
    share = door.area_m2 / sum(one.area_m2 for one in plan.side.panels)
    session = Session(plan.id)
    assert context_of(plan, session, START_S, ["front door"]).region_share == pytest.approx(share)
    assert context_of(plan, session, START_S, ["no such panel"]).region_share == 1.0


def test_the_effect_coat_ages_from_its_last_stroke():
    plan = plan_of()
    session, at_s = at(plan, "effect.release")
    young, old = (context_of(plan, session, at_s + late) for late in (0.0, 90_000.0))
    assert old.effect_age_s == pytest.approx(young.effect_age_s + 90_000.0)
    assert ways_out("clouds", "effect_dry", old, read_rescue())[0].key == "scuff and one more"


def test_a_job_without_effect_coat_has_no_figures_for_it():
    plan = plan_of()
    plan = replace(plan, layers=tuple(one for one in plan.layers if one.name != "effect"))
    context = context_of(plan, Session(plan.id), START_S)
    assert (context.effect.coats, context.effect.coat_g) == (0.0, 0.0)
