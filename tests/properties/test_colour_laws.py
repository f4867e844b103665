"""What the laws of let-down panels, maps and looking must obey, whatever the numbers."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.thorough import examples
from laydown.physics.colour.coat_count import (
    Doubt,
    estimate_coats,
    expected_sd,
    misfit,
    slopes,
    step_difference,
    travel,
)
from laydown.physics.colour.count_chances import agree, coat_grid, combined, posterior_of, zones_join
from laydown.physics.colour.difference import de2000
from laydown.physics.colour.eye_ranking import Judgement, rank_coats
from laydown.physics.colour.ground_check import check_ground, ground_bias
from laydown.physics.colour.letdown import curve, fit_letdown
from laydown.physics.colour.unevenness import (
    appearance_map,
    difference_table,
    effective_coats,
    film_tolerance,
    join_contrast,
    summary,
)
from laydown.physics.colour.unexplained import advise, explain_residual, residual_of

ANGLES_DEG = np.array([15.0, 25.0, 45.0, 75.0, 110.0])
COATS = np.arange(6.0)
SEEDS = st.integers(0, 10_000)
MANY = settings(max_examples=examples(40))


def made(seed, bend=0.15):
    """A panel whose fields lie on the curve exactly, darkening towards the flop."""
    dice = np.random.default_rng(seed)
    start = np.array([92.0, -1.0, 3.0]) + dice.normal(0.0, 0.5, (5, 3))
    slope = np.array(
        [[1.0, 0.2, 0.5], [0.0, 0.2, 0.8], [-2.0, 0.1, 1.5], [-3.0, -0.2, 2.0], [-3.5, -0.3, 2.0]]
    )
    slope = slope * dice.uniform(0.6, 1.4, (5, 3))
    step = (1.0 - np.exp(-bend * COATS)) / bend
    return fit_letdown(COATS, start + slope * step[:, None, None], 0.09)


@MANY
@given(seed=SEEDS, true=st.floats(0.5, 5.0))
def test_a_car_on_the_curve_is_counted_right(seed, true):
    fit = made(seed)
    target = curve(fit, np.array([true]))[0][0]
    found = estimate_coats(fit, target, 0.09, Doubt(film_scatter=0.0))
    assert found.mean == pytest.approx(true, abs=0.03)
    assert misfit(fit, true, target) == pytest.approx(0.0, abs=1e-9)
    assert residual_of(fit, true, target) == pytest.approx(0.0, abs=1e-9)
    assert found.density.sum() * 0.02 == pytest.approx(1.0)
    assert 0.0 <= found.low <= found.mean <= found.high <= fit.last


@MANY
@given(seed=SEEDS, shift=st.floats(0.1, 3.0))
def test_adding_the_same_colour_to_panel_and_car_changes_nothing(seed, shift):
    fit = made(seed)
    target = curve(fit, np.array([2.7]))[0][0] + 0.1
    moved = fit_letdown(COATS, fit.lab + shift, 0.09)
    assert estimate_coats(moved, target + shift, 0.09).mean == pytest.approx(
        estimate_coats(fit, target, 0.09).mean, abs=1e-6
    )


@MANY
@given(seed=SEEDS, more=st.floats(1.1, 4.0))
def test_more_doubt_never_narrows(seed, more):
    fit = made(seed)
    assert expected_sd(fit, 3.0, 0.09 * more) > expected_sd(fit, 3.0, 0.09)
    assert expected_sd(fit, 3.0, 0.09, Doubt(mismatch=0.3 * more)) > expected_sd(fit, 3.0, 0.09)
    assert expected_sd(fit, 3.0, 0.09, Doubt(ground=0.2 * more)) > expected_sd(fit, 3.0, 0.09)
    told = advise(fit, 3.0)
    assert max(told.more_readings, told.second_strip, told.further_field) <= told.now


def test_where_a_coat_changes_nothing_no_count_is_foretold():
    flat = fit_letdown(COATS, np.full((6, 5, 3), 50.0), 0.09)
    assert np.abs(slopes(flat, 3.0)).max() < 1e-9
    assert expected_sd(flat, 3.0, 0.09) > 1e6
    assert travel(flat).max() < 1e-9


@MANY
@given(seed=SEEDS, size=st.floats(-1.0, 1.0))
def test_the_bias_of_a_ground_goes_with_the_size_of_its_difference(seed, size):
    fit = made(seed)
    unit = np.full((5, 3), [1.0, 0.0, 0.0])
    assert ground_bias(fit, 3.0, size * unit) == pytest.approx(size * ground_bias(fit, 3.0, unit), abs=0.02)
    state = check_ground(fit, fit.lab[0] + size * unit, ANGLES_DEG, 3.0)
    assert state.delta == pytest.approx(size * unit)
    assert state.difference == pytest.approx(de2000(fit.lab[0], fit.lab[0] + size * unit))


@MANY
@given(
    seed=SEEDS,
    cause=st.sampled_from(["ground_light", "ground_yellow", "flake", "tint"]),
    size=st.floats(0.5, 5.0),
    sign=st.sampled_from([-1.0, 1.0]),
)
def test_a_pure_cause_explains_all_and_is_measured(seed, cause, size, sign):
    fit = made(seed)
    channel = {"ground_light": 0, "ground_yellow": 2, "flake": 0, "tint": 1}[cause]
    shape = [1.0, 0.5, 0.0, -0.4, -0.5] if cause == "flake" else np.ones(5)
    left = np.zeros((5, 3))
    left[:, channel] = sign * size * np.asarray(shape)
    # What a change of coats would do is not part of it.
    found = explain_residual(fit, 3.0, left + 0.7 * slopes(fit, 3.0), ANGLES_DEG)
    assert found.cause == cause
    assert found.explained_share == pytest.approx(1.0)
    assert found.amplitude == pytest.approx(sign * size)


@MANY
@given(seed=SEEDS, fewer=st.floats(0.0, 2.5), step=st.floats(0.2, 2.0))
def test_a_difference_of_counts_has_no_direction(seed, fewer, step):
    fit = made(seed)
    assert step_difference(fit, fewer, fewer + step) == pytest.approx(
        step_difference(fit, fewer + step, fewer)
    )


@MANY
@given(seed=SEEDS, wanted=st.floats(0.5, 4.0), scale=st.floats(0.1, 50.0))
def test_only_the_ratio_of_films_counts(seed, wanted, scale):
    table = difference_table(made(seed), wanted)
    film_um = np.linspace(5.0, 15.0, 21)
    assert appearance_map(table, film_um, 10.0) == pytest.approx(
        appearance_map(table, scale * film_um, scale * 10.0), abs=1e-9
    )
    assert effective_coats(np.array([10.0]), 10.0, wanted) == pytest.approx(wanted)


@MANY
@given(seed=SEEDS, smaller=st.floats(0.1, 0.5), larger=st.floats(0.5, 1.0))
def test_a_stricter_eye_leaves_less_room(seed, smaller, larger):
    table = difference_table(made(seed), 2.5)
    for angle in range(5):
        strict, kind = film_tolerance(table, angle, smaller), film_tolerance(table, angle, larger)
        assert strict[0] <= kind[0]
        assert strict[1] <= kind[1]


@MANY
@given(seed=SEEDS)
def test_a_join_of_even_film_has_no_contrast_and_a_thick_one_has(seed):
    fit = made(seed)
    assert join_contrast(fit, 2.5, np.array([2.5, 2.5])) == pytest.approx(0.0, abs=1e-9)
    assert (join_contrast(fit, 2.8, np.array([2.5, 2.5]))[:, 2:] > 0.1).all()


@MANY
@given(seed=SEEDS, cut=st.integers(1, 4))
def test_cutting_cells_into_pieces_leaves_the_summary(seed, cut):
    dice = np.random.default_rng(seed)
    difference, area_m2 = dice.exponential(1.0, (60, 2)), dice.uniform(0.1, 1.0, 60)
    whole = summary(difference, area_m2)
    pieces = summary(np.repeat(difference, cut, axis=0), np.repeat(area_m2 / cut, cut))
    assert pieces.above_fraction == pytest.approx(whole.above_fraction)
    assert (np.diff(whole.above_fraction, axis=1) <= 0.0).all()
    assert pieces.low == pytest.approx(whole.low)
    assert pieces.high == pytest.approx(whole.high)


@MANY
@given(first=st.floats(1.5, 4.5), second=st.floats(1.5, 4.5), sd=st.floats(0.1, 0.3))
def test_estimates_are_joined_whichever_comes_first(first, second, sd):
    grid = coat_grid(6.0)
    one, other = (posterior_of(grid, np.exp(-0.5 * ((grid - mean) / sd) ** 2)) for mean in (first, second))
    assert agree(one, other) == agree(other, one)
    assert zones_join(one, other) == zones_join(other, one)
    both = combined(one, other)
    assert (both is None) == (not agree(one, other))
    if both is not None:
        assert min(one.mean, other.mean) - 0.01 <= both.mean <= max(one.mean, other.mean) + 0.01
        assert both.sd <= max(one.sd, other.sd) + 0.005


@MANY
@given(match=st.integers(1, 4), turn=st.permutations(range(6)))
def test_the_order_in_which_fields_are_judged_does_not_count(match, turn):
    def word(field):
        return "match" if field == match else "too_few" if field < match else "too_many"

    sorted_up = [Judgement(float(field), "face", word(field)) for field in range(6)]
    turned = [sorted_up[place] for place in turn]
    one, other = (rank_coats(series, 6.0).posterior for series in (sorted_up, turned))
    assert one.mean == pytest.approx(other.mean)
    assert one.mean == pytest.approx(float(match), abs=0.1)


@MANY
@given(match=st.integers(1, 4))
def test_mirrored_words_give_a_mirrored_count(match):
    fields = range(6)
    words = ["match" if field == match else "too_few" if field < match else "too_many" for field in fields]
    swap = {"match": "match", "too_few": "too_many", "too_many": "too_few"}
    there = rank_coats([Judgement(float(f), "face", w) for f, w in zip(fields, words, strict=True)], 5.0)
    back = rank_coats([Judgement(5.0 - f, "face", swap[w]) for f, w in zip(fields, words, strict=True)], 5.0)
    assert there.posterior.mean + back.posterior.mean == pytest.approx(5.0)
