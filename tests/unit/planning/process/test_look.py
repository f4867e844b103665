"""How the planned effect film looks: by angle, at the joins, over the side."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from cases.panel import readings
from cases.planning import MILD, request_of
from cases.speech import english
from laydown.physics.colour.letdown import curve
from laydown.physics.colour.unevenness import difference_table
from laydown.planning.counts.effect_count import ColourTask, count_colour
from laydown.planning.document.maps import CELLS
from laydown.planning.plan import make_plan
from laydown.planning.process.look import look_of
from laydown.planning.process.process import process_of
from laydown.planning.setup.setup import setup_of
from laydown.planning.setup.spraying import full_pass
from laydown.schema.choices import Choices, Sample
from laydown.schema.figure import Figure

REQUEST = request_of(MILD)
CHECKED = Sample(ground_check="match")


@cache
def setup():
    return setup_of(
        replace(REQUEST, readings=readings({"side": 2.0}), job=replace(REQUEST.job, sample=CHECKED))
    )


@cache
def process():
    return process_of(setup())


def sight(sample=CHECKED):
    job = setup().job
    full = full_pass(job.gun, job.gun.nozzle_mm)
    task = ColourTask(
        sample, Choices(effect_coats=2.0), job.gun, setup().readings, setup().paints["effect"], full
    )
    return count_colour(task).sight


def test_without_a_panel_nothing_is_foretold_and_it_is_said():
    look = look_of(process().layers["effect"], None)
    assert look.appearance.de_p95 is None
    assert look.difference is None
    assert "not predicted" in english(look.appearance.label)


def test_every_angle_has_falling_shares_and_the_worst_leads():
    appearance = process().look.appearance
    assert [one.angle_deg for one in appearance.angles] == [15.0, 25.0, 45.0, 75.0, 110.0]
    for one in appearance.angles:
        assert 1.0 >= one.share_above_half >= one.share_above_1 >= one.share_above_2 >= 0.0
    assert appearance.de_p95 == max(one.de_p95 for one in appearance.angles)
    assert "film only" in english(appearance.label)


def test_the_flop_tells_more_of_the_film_than_25_degrees():
    # 25 degrees lies between a face that lightens and a flop that darkens: nearly blind; common practice, no source
    angles = {one.angle_deg: one for one in process().look.appearance.angles}
    assert angles[110.0].de_p95 > 1.5 * angles[25.0].de_p95
    assert angles[110.0].thicker_share < angles[25.0].thicker_share


def test_a_film_thicker_by_the_tolerance_differs_by_half_a_unit():
    seen = sight()
    for at, one in enumerate(process().look.appearance.angles):
        if one.thicker_share is None:
            continue
        table = difference_table(seen.fit, seen.wanted, seen.delta)
        there = np.interp(seen.wanted * (1.0 + one.thicker_share), table.coats, table.difference[:, at])
        assert there == pytest.approx(0.5, abs=0.01)


def test_every_join_of_every_coat_has_its_contrast_and_the_worst_is_named():
    layer = process().layers["effect"]
    appearance = process().look.appearance
    assert len(appearance.joins) == sum(len(coat.planned.joins()) for coat in layer.coats)
    assert appearance.worst_join == max(appearance.joins, key=lambda one: one.de).join
    assert all(one.de >= 0.0 for one in appearance.joins)


def test_a_band_at_a_join_is_said_from_half_a_unit_on():
    look = process().look
    said = "join-shows" in {one.code for one in look.findings}
    assert said == (max(one.de for one in look.appearance.joins) > 0.5)


def test_the_map_covers_the_full_film_and_nothing_else():
    field = process().layers["effect"].task.field
    shown = process().look.difference
    assert np.array_equal(np.isfinite(shown), field.mask & (field.weight >= 0.999))


def test_a_fixed_count_is_twice_as_many_coats_of_a_panel_with_half_the_film():
    full = full_pass(REQUEST.job.gun, REQUEST.job.gun.nozzle_mm)
    half = replace(CHECKED, coat_g_m2=Figure(full.film_g_m2() / 2.0))
    # The same film is 4 coats of the thin panel where 2 were ordered: the count was fixed.
    assert sight(half).wanted == pytest.approx(2.0 * sight(CHECKED).wanted, rel=0.1)


def test_the_wanted_colour_is_that_of_the_ordered_count_over_the_cars_ground():
    seen = sight()
    lab, _ = curve(seen.fit, np.array([seen.wanted]), seen.delta)
    ordered = [one.ordered.lab for one in process().colour.evidence.curves]
    assert np.array(ordered) == pytest.approx(lab[0], abs=2e-3)


def test_the_plan_carries_the_map_beside_those_of_the_coats():
    request = replace(REQUEST, readings=readings({"side": 2.0}), job=replace(REQUEST.job, sample=CHECKED))
    maps = make_plan(request, thorough=False).maps.coats
    shown = [one for one in maps if one.kind == "appearance"]
    assert len(shown) == 1
    assert shown[0].unit == "dE00"
    assert shown[0].cell_m == pytest.approx(0.01 * CELLS)
