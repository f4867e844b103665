"""Every step on one clock."""

from dataclasses import replace
from itertools import pairwise

import pytest

from cases.planning import DRY, FADE, MILD, SEVERE, VAN, WING_ONLY, process_for, quick

CASES = [MILD, DRY, SEVERE, VAN, FADE]
NAMES = ["mild", "dry", "severe", "van", "fade"]


def steps(case):
    return {step.id: step for step in quick(case).plan.timeline}


def test_a_three_stage_job_goes_in_this_order():
    order = [step.kind for step in quick(MILD).plan.timeline if step.where == "booth"]
    assert order == [
        "prepare",
        *["spray", "flash"] * 2,
        "release",
        "cool",
        *["spray", "flash"] * 2,
        "dehydrate",
        "release",
        *["spray", "flash"] * 2,
        "bake",
        "cool",
        "unmask",
    ]


@pytest.mark.parametrize("case", CASES, ids=NAMES)
def test_spraying_and_flashing_take_what_the_coats_say(case):
    known = steps(case)
    for layer in quick(case).plan.layers:
        for coat in layer.coats:
            spray, flash = (known[f"{layer.name}.{coat.number}.{what}"] for what in ("spray", "flash"))
            assert spray.end_s - spray.start_s == pytest.approx(coat.elapsed_s)
            if layer.name != "clear" or coat is not layer.coats[-1]:
                assert flash.end_s - flash.start_s == pytest.approx(coat.flash_s.value)
            assert flash.start_s == pytest.approx(spray.end_s)


@pytest.mark.parametrize("case", CASES, ids=NAMES)
def test_steps_stand_in_the_order_of_their_start(case):
    starts = [step.start_s for step in quick(case).plan.timeline]
    assert starts == sorted(starts)


@pytest.mark.parametrize("case", CASES, ids=NAMES)
def test_the_spread_of_the_clock_grows_step_by_step(case):
    booth = [step for step in quick(case).plan.timeline if step.where == "booth"]
    late = [step.high_end_s - step.end_s for step in booth]
    assert all(after >= before - 1e-9 for before, after in pairwise(late))


@pytest.mark.parametrize("case", CASES, ids=NAMES)
def test_one_painter_does_not_mix_while_his_hands_are_at_something_else(case):
    timeline = quick(case).plan.timeline
    mixes = [step for step in timeline if step.kind == "mix"]
    assert len(mixes) == 3
    for mix in mixes:
        for busy in (step for step in timeline if step.kind in {"prepare", "spray", "release", "unmask"}):
            assert mix.end_s <= busy.start_s + 1e-6 or busy.end_s <= mix.start_s + 1e-6


@pytest.mark.parametrize("painters", [1, 2])
def test_a_mix_is_ready_before_its_first_coat_and_no_step_starts_before_what_it_needs(painters):
    known = {step.id: step for step in quick(replace(MILD, painters=painters)).plan.timeline}
    for layer in ("ground", "effect", "clear"):
        assert known[f"mix.{layer}"].end_s <= known[f"{layer}.1.spray"].start_s + 1e-6
    for step in known.values():
        assert all(known[need].end_s <= step.start_s + 1e-6 for need in step.needs)


def test_two_painters_prepare_and_mix_at_the_same_time():
    pair = {step.id: step for step in quick(replace(MILD, painters=2)).plan.timeline}
    assert pair["prepare"].start_s == 0.0
    assert pair["mix.ground"].end_s == pytest.approx(pair["prepare"].end_s)


def test_the_first_coat_of_a_layer_needs_its_mix():
    known = steps(MILD)
    for layer in ("ground", "effect", "clear"):
        assert f"mix.{layer}" in known[f"{layer}.1.spray"].needs


def test_one_painter_does_not_mix_while_preparing():
    known = steps(MILD)
    assert (
        known["mix.ground"].end_s <= known["prepare"].start_s
        or known["prepare"].end_s <= known["mix.ground"].start_s
    )


def test_drying_before_the_clear_is_the_rest_after_the_last_flash():
    known, process = steps(MILD), process_for(MILD)
    last = process.layers["effect"].coats[-1].flash_s
    step = known["effect.dehydrate"]
    assert step.end_s - step.start_s == pytest.approx(process.dehydrate_s - last)


def test_the_bake_comes_after_a_flash_and_unmasking_before_polishing():
    known = steps(MILD)
    assert known["clear.2.flash"].end_s <= known["bake"].start_s
    assert known["bake"].end_s - known["bake"].start_s > 1800.0, (
        "half an hour at temperature and the way there"
    )
    assert known["unmask"].end_s <= known["polish"].start_s


def test_the_first_step_starts_at_zero_and_nothing_before_it():
    for case in (MILD, replace(MILD, works=WING_ONLY)):
        assert min(step.start_s for step in quick(case).plan.timeline) == 0.0


def test_gates_stand_before_steps_that_are_on_the_clock():
    plan = quick(MILD).plan
    known = steps(MILD)
    assert [gate.before for gate in plan.gates] == ["effect.1.spray", "clear.1.spray", "polish"]
    assert all(gate.before in known for gate in plan.gates)
    assert all(clock.starts in known for clock in plan.clocks)
