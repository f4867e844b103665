"""The air in which a plan holds: it contains the job's own and ends where the plan changes."""

from dataclasses import replace

import pytest

from cases.planning import DRY, MILD, SEVERE, planned, process_for, request_of, setup_for
from cases.speech import english
from laydown.planning.layers.open_time import conditions_of, films_of, wetting_of
from laydown.planning.process.air import limits_of_use
from laydown.schema.figure import Figure


@pytest.mark.parametrize("case", [MILD, DRY, SEVERE], ids=["mild", "dry", "severe"])
def test_the_range_contains_the_air_of_the_job(case):
    found = planned(case).plan.limits_of_use
    assert found.temperature_low_c <= case.temperature_c <= found.temperature_high_c
    assert found.rh_low <= case.rh <= found.rh_high


@pytest.mark.parametrize("case", [MILD, DRY], ids=["mild", "dry"])
def test_the_range_is_neither_everything_nor_nothing(case):
    found = planned(case).plan.limits_of_use
    assert 1.0 <= found.temperature_high_c - found.temperature_low_c <= 20.0
    assert 0.02 <= found.rh_high - found.rh_low <= 0.70


@pytest.mark.parametrize("case", [MILD, DRY, SEVERE], ids=["mild", "dry", "severe"])
def test_the_range_stays_within_what_the_sheets_allow(case):
    found = planned(case).plan.limits_of_use
    products = request_of(case).products
    for product in (products.ground, products.effect):
        assert found.temperature_high_c <= product.allowed.temperature_high_c
        assert found.rh_low >= product.allowed.rh_low
        assert found.rh_high <= product.allowed.rh_high


def ground_times(temperature_c, rh):
    """Open time and flash of the planned ground coat in other air."""
    layer = process_for(MILD).layers["ground"]
    job = request_of(MILD).job
    air = replace(job.air, temperature_c=Figure(temperature_c), rh=Figure(rh))
    conditions = conditions_of(replace(job, air=air), layer.task.paint, temperature_c)
    first = layer.coats[0]
    films = films_of([first.plan.part], [first.planned.task.full])
    found = wetting_of([layer.option], films, layer.task.paint, conditions, films.edge_g_m2 * 0.0)
    return float(found.open_s[0]), float(found.flash_s[0])


def test_beyond_the_dry_and_the_hot_end_the_edge_is_markedly_shorter():
    found = planned(MILD).plan.limits_of_use
    here = ground_times(20.0, 0.5)[0]
    assert ground_times(20.0, found.rh_low + 0.01)[0] > 0.75 * here
    assert ground_times(found.temperature_high_c - 0.5, 0.5)[0] > 0.75 * here
    assert ground_times(20.0, max(0.02, found.rh_low - 0.10))[0] < 0.85 * here
    assert ground_times(found.temperature_high_c + 4.0, 0.5)[0] < 0.85 * here


def test_the_text_says_the_four_ends():
    found = planned(MILD).plan.limits_of_use
    for value in (found.temperature_low_c, found.temperature_high_c):
        assert f"{value:.1f}" in english(found.text)
    for value in (found.rh_low, found.rh_high):
        assert f"{value * 100:.0f}" in english(found.text)


def test_without_a_waterborne_layer_the_whole_range_that_was_looked_at_is_given():
    found = limits_of_use(setup_for(MILD), [])
    assert (found.temperature_low_c, found.temperature_high_c) == (10.0, 30.0)
    assert (found.rh_low, found.rh_high) == (pytest.approx(0.10), pytest.approx(0.90))
