"""Laws that every plan keeps, whatever the side, the air, the crew and the choices."""

import dataclasses
import itertools
import math
import os
import subprocess
import sys
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.planning import (
    DRY,
    FADE,
    MILD,
    SEVERE,
    VAN,
    coats_of,
    planned,
    process_for,
    quick,
    request_of,
    setup_for,
)
from cases.thorough import examples
from laydown.physics.spray.hand import SKILLED, age_spread, wet_chance
from laydown.planning.layers.open_time import conditions_of, films_of, wetting_of
from laydown.planning.plan import make_plan
from laydown.planning.setup.weights import MOVE_S
from laydown.reader.encode import to_json
from laydown.schema.figure import Figure

PAIR = replace(MILD, painters=2)
WALK = replace(MILD, can_walk=True)
CASES = (MILD, DRY, SEVERE, PAIR, WALK, VAN, FADE)
NAMES = ("mild", "dry", "severe", "pair", "walk", "van", "fade")

every_plan = pytest.mark.parametrize("case", CASES, ids=NAMES)


def numbers_of(noun, path=""):
    """Every number of a noun with its place."""
    if dataclasses.is_dataclass(noun):
        for item in dataclasses.fields(noun):
            yield from numbers_of(getattr(noun, item.name), f"{path}.{item.name}")
    elif isinstance(noun, dict):
        for key, value in noun.items():
            yield from numbers_of(value, f"{path}.{key}")
    elif isinstance(noun, (tuple, list)):
        for index, value in enumerate(noun):
            yield from numbers_of(value, f"{path}[{index}]")
    elif isinstance(noun, float):
        yield path, noun


# --- mass -------------------------------------------------------------------------------------------------------------


@every_plan
def test_what_is_sprayed_lands_on_the_panel_beyond_its_edges_or_in_the_air(case):
    for layer, coat in coats_of(quick(case).plan):
        balance = coat.balance
        parts = balance.on_panel_g + balance.edges_g + balance.overspray_g
        assert parts == pytest.approx(balance.sprayed_g, rel=1e-6), (layer.name, coat.number)
        assert min(balance.on_panel_g, balance.edges_g, balance.overspray_g) > 0.0


@every_plan
def test_sections_add_up_to_the_coat_and_grams_are_flow_times_trigger_time(case):
    for _, coat in coats_of(quick(case).plan):
        flow = coat.passes[0].flow_g_s
        assert {one.flow_g_s for one in coat.passes} == {flow}
        assert math.fsum(one.sprayed_g for one in coat.sections) == pytest.approx(coat.sprayed_g, rel=1e-9)
        assert math.fsum(one.spray_s for one in coat.sections) == pytest.approx(coat.spray_s, rel=1e-9)
        assert coat.sprayed_g == pytest.approx(coat.balance.sprayed_g, rel=1e-9)
        for section in coat.sections:
            assert section.sprayed_g == pytest.approx(flow * section.spray_s, rel=1e-9)


@every_plan
def test_a_mix_holds_what_all_coats_of_its_layer_spray(case):
    plan = quick(case).plan
    for mix in plan.mixes:
        layer = next(one for one in plan.layers if one.name == mix.layer)
        density = setup_for(case).paints[mix.layer].density_g_ml
        sprayed = math.fsum(coat.sprayed_g for coat in layer.coats)
        assert mix.need_ml == pytest.approx(sprayed / density, rel=1e-9)
        assert mix.lines[-1].running_g == pytest.approx(math.fsum(line.step_g for line in mix.lines), abs=0.5)


@every_plan
def test_the_cup_never_runs_dry_and_only_a_refill_fills_it(case):
    for layer, coat in coats_of(quick(case).plan):
        refills = {refill.after_section for refill in coat.refills}
        full = request_of(case).job.gun.cup_ml * setup_for(case).paints[layer.name].density_g_ml
        painters = request_of(case).job.job.painters
        for section, before in zip(coat.sections[1:], coat.sections, strict=False):
            if before.order not in refills:
                # of two painters the one who sprays more of the section
                used = before.cup_g_after - section.cup_g_after
                assert used >= section.sprayed_g / painters - 1e-6
                assert used <= section.sprayed_g + 1e-6
        assert all(0.0 <= section.cup_g_after < full for section in coat.sections)
        assert all(0.0 < refill.fill_g <= full + 1e-9 for refill in coat.refills)


@every_plan
def test_no_cup_is_asked_to_hold_more_than_it_does(case):
    for layer, coat in coats_of(quick(case).plan):
        full = request_of(case).job.gun.cup_ml * setup_for(case).paints[layer.name].density_g_ml
        since = 0.0
        for section in coat.sections:
            since += section.sprayed_g / request_of(case).job.job.painters
            assert since <= full * 1.02, "the search estimates the grams of a section to 2 %"
            if section.order in {refill.after_section for refill in coat.refills}:
                since = 0.0


# --- time -------------------------------------------------------------------------------------------------------------


