"""How much to mix, in how many mixes, and what is left."""

import pytest

from laydown.schema.product import RecipeLine
from laydown.trade.mixing.batch import (
    Allowance,
    batch_ml,
    batching,
    cup_fillings,
    fits_cup,
    least_mix_g,
    leftover,
    need_ml,
    theoretical_coverage_m2_l,
    wet_from_dry_um,
)


def test_need_is_film_times_area_over_what_lands():
    # 3 m2 x (40 + 20) µm / 0.6 = 300 mL.
    assert need_ml(3.0, [40.0, 20.0], 0.6) == pytest.approx(300.0)


def test_a_batch_holds_reserve_and_dead_volume_and_is_round():
    # 500 x 1.1 + 30 = 580, next step of 25 is 600; 495.4545 x 1.1 + 30 = 575 exactly.
    assert batch_ml(500.0) == 600.0
    assert batch_ml(545.0 / 1.1) == 575.0
    # 700 x 1.1 is 770.0000000000001 in binary; the batch is 800 all the same.
    assert batch_ml(700.0) == 800.0
    assert batch_ml(500.0, Allowance(0.0, 0.0, 10.0)) == 500.0


def test_the_least_mix_leaves_the_gun_no_air_when_every_line_is_large():
    # Half and half, 3 % of either: 0.1 / (0.03 x 0.5) = 6.7 g; but 30 + 20 mL at 1.2 g/mL are 60 g.
    lines = tuple(RecipeLine(r, r, 1, "parts", "mass", density_g_ml=1.2) for r in ("base", "water"))
    assert least_mix_g(lines) == pytest.approx(60.0)
    unknown = tuple(RecipeLine(r, r, 1, "parts", "mass") for r in ("base", "water"))
    assert least_mix_g(unknown) == pytest.approx(0.1 / 0.015)


def test_a_cup_is_filled_as_often_as_it_must():
    assert fits_cup(550.0, 550.0)
    assert not fits_cup(551.0, 550.0)
    assert [cup_fillings(ml, 550.0) for ml in (0.0, 550.0, 551.0, 1100.0)] == [1, 1, 2, 2]
    with pytest.raises(ValueError, match="cup_ml"):
        cup_fillings(1.0, 0.0)


def test_a_layer_comes_from_one_mix_unless_tin_or_life_forbid_it():
    assert batching(600.0, 1000.0, 1800.0, None).mix_count == 1
    assert not batching(600.0, 1000.0, 1800.0, 7200.0).box
    two_tins = batching(1500.0, 1000.0, 1800.0, 7200.0)
    assert (two_tins.mix_count, two_tins.box) == (2, True)
    short_life = batching(600.0, 1000.0, 7300.0, 3600.0)
    assert (short_life.mix_count, short_life.box) == (3, True)
    assert "harden it in 3 parts" in short_life.text


def test_what_met_hardener_is_waste():
    assert leftover(600.0, 480.0, hardened=True).kind == "waste"
    kept = leftover(600.0, 480.0, hardened=False)
    # 600 - 30 - 480 = 90; the spread is 1.2816 x 0.12 x 480 = 73.8 mL.
    assert (kept.low_ml, kept.expected_ml, kept.high_ml) == pytest.approx((16.2, 90.0, 163.8), abs=0.05)
    assert "date" in kept.text


@pytest.mark.parametrize(
    "refused",
    [
        lambda: need_ml(1.0, [1.0], 0.0),
        lambda: theoretical_coverage_m2_l(0.5, 0.0),
        lambda: wet_from_dry_um(10.0, 0.0),
    ],
)
def test_a_divisor_of_nothing_is_refused(refused):
    with pytest.raises(ValueError, match="above 0"):
        refused()
