"""Another ground below a let-down panel: corrected where it is little, detected where it is much, named where asked."""

import numpy as np
import pytest

from cases import spectral_panel as made
from laydown.physics.colour.coat_count import estimate_coats, misfit
from laydown.physics.colour.ground_check import check_ground, ground_bias
from laydown.physics.colour.letdown import curve, fit_letdown
from laydown.physics.colour.unexplained import advise, explain_residual, residual_of

STRENGTHS = [1.0, 0.5, 0.25]


def clean(strength):
    """A panel without any scatter."""
    return fit_letdown(made.FIELDS, made.panel(made.FIELDS, strength), made.READING)


def bare(strength, **below):
    """Ground of a car, as read."""
    return made.panel([0.0], strength, below=made.ground(**below))[0]


@pytest.mark.parametrize("strength", STRENGTHS)
@pytest.mark.parametrize("below", [{"brightness": 0.97}, {"brightness": 1.02}, {"yellow": 0.02}])
@pytest.mark.parametrize("true", [1.5, 3.0])
def test_a_ground_a_little_off_is_corrected_to_a_fiftieth_of_a_coat(strength, below, true):
    fit = clean(strength)
    car = made.panel([true], strength, below=made.ground(**below))[0]
    state = check_ground(fit, bare(strength, **below), made.ANGLES_DEG, true)
    assert state.state == "go"
    own = estimate_coats(fit, made.panel([true], strength)[0], made.READING).mean
    corrected = estimate_coats(fit, car, made.READING, ground_delta=state.delta).mean
    assert abs(corrected - own) <= 0.02


@pytest.mark.parametrize("strength", STRENGTHS)
def test_the_bias_of_an_uncorrected_ground_is_foretold(strength):
    fit = clean(strength)
    car = made.panel([3.0], strength, below=made.ground(0.97))[0]
    state = check_ground(fit, bare(strength, brightness=0.97), made.ANGLES_DEG, 3.0)
    found = estimate_coats(fit, car, made.READING).mean - 3.0
    assert state.bias == pytest.approx(found, rel=0.1)
    assert state.bias > 0.1  # a darker ground is taken for more coats


@pytest.mark.parametrize("strength", STRENGTHS)
@pytest.mark.parametrize("below", [{"brightness": 0.88}, {"brightness": 1.12}, {"yellow": 0.08}])
def test_another_ground_is_detected(strength, below):
    assert check_ground(clean(strength), bare(strength, **below), made.ANGLES_DEG, 3.0).state == "wrong"


def test_a_ground_between_is_gone_on_with_and_corrected():
    state = check_ground(clean(1.0), bare(1.0, brightness=0.945), made.ANGLES_DEG, 3.0)
    assert state.state == "correct"
    assert 1.0 < state.difference.mean() < 2.0


def test_a_small_difference_that_shifts_the_count_by_much_is_wrong_as_well():
    # Weak colours: a ground that would pass by itself moves the count by more than half a coat.
    state = check_ground(clean(0.1), bare(0.1, brightness=0.96), made.ANGLES_DEG, 3.0)
    assert state.difference.mean() < 1.0
    assert state.bias > 0.5
    assert state.state == "wrong"


def test_a_panel_without_bare_ground_cannot_be_compared():
    fields = np.arange(1.0, 5.0)
    fit = fit_letdown(fields, made.panel(fields), made.READING)
    with pytest.raises(ValueError, match="0 coats"):
        check_ground(fit, bare(1.0), made.ANGLES_DEG, 3.0)


def test_over_its_own_ground_nothing_changes():
    fit = clean(0.5)
    coats = np.array([0.0, 1.0, 5.5])
    assert curve(fit, coats, np.zeros((5, 3)))[0] == pytest.approx(curve(fit, coats)[0], abs=1e-9)
    assert ground_bias(fit, 2.0, np.zeros((5, 3))) == pytest.approx(0.0, abs=1e-9)


def test_a_dark_ground_fades_with_the_bend_of_the_curve():
    # Where flakes brighten a dark ground at every angle nothing bounds its share but the curve itself.
    dark = 0.05 + 0.0 * made.NM
    fit = fit_letdown(made.FIELDS, made.panel(made.FIELDS, below=dark), made.READING)
    shift = curve(fit, np.array([0.0, 3.0]), np.full((5, 3), [1.0, 0.0, 0.0]))[0]
    moved = shift[:, :, 0] - curve(fit, np.array([0.0, 3.0]))[0][:, :, 0]
    assert moved[0] == pytest.approx(1.0, abs=1e-6)
    assert (moved[1] < 0.7).all()


def explained(strength, car):
    """What a car leaves at its best count, and how far it is off there."""
    fit = clean(strength)
    best = estimate_coats(fit, car, made.READING).mode
    left = explain_residual(fit, best, residual_of(fit, best, car), made.ANGLES_DEG)
    return left, misfit(fit, best, car).max()


@pytest.mark.parametrize("strength", STRENGTHS)
@pytest.mark.parametrize("brightness", [0.88, 1.12])
def test_a_ground_too_light_or_dark_is_suggested(strength, brightness):
    found, worst = explained(strength, made.panel([3.0], strength, below=made.ground(brightness))[0])
    assert found.cause == "ground_light"
    assert found.amplitude * (brightness - 1.0) > 0.0
    assert worst > 1.5


@pytest.mark.parametrize("strength", STRENGTHS)
def test_a_yellow_ground_is_suggested(strength):
    found, _ = explained(strength, made.panel([3.0], strength, below=made.ground(yellow=0.08))[0])
    assert found.cause == "ground_yellow"
    assert found.amplitude > 0.0


@pytest.mark.parametrize("strength", STRENGTHS)
def test_a_wrong_toner_is_suggested_and_leaves_the_count(strength):
    found, _ = explained(strength, made.panel([3.0], strength)[0] + np.array([0.0, 1.5, 0.0]))
    assert found.cause == "tint"
    assert found.amplitude == pytest.approx(1.5, abs=0.1)


@pytest.mark.parametrize("strength", [1.0, 0.5])
def test_flakes_that_lie_less_flat_are_suggested(strength):
    found, _ = explained(strength, made.panel([3.0], strength, flake=0.9)[0])
    assert found.cause == "flake"
    assert found.amplitude < 0.0


@pytest.mark.parametrize("strength", STRENGTHS)
def test_flakes_that_lie_flatter_are_never_taken_for_ground_or_toner(strength):
    found, _ = explained(strength, made.panel([3.0], strength, flake=1.12)[0])
    assert found.cause in {"flake", "unclear"}


def test_nothing_left_explains_nothing():
    assert explain_residual(clean(0.5), 3.0, np.zeros((5, 3)), made.ANGLES_DEG).cause == "unclear"


def test_a_second_strip_helps_and_more_readings_hardly_do():
    # The scatter of the film, not the instrument, is what limits a strong colour.
    case = made.case(2, 1.0)
    told = advise(fit_letdown(case.coats, case.lab, made.READING), 3.0)
    assert told.second_strip < 0.85 * told.now
    assert 0.9 * told.now < told.more_readings <= told.now
    assert told.further_field <= told.now
