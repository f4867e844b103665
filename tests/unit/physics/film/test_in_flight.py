"""Water lost in flight: worked by hand, and its shape."""

import numpy as np
import pytest

from laydown.physics.film.in_flight import Jet, drop_loss_share, water_loss_share


def test_a_big_drop_over_a_short_way_loses_what_its_first_moment_says():
    # 100 um, 20 degC, 50 %, no dry gun air. The jet has 80 m/s to 25 mm, then 2/x: 0.19 ms + (0.08^2 - 0.025^2)/4 =
    # 1.44 ms, in all 1.63 ms. Re 3 * 1e-4 / 1.5e-5 = 20, Sc 0.606: Sh = 2 + 0.6 * 4.47 * 0.846 = 4.27. Loss over
    # water: 6 Sh D (psat - pa)/(Rw T) / (rho d^2 w) t = 6 * 4.27 * 2.475e-5 * 8.64e-3 / (1000 * 1e-8 * 0.95) * 1.63e-3
    # = 9.4e-4; a little less because the drop begins to cool.
    lost = drop_loss_share(
        np.array([100.0]), np.array([0.08]), 20.0, 0.5, water_share=0.95, jet=Jet(dry_air_share=0.0)
    )
    assert 0.85 * 9.4e-4 < lost[0, 0] < 1.02 * 9.4e-4


def test_small_drops_lose_more_of_their_water():
    lost = drop_loss_share(np.array([10.0, 15.0, 20.0, 40.0, 60.0]), np.array([0.2]), 20.0, 0.5)[0]
    assert np.all(np.diff(lost) < 0.0)
    # Between the surface-to-volume law d^-1 of a fast drop and the d^-2 of a slow one.
    assert 2.0 < lost[2] / lost[3] < 4.0


def test_flight_time_grows_with_distance_squared_and_so_does_a_big_drop_s_loss():
    lost = drop_loss_share(np.array([80.0]), np.array([0.15, 0.30]), 20.0, 0.5, jet=Jet(dry_air_share=0.0))[
        :, 0
    ]
    assert 2.2 < lost[1] / lost[0] < 4.0  # 4 without cooling


def test_saturated_air_takes_no_water_from_a_drop():
    # The dry compressed air is left out; the binder lowers the drop's own pressure below that of the air.
    assert water_loss_share(0.3, 20.0, 1.0, jet=Jet(dry_air_share=0.0)) == pytest.approx(0.0, abs=1e-9)


def test_a_number_and_an_array_of_distances_tell_the_same():
    assert water_loss_share(np.array([0.15, 0.2]), 25.0, 0.4)[1] == pytest.approx(
        water_loss_share(0.2, 25.0, 0.4)
    )


def test_finer_paint_loses_more():
    assert water_loss_share(0.2, 25.0, 0.4, jet=Jet(median_um=25.0)) > water_loss_share(0.2, 25.0, 0.4)


@pytest.mark.parametrize("distance_m", [0.05, 0.5])
def test_a_distance_nobody_sprays_from_is_refused(distance_m):
    with pytest.raises(ValueError, match="distance_m"):
        water_loss_share(distance_m, 20.0, 0.5)
