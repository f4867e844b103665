"""The hand against scipy and against simulations of many strokes and joins."""

import numpy as np
import pytest
from scipy import special

from laydown.physics.spray.hand import SKILLED, TRAINEE, age_spread, film_cv, normal_share, wet_chance

JOINS = 200_000
DRAWS = 800


def test_normal_share_is_that_of_scipy():
    z = np.linspace(-9.0, 9.0, 400_001)
    assert np.abs(normal_share(z) - special.ndtr(z)).max() < 1e-6


@pytest.mark.parametrize("hand", [SKILLED, TRAINEE])
@pytest.mark.parametrize("open_spread", [0.05, 0.20, 0.50])
def test_chance_of_a_wet_edge_is_that_of_simulated_joins(hand, open_spread):
    dice = np.random.default_rng(20)
    spread = age_spread(hand, 12, open_spread)
    day = hand.day_share * dice.standard_normal(JOINS)
    strokes = hand.speed_share / np.sqrt(12.0) * dice.standard_normal(JOINS)
    opening = open_spread * dice.standard_normal(JOINS)
    length = hand.pause_s * np.exp(hand.pause_spread * dice.standard_normal(JOINS))
    pause = np.where(dice.random(JOINS) < hand.pause_chance, length, 0.0)
    late = np.exp(day + strokes + opening)
    for age in (20.0, 60.0, 140.0):
        for open_s in (45.0, 66.0, 94.0, 165.0):
            simulated = float(((age + pause) * late < open_s).mean())
            assert float(wet_chance(np.array(age), np.array(open_s), spread, hand)) == pytest.approx(
                simulated, abs=0.005
            )


def sprayed(hand, overlap, exponent, dice):
    """Films of many fields sprayed stroke by stroke, at the places of four pitches in their middle."""
    half = 0.125
    pitch = 2.0 * half * (1.0 - overlap)
    strokes = 2 * int(np.ceil(half / pitch)) + 12
    y = np.arange(0.0, 4.0, 0.05) * pitch
    films = np.zeros((DRAWS, len(y)))
    for draw in range(DRAWS):
        for stroke in range(-strokes // 2, strokes // 2 + 4):
            centre = pitch * (stroke + hand.pitch_share * dice.standard_normal())
            centre += hand.wander_m * dice.standard_normal()
            distance = min(max(1.0 + hand.distance_share * dice.standard_normal(), 0.5), 2.0)
            speed = np.exp(hand.speed_share * dice.standard_normal())
            u = (y - centre) / (half * distance)
            lands = (1.0 - 0.5 * (distance - 1.0)) / (half * distance * speed)
            films[draw] += lands * np.clip(1.0 - u * u, 0.0, None) ** exponent
    return films


@pytest.mark.parametrize("hand", [SKILLED, TRAINEE])
@pytest.mark.parametrize("overlap", [0.50, 0.65, 0.75])
def test_spread_of_the_film_is_that_of_simulated_strokes_or_a_little_above(hand, overlap):
    films = sprayed(hand, overlap, 1.7, np.random.default_rng(7))
    simulated = float(films.std() / films.mean())
    assert 0.99 * simulated < film_cv(hand, 0.25, overlap, 1.7) < 1.12 * simulated
