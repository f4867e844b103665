"""Where a layer goes on the padded sheet, and the effect coat drawn back from a ground coat that fades."""

from dataclasses import replace

import numpy as np
import pytest

from cases.planning import CARS, FADE, MILD, VANS, WING_ONLY, setup_for
from cases.rectangle import CELL_M, field
from laydown.planning.setup.field import EFFECT_INSIDE_M, FULL_WEIGHT, kept_inside
from laydown.trade.side.build import panel_areas


def columns(where):
    return where.skin.x0_m + (np.arange(where.skin.columns) + 0.5) * where.skin.cell_m


def test_the_effect_coat_ends_30_cm_inside_a_ground_coat_that_fades():
    # ground full up to 2.0 m, then fading to 0 at 2.6 m; effect all along
    ground = field(weight=lambda x: 1.0 - (x - 2.0) / 0.6)
    effect = field()
    assert EFFECT_INSIDE_M == 0.30
    found = kept_inside(effect, ground)
    reached = columns(found)[found.mask.any(axis=0)].max()
    assert reached == pytest.approx(2.0 - 0.30, abs=2 * CELL_M)
    assert (found.weight[found.mask] == 1.0).all()
    assert (ground.weight[found.mask] >= FULL_WEIGHT).all()


def test_a_ground_coat_to_the_gaps_leaves_the_effect_coat_as_it_is():
    effect = field(weight=lambda x: 3.0 - x)
    assert kept_inside(effect, field()) is effect


@pytest.mark.parametrize("shape", [*CARS, *VANS])
def test_the_field_of_a_whole_side_has_its_planned_area(shape):
    setup = setup_for(replace(MILD, shape=shape))
    planned_m2 = sum(areas.planned_m2 for areas in panel_areas(setup.side).values())
    assert setup.fields["ground"].area_m2() == pytest.approx(planned_m2, rel=0.01)


def test_every_fan_lies_on_the_sheet():
    for case in (MILD, FADE):
        for where in setup_for(case).fields.values():
            rows = np.flatnonzero(where.mask.any(axis=1)) * where.skin.cell_m
            assert rows[0] >= 0.30
            assert where.skin.rows * where.skin.cell_m - rows[-1] >= 0.30


def test_a_fade_falls_from_full_to_nothing_along_the_panel():
    effect = setup_for(replace(MILD, works=WING_ONLY)).fields["effect"]
    middle = effect.skin.rows // 2
    line = effect.weight[middle]
    door = line[(columns(effect) > 0.6) & (columns(effect) < 1.4)]
    assert door[0] > 0.7
    assert door[-1] < 0.3
    assert (np.diff(door) <= 1e-9).all()
