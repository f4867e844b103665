"""What must hold for every recipe, pour, bake and bill."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from laydown.schema.product import RecipeLine
from laydown.trade.mixing.batch import Allowance, batch_ml, leftover
from laydown.trade.mixing.pour import overpour, pour_sheet
from laydown.trade.mixing.recipe import mix_volume_ml, recipe_problems, scale
from laydown.trade.money import Hours, MaterialUse, Rates, job_cost
from laydown.trade.solvent import WATER_DENSITY_G_ML, voc_material_g_l, voc_regulatory_g_l

masses = st.lists(st.floats(0.0, 2000.0), min_size=1, max_size=12)
positive_masses = st.lists(st.floats(1.0, 2000.0), min_size=1, max_size=12)
shares = st.tuples(st.floats(0.0, 0.4), st.floats(0.0, 0.5))


@st.composite
def recipes(draw):
    """A base in parts and up to five further lines, all figures stated."""

    def line(number, kind):
        voc, water = draw(shares)
        return RecipeLine(
            f"line {number}",
            "base" if number == 0 else "other",
            draw(st.floats(50.0, 200.0) if number == 0 else st.floats(0.0, 40.0)),
            kind,
            draw(st.sampled_from(["volume", "mass"])),
            draw(st.sampled_from(["base", "before"])) if kind == "percent" else None,
            density_g_ml=draw(st.floats(0.75, 1.6)),
            voc_mass_fraction=voc,
            water_mass_fraction=water,
        )

    count = draw(st.integers(0, 5))
    return (
        line(0, "parts"),
        *(line(n, draw(st.sampled_from(["parts", "percent"]))) for n in range(1, count + 1)),
    )


@given(masses, st.sampled_from([0.01, 0.1, 0.5, 1.0]))
def test_the_scale_never_strays_more_than_half_a_step_from_the_exact_total(grams, resolution):
    sheet = pour_sheet(grams, resolution)
    slack = 1e-6
    for count, step in enumerate(sheet, 1):
        exact = float(sum(Fraction(mass) for mass in grams[:count]))
        assert abs(step.running_g - exact) <= resolution / 2 + slack
        assert abs(step.step_g - grams[count - 1]) <= resolution + slack
        assert step.step_g >= 0.0
    assert sheet[-1].running_g == pytest.approx(sum(step.step_g for step in sheet), abs=1e-5)


@given(masses, st.integers(0, 11), st.floats(0.0, 1.0))
def test_splitting_a_line_moves_no_total_of_the_other_lines(grams, at, share):
    index = at % len(grams)
    split = [*grams[:index], grams[index] * share, grams[index] * (1 - share), *grams[index + 1 :]]
    whole, parts = pour_sheet(grams), pour_sheet(split)
    assert [step.running_g for step in parts[index + 1 :]] == pytest.approx(
        [step.running_g for step in whole[index:]], abs=0.100001
    )


@given(recipes(), st.floats(50.0, 2000.0), st.floats(0.1, 10.0))
def test_grams_grow_in_proportion_to_the_batch(lines, volume_ml, factor):
    once = scale(lines, volume_ml=volume_ml)
    assert scale(lines, volume_ml=factor * volume_ml) == pytest.approx([factor * mass for mass in once])
    assert mix_volume_ml(lines, once) == pytest.approx(volume_ml)
    assert scale(lines, mass_g=sum(once)) == pytest.approx(once)


@given(recipes(), st.floats(0.0, 60.0))
def test_added_water_never_changes_the_regulatory_number(lines, percent):
    water = RecipeLine(
        "water",
        "water",
        percent,
        "percent",
        "volume",
        "base",
        density_g_ml=WATER_DENSITY_G_ML,
        voc_mass_fraction=0.0,
        water_mass_fraction=1.0,
    )
    thin = (*lines, water)
    before = voc_regulatory_g_l(lines, scale(lines, volume_ml=500.0))
    after = voc_regulatory_g_l(thin, scale(thin, volume_ml=500.0))
    if isinstance(before, float) and isinstance(after, float):
        assert after == pytest.approx(before, rel=1e-9, abs=1e-9)
        assert after >= voc_material_g_l(thin, scale(thin, volume_ml=500.0)) - 1e-9


@given(positive_masses, st.data())
def test_pouring_on_after_an_overpour_restores_every_ratio(targets, data):
    count = data.draw(st.integers(1, len(targets)))
    poured = [data.draw(st.floats(0.0, 3.0 * target)) for target in targets[:count]]
    found = overpour(targets, poured)
    final = [(poured[index] if index < count else 0.0) + found.add_g[index] for index in range(len(targets))]
    assert final == pytest.approx([found.factor * target for target in targets])
    assert sum(final) - sum(targets) == pytest.approx(found.extra_g, abs=1e-6 * sum(final))
    assert all(add >= 0.0 for add in found.add_g)


@given(recipes(), st.integers(0, 5), st.floats(2.6, 10.0))
def test_a_density_out_of_range_is_found_on_its_own_line(lines, at, density):
    index = at % len(lines)
    fields = {name: getattr(lines[index], name) for name in RecipeLine.__dataclass_fields__}
    broken = RecipeLine(**{**fields, "density_g_ml": density})
    faults = recipe_problems((*lines[:index], broken, *lines[index + 1 :]))
    assert [one.where for one in faults] == [f"recipe[{index + 1}].density_g_ml"]


@given(st.floats(0.0, 5000.0), st.floats(0.0, 0.5), st.floats(0.0, 100.0), st.sampled_from([1.0, 25.0, 50.0]))
def test_a_batch_covers_its_need_and_no_more_than_a_step_beyond(need, reserve, dead, step):
    raw = need * (1 + reserve) + dead
    batch = batch_ml(need, Allowance(reserve, dead, step))
    assert raw - 1e-6 <= batch < raw + step + 1e-6


@given(st.floats(0.0, 2000.0), st.floats(0.0, 2000.0), st.booleans())
def test_a_leftover_is_ordered_and_never_negative(mixed, used, hardened):
    found = leftover(mixed, used, hardened=hardened)
    assert 0.0 <= found.low_ml <= found.expected_ml <= found.high_ml
    assert (found.kind == "waste") == hardened


prices = st.decimals(0, 500, places=2)
times = st.floats(0.0, 100_000.0)


@given(
    st.lists(st.tuples(st.floats(0.0, 5000.0), prices), max_size=4),
    st.tuples(times, times, times),
    st.tuples(prices, prices, prices, prices, prices),
    st.decimals(0, 1, places=3),
    st.integers(0, 3),
)
def test_the_parts_of_a_bill_add_up_to_its_total_in_whole_minor_units(uses, hours, rates, chance, digits):
    materials = [MaterialUse(str(n), grams, 0.0, price_per_kg=price) for n, (grams, price) in enumerate(uses)]
    booth, bake, wage, consumables, redo = rates
    bill = job_cost(materials, Hours(*hours), Rates(booth, bake, wage, consumables, redo, digits), chance)
    parts = [bill.materials, bill.booth, bill.labour, bill.redo]
    assert bill.missing == ()
    assert sum(parts) == bill.total
    assert all(part == part.quantize(Decimal(1).scaleb(-digits)) for part in [*parts, bill.total])