@every_plan
def test_steps_in_the_booth_do_not_overlap_and_what_they_need_is_done(case):
    steps = quick(case).plan.timeline
    known = {step.id: step for step in steps}
    assert len(known) == len(steps)
    for step in steps:
        assert 0.0 <= step.start_s <= step.end_s
        assert step.low_end_s <= step.end_s <= step.high_end_s
        for need in step.needs:
            assert known[need].end_s <= step.start_s + 1e-6
    booth = [step for step in steps if step.where == "booth"]
    for before, after in itertools.pairwise(booth):
        assert before.end_s <= after.start_s + 1e-6


@every_plan
def test_a_layer_is_mixed_before_its_first_coat(case):
    steps = {step.id: step for step in quick(case).plan.timeline}
    for layer in quick(case).plan.layers:
        assert steps[f"mix.{layer.name}"].end_s <= steps[f"{layer.name}.1.spray"].start_s + 1e-6


@every_plan
def test_sections_follow_one_another_and_the_cup_is_filled_between_them(case):
    for layer in process_for(case).layers.values():
        for coat in layer.coats:
            made, work = coat.planned.made, coat.planned.work
            strokes = made.strokes
            for number in range(len(made.begin_s)):
                mine = strokes.only(strokes.section == number)
                assert mine.begin_s.min() >= made.begin_s[number] - 1e-9
                assert (mine.begin_s + mine.duration_s()).max() <= made.end_s[number] + 1e-9
            for number, (end, begin) in enumerate(zip(made.end_s, made.begin_s[1:], strict=False)):
                stop = work.refill_s if number in work.refill_after else 0.0
                assert begin - end == pytest.approx(MOVE_S + stop)


def test_a_spare_cup_shortens_every_stop():
    slow, quickly = (quick(case).plan for case in (VAN, replace(VAN, spare_cup=True)))
    for plan, stop_s in ((slow, 90.0), (quickly, 15.0)):
        stops = [refill.takes_s for _, coat in coats_of(plan) for refill in coat.refills]
        assert stops
        assert set(stops) == {stop_s}


# --- the document -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("case", [MILD, VAN, FADE, WALK], ids=["mild", "van", "fade", "walk"])
def test_no_number_of_the_document_is_endless_or_undefined(case):
    bad = [(place, value) for place, value in numbers_of(planned(case).plan) if not math.isfinite(value)]
    assert not bad


def test_the_same_request_gives_the_same_bytes():
    again = make_plan(request_of(MILD))
    assert to_json(again.plan) == to_json(planned(MILD).plan)


TWIN = """
import sys
from laydown.desk.papers.files import open_job
from laydown.planning.plan import make_plan
from laydown.reader.encode import to_json
from laydown.reader.papers.shelf import shipped_folder
import hashlib
plan = make_plan(open_job(shipped_folder() / "jobs" / "white-pearl-left.toml")).plan
print(plan.id, hashlib.sha256(to_json(plan).encode()).hexdigest())
"""


def test_another_process_with_another_hash_seed_gives_the_same_bytes():
    told = {
        subprocess.run(
            [sys.executable, "-c", TWIN],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "4711")
    }
    assert len(told) == 1
    assert len(told.pop().split()) == 2


def test_the_right_side_has_the_numbers_of_the_left_one():
    left, right = (quick(replace(DRY, side=side)).plan for side in ("left", "right"))
    assert (left.side.side, right.side.side) == ("left", "right")
    assert left.layers == right.layers
    assert left.timeline == right.timeline
    assert left.mixes == right.mixes
    assert left.adjustment == right.adjustment


# --- air --------------------------------------------------------------------------------------------------------------


@cache
def chances(temperature_c, rh):
    """Chance of every join of the ground coat of one fixed plan in some air."""
    layer = process_for(MILD).layers["ground"]
    first = layer.coats[0]
    job = request_of(MILD).job
    air = replace(job.air, temperature_c=Figure(temperature_c), rh=Figure(rh))
    conditions = conditions_of(replace(job, air=air), layer.task.paint, temperature_c)
    films = films_of([first.plan.part], [first.planned.task.full])
    opening = wetting_of([layer.option], films, layer.task.paint, conditions, np.zeros(1)).open_s[0]
    ages = np.array([join.age_s for join in first.planned.joined.joins])
    spread = age_spread(SKILLED, 10.0, conditions.open_ln_sd)
    return wet_chance(ages, np.full(len(ages), opening), spread, SKILLED)


air_c = st.integers(14, 34).map(float)
share = st.integers(15, 75).map(lambda percent: percent / 100.0)


@settings(max_examples=examples(25), database=None)
@given(air_c, share, st.integers(1, 12), st.integers(1, 30))
def test_hotter_or_drier_air_never_raises_the_chance_of_a_fixed_plan(temperature_c, rh, hotter_k, drier):
    here = chances(temperature_c, rh)
    # Hotter at the same water in the air is drier too; at the same humidity the drying drive grows as well.
    assert (chances(temperature_c + hotter_k, rh) <= here + 1e-9).all()
    assert (chances(temperature_c, max(0.05, rh - drier / 100.0)) <= here + 1e-9).all()
