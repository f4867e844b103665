"""The benchmark compares like with like: laydown and the plain loop simulate the same coat."""

from dataclasses import replace

import numpy as np
import pytest
from benchmarks.coats import Coat, apart, differences

from laydown.physics.spray.hand import SKILLED
from laydown.physics.spray.strokes import SkinGrid
from laydown.planning.sections.stretches import reach_of
from laydown.planning.sections.strokes import Work, programme
from laydown.planning.setup.field import Field, rows_of
from laydown.planning.setup.places import Place
from laydown.planning.setup.spraying import GunPass, light_pass

CLOSED = GunPass("full", 0.25, 0.15, 0.5, 0.65, 3.1, 0.6)


def small_coat(open_s):
    """A panel of 2.0 by 0.8 m in two sections, closed and light pass, joined at a slanting gap."""
    skin = SkinGrid(-0.2, -0.2, 0.02, 60, 120)
    mask = np.zeros((60, 120), bool)
    mask[10:50, 10:110] = True
    stretch = np.where(mask, 1.05, 1.0)
    field = Field(skin, mask, mask.astype(float), stretch, np.where(mask, 0, -1), 1.0)
    gap = Place("gap", "gap", "gap", 1.0, 0.95, 1.05, 0.2, np.array([[0.0, 0.95], [0.8, 1.05]]))
    passes = (CLOSED, light_pass(CLOSED))
    rows = tuple((one, rows_of(field, one.fan_m, one.overlap)) for one in passes)
    work = Work(field, rows, reach_of(field, (gap,), backwards=False), (0, 1, 2), (0,), 90.0, 1)
    return Coat("small", work, programme(work), open_s, SKILLED)


@pytest.mark.parametrize("open_s", [1.0, 15.0, 60.0, 1e6])
def test_laydown_and_the_plain_loop_simulate_the_same_coat(open_s):
    coat = small_coat(open_s)
    found = differences(coat.ours(), coat.plain())
    assert max(found.values()) < 0.01, found


def test_the_small_coat_has_a_join_dry_spray_and_fog_on_bare_paint():
    # Else the comparison would pass on nothing.
    plain = small_coat(15.0).plain()
    assert len(plain.join_age_s) == 1
    assert np.isfinite(plain.age_s).any()
    assert plain.dry_g_m2.any()
    assert plain.bare_g_m2.any()
    assert 0.0 < plain.thin_fraction < 1.0


def test_two_painters_at_once_are_simulated_alike():
    coat = small_coat(15.0)
    work = replace(coat.work, painters=2)
    coat = replace(coat, work=work, made=programme(work))
    assert max(differences(coat.ours(), coat.plain()).values()) < 0.01


def test_a_difference_is_seen():
    plain = np.array([1.0, 2.0, np.nan])
    assert apart(plain, plain) == 0.0
    assert apart(np.array([1.0, 2.2, np.nan]), plain) == pytest.approx(0.1)
    assert apart(np.array([1.0, np.nan, np.nan]), plain) == np.inf
