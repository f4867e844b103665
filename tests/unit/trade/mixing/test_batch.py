"""How much to mix, in how many mixes, and what is left."""

import pytest

from cases.speech import english
from laydown.schema.product import RecipeLine
from laydown.trade.mixing.batch import (
    Allowance,
    batch_ml,
    least_mix_g,
    leftover,
    need_ml,
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


def test_what_met_hardener_is_waste():
    assert leftover(600.0, 480.0, hardened=True).kind == "waste"
    kept = leftover(600.0, 480.0, hardened=False)
    # 600 - 30 - 480 = 90; the spread is 1.2816 x 0.12 x 480 = 73.8 mL.
    assert (kept.low_ml, kept.expected_ml, kept.high_ml) == pytest.approx((16.2, 90.0, 163.8), abs=0.05)
    assert "date" in english(kept.text)
