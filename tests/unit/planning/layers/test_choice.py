"""Which adjustment is chosen: the cheapest, or a simpler one where the gain is noise."""

import numpy as np
import pytest

from cases.planning import DRY, MILD, SEVERE, process_for
from cases.rectangle import CLOSED
from laydown.planning.layers.adjustments import Option
from laydown.planning.layers.choice import Offer, choose, departures, own_cost
from laydown.planning.layers.open_time import Wetting
from laydown.planning.setup.weights import SIMPLER_MINUTES, WEIGHTS

PLAIN = Option("standard", 0.0, False, 1.2)
SLOW = Option("slow", 0.0, False, 1.2)
SLOW_5 = Option("slow", 0.05, False, 1.2)
SLOW_10 = Option("slow", 0.10, False, 1.2)
WIDE = Option("standard", 0.0, False, 1.3)
HARD = Option("standard", 0.0, True, 1.2)


def offer(*priced, backward=None):
    """Options with their minutes of work front to rear."""
    options = tuple(option for option, _ in priced)
    forward = np.array([minutes for _, minutes in priced], float)
    count = len(options)
    ones = np.ones(count)
    back = np.full(count, np.inf) if backward is None else np.array(backward, float)
    times = Wetting(ones * 90.0, ones * 300.0, ones * 400.0, ones * 200.0, ones * 20.0)
    return Offer(options, (CLOSED,) * count, times, forward, back, np.zeros(count))


def chosen(*priced, **more):
    found = offer(*priced, **more)
    choice = choose(found, 1.2)
    return found.options[choice.index], choice


def test_a_gain_below_half_a_minute_is_noise_and_the_simpler_one_stays():
    # 9.6 against 9.11 min: 0.49 min, noise
    option, choice = chosen((PLAIN, 9.60), (WIDE, 9.11))
    assert option == PLAIN
    assert choice.kept_simple
    assert choice.gain == pytest.approx(0.49)


def test_a_gain_of_more_than_half_a_minute_is_taken():
    option, choice = chosen((PLAIN, 9.80), (WIDE, 9.11))
    assert option == WIDE
    assert not choice.kept_simple
    assert choice.gain == 0.0


def test_on_a_dear_coat_a_gain_below_5_percent_is_noise_too():
    assert chosen((PLAIN, 41.9), (WIDE, 40.0))[0] == PLAIN
    assert chosen((PLAIN, 42.1), (WIDE, 40.0))[0] == WIDE


def test_of_equally_simple_ones_the_cheaper_is_taken():
    assert chosen((SLOW, 9.3), (WIDE, 9.2))[0] == WIDE
    assert chosen((SLOW, 9.2), (WIDE, 9.3))[0] == SLOW


def test_a_tie_goes_to_the_one_that_stands_first():
    assert chosen((SLOW, 9.0), (WIDE, 9.0))[1].index == 0


def test_the_runner_up_is_the_next_best_and_never_the_chosen_one():
    option, choice = chosen((PLAIN, 9.6), (WIDE, 9.3), (SLOW, 12.0))
    assert option == PLAIN
    assert choice.runner_up == 1
    assert chosen((PLAIN, 5.0))[1].runner_up is None


def test_where_nothing_is_possible_something_is_still_shown():
    _, choice = chosen((PLAIN, np.inf), (SLOW, np.inf))
    assert choice.index == 0
    assert choice.runner_up is None
    assert not choice.kept_simple


def test_the_better_direction_counts():
    found = offer((PLAIN, 9.0), (SLOW, 9.0), backward=[4.0, 12.0])
    assert found.total() == pytest.approx([4.0, 9.0])


def test_departures_count_the_steps_from_plain():
    # slow with 5 % water is how a large area is mixed: one step; common practice, no source
    assert [departures(option, 1.2) for option in (PLAIN, SLOW, SLOW_5, SLOW_10, WIDE, HARD)] == [
        0,
        1,
        1,
        2,
        1,
        1,
    ]
    assert departures(WIDE, 1.3) == 0


def test_the_own_cost_of_an_adjustment_is_the_sum_of_its_parts():
    # by hand: slow 0.1, water 160 * 0.05^2 = 0.4; nozzle one step 0.6; waiting 0.10 * 2 coats * 10 min = 2.0
    found = own_cost([PLAIN, SLOW_5, WIDE, HARD], np.full(4, 600.0), 2, 1.2)
    assert found == pytest.approx(
        [2.0, 2.0 + WEIGHTS.slow + 0.4, 2.0 + WEIGHTS.nozzle_step, 2.0 + WEIGHTS.hardener]
    )
    endless = own_cost([PLAIN], np.array([np.inf]), 1, 1.2)
    assert np.isfinite(endless).all(), "a flash that never ends counts as two hours"


@pytest.mark.parametrize("case", [MILD, DRY, SEVERE], ids=["mild", "dry", "severe"])
def test_what_a_plan_takes_is_never_far_from_the_best(case):
    for name in ("ground", "effect"):
        layer = process_for(case).layers[name]
        total = layer.offer.total()
        best = float(np.min(total))
        assert total[layer.choice.index] <= best + max(SIMPLER_MINUTES, 0.05 * best) + 1e-9
        assert layer.option == layer.offer.options[layer.choice.index]


def test_every_adjustment_the_sheet_allows_is_tried():
    # ground: 3 reducers, 0, 5 and 10 % water, two nozzles; hardener fixed
    assert len(process_for(MILD).layers["ground"].offer.options) == 18
    assert len(set(process_for(MILD).layers["ground"].offer.options)) == 18
