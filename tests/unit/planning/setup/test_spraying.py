"""Passes against the geometry of the fan and the mass balance."""

from dataclasses import replace

import pytest

from cases.planning import MILD, film_of, request_of
from laydown.planning.setup.spraying import (
    FASTEST_M_S,
    SLOWEST_M_S,
    clear_pass,
    drop_pass,
    full_pass,
    light_pass,
    settings_of,
)
from laydown.schema.figure import Figure

GUN = request_of(MILD).job.gun
"""1.2 nozzle, 3.5 g/s, fan 25 cm at 18 cm, 0.6 m/s, overlap 70 %, transfer 0.60."""

CLOSED = full_pass(GUN, 1.2)


def test_the_closed_pass_is_the_gun_as_measured():
    assert (CLOSED.flow_g_s, CLOSED.fan_m, CLOSED.distance_m) == (3.5, 0.25, 0.18)
    assert (CLOSED.speed_m_s, CLOSED.overlap, CLOSED.transfer) == (0.6, 0.7, 0.6)
    # 3.5 * 0.60 / (0.25 * 0.30 * 0.6) = 46.7 g/m2
    assert CLOSED.film_g_m2() == pytest.approx(46.667, abs=0.001)
    assert film_of(CLOSED) == CLOSED.film_g_m2()


def test_a_bigger_nozzle_is_moved_faster_for_the_same_film():
    # flow goes as the square of the bore: (1.3 / 1.2)^2 = 1.174, so 0.50 m/s becomes 0.587 m/s
    slow = replace(GUN, speed_m_s=Figure(0.5))
    plain, wide = full_pass(slow, 1.2), full_pass(slow, 1.3)
    assert wide.flow_g_s == pytest.approx(3.5 * 1.1736, rel=1e-4)
    assert wide.speed_m_s == pytest.approx(0.5868, rel=1e-4)
    assert wide.film_g_m2() == pytest.approx(plain.film_g_m2())


def test_nobody_is_asked_to_go_faster_than_0_70_m_s():
    wide = full_pass(GUN, 1.3)
    assert wide.speed_m_s == FASTEST_M_S
    assert wide.film_g_m2() > CLOSED.film_g_m2()
    own = full_pass(replace(GUN, speed_m_s=Figure(0.9)), 1.2)
    assert own.speed_m_s == 0.9, "the painter's own speed stays"


def test_the_light_pass_comes_from_farther_away_and_is_thinner():
    light = light_pass(CLOSED)
    assert light.distance_m == pytest.approx(0.216)
    assert light.speed_m_s == pytest.approx(0.78)
    # the fan opens with the distance: 25 cm * 1.2 = 30 cm
    assert light.fan_m == pytest.approx(0.30, abs=0.005)
    assert light.transfer < CLOSED.transfer
    assert light.film_g_m2() / CLOSED.film_g_m2() == pytest.approx(0.5, abs=0.08), "half a coat"


def test_the_drop_pass_is_thinner_than_the_closed_one():
    control = drop_pass(CLOSED)
    assert 0.20 <= control.distance_m <= 0.30
    assert control.film_g_m2() < CLOSED.film_g_m2()


@pytest.mark.parametrize("wanted", [30.0, 45.0, 58.3, 90.0, 140.0])
def test_the_clear_pass_comes_as_near_to_the_sheet_as_hand_and_overlap_allow(wanted):
    found = clear_pass(CLOSED, wanted)
    assert 0.50 <= found.overlap <= 0.75
    assert SLOWEST_M_S <= found.speed_m_s <= FASTEST_M_S
    inside = SLOWEST_M_S < found.speed_m_s < FASTEST_M_S
    if inside:
        assert found.film_g_m2() == pytest.approx(wanted)
    elif found.speed_m_s == FASTEST_M_S:
        assert found.film_g_m2() >= wanted - 1e-9
    else:
        assert found.film_g_m2() <= wanted + 1e-9


def test_parts_are_the_passes_they_are_called():
    names = {
        part: [one.name for one in settings_of(part, CLOSED)]
        for part in ("full", "light", "drop", "full_light")
    }
    assert names == {
        "full": ["full"],
        "light": ["light"],
        "drop": ["drop"],
        "full_light": ["full", "light"],
    }
