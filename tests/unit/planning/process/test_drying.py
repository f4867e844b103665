"""Between the layers: drying, cooling, the gate, dehydration and the clear's own times."""

import math
from dataclasses import replace

import pytest

from cases.planning import MILD, codes, process_for, quick, request_of, setup_for
from laydown.planning.plan import make_plan
from laydown.planning.process.drying import clear_times, cooling_of, panel_start_c
from laydown.planning.process.process import process_of
from laydown.planning.setup.setup import setup_of
from laydown.schema.product import Bake


def test_the_panel_starts_as_measured_else_as_the_air():
    assert panel_start_c(request_of(MILD).job) == 20.0
    assert panel_start_c(request_of(replace(MILD, panel_c=12.0)).job) == 12.0


def test_a_measured_panel_before_the_effect_coat_is_kept():
    cooling = process_for(replace(MILD, effect_panel_c=26.0)).cooling
    assert (cooling.surface_c, cooling.cool_s, cooling.dry_s) == (26.0, 0.0, 0.0)


def test_a_panel_warmed_by_blowers_cools_to_3_k_above_the_air():
    process = process_for(MILD)
    warm_c = process.layers["ground"].coats[-1].warm_c
    assert warm_c > 23.0
    assert process.cooling.surface_c == pytest.approx(23.0)
    assert process.cooling.cool_s > 0.0


def test_without_blowers_the_panel_is_no_warmer_than_the_air_and_need_not_cool():
    cooling = process_for(replace(MILD, blower_m_s=0.0)).cooling
    assert cooling.cool_s == 0.0
    assert cooling.surface_c <= 20.0 + 1e-6


def baked():
    """A ground coat whose sheet asks for 20 min at 60 °C."""
    request = request_of(MILD)
    ground = replace(request.products.ground, bake=Bake(60.0, 1200.0))
    return replace(request, products=replace(request.products, ground=ground))


def test_a_ground_coat_with_a_bake_is_dried_and_cooled_before_the_effect_coat():
    setup = setup_of(baked())
    cooling = cooling_of(setup, process_of(setup).layers["ground"])
    assert cooling.dry_s > 1200.0, "20 min at temperature and the way there"
    # from 60 °C down to 23 °C in air of 20 °C: ln(40 / 3) = 2.6 time constants
    assert cooling.cool_s > process_for(MILD).cooling.cool_s
    steps = {step.id: step for step in make_plan(baked(), thorough=False, drawn=False).plan.timeline}
    assert steps["ground.bake"].end_s <= steps["ground.cool"].start_s <= steps["effect.1.spray"].start_s


def test_the_clear_flashes_by_its_sheet_at_the_sheets_own_temperature():
    # 5 to 10 min at 20 °C in still air: geometric middle 424 s
    open_s, flash_s = clear_times(setup_for(MILD), 20.0)
    assert flash_s == pytest.approx(math.sqrt(300.0 * 600.0), rel=0.01)
    assert open_s == pytest.approx(flash_s / 2.0)
    assert clear_times(setup_for(MILD), 30.0)[1] < flash_s


def test_a_clear_without_flash_time_gets_the_default():
    setup = setup_for(MILD)
    clear = replace(setup.paints["clear"], product=replace(setup.paints["clear"].product, flash=None))
    assert clear_times(replace(setup, paints={**setup.paints, "clear": clear}), 20.0) == (210.0, 420.0)


@pytest.mark.parametrize(
    ("case", "code"),
    [
        (replace(MILD, effect_panel_c=35.0), "panel-not-ready"),
        (replace(MILD, effect_panel_c=26.0), "panel-warm"),
        (replace(MILD, temperature_c=12.0, works=None), "air-outside-sheet"),
        (replace(MILD, rh=0.8), "air-outside-sheet"),
    ],
)
def test_what_there_is_to_fear_of_air_and_panel_is_said(case, code):
    assert code in codes(quick(case).plan)
    assert code not in codes(quick(MILD).plan)


def test_air_as_wet_as_fog_never_gets_a_coat_matt():
    plan = quick(replace(MILD, temperature_c=10.0, rh=0.97, blower_m_s=0.0)).plan
    assert {"never-matt", "air-outside-sheet"} <= codes(plan)
    assert plan.verdict.state == "stop"
