"""Mixes and sheets, worked by hand."""

import pytest

from laydown.trade.mixing.paint_classes import back_w_m2_k, defaults, panel_capacity_j_m2_k, ready_mix


@pytest.mark.parametrize("reducer", ["fast", "standard", "slow"])
@pytest.mark.parametrize("activated", [False, True])
@pytest.mark.parametrize("water_share", [0.0, 0.05, 0.10, 0.30])
@pytest.mark.parametrize("solids_share", [None, 0.26])
def test_the_shares_of_every_mix_are_a_whole(reducer, activated, water_share, solids_share):
    mix = ready_mix(reducer, water_share, activated=activated, solids_share=solids_share)
    assert mix.water_share + mix.cosolvent_share + mix.solids_share == pytest.approx(1.0)


def test_five_percent_of_water_by_hand():
    # 0.700 + 0.05 of water in 1.05: 0.7143; solids 0.20 / 1.05.
    mix = ready_mix("standard", 0.05, activated=False)
    assert mix.water_share == pytest.approx(0.7142857)
    assert mix.solids_share == pytest.approx(0.1904762)


def test_hardener_takes_the_place_of_five_percent():
    # Solids 0.95 * 0.20 + 0.05 * 0.60 = 0.22; co-solvent 0.95 * 0.10 + 0.05 * 0.40 = 0.115.
    mix = ready_mix("standard", 0.0, activated=True)
    assert mix.solids_share == pytest.approx(0.22)
    assert mix.cosolvent_share == pytest.approx(0.115)
    assert mix.open_fraction == pytest.approx(0.194)


def test_the_sheet_s_solids_displace_both_liquids_alike():
    mix = ready_mix("standard", 0.0, activated=False, solids_share=0.28)
    assert mix.solids_share == 0.28
    assert mix.water_share / mix.cosolvent_share == pytest.approx(7.0)


@pytest.mark.parametrize(
    ("reducer", "water_share", "solids_share", "name"),
    [
        ("medium", 0.0, None, "reducer"),
        ("slow", 0.31, None, "water_share"),
        ("slow", -0.01, None, "water_share"),
        ("slow", 0.0, 0.9, "solids_share"),
    ],
)
def test_what_the_model_does_not_answer_for_is_refused_by_name(reducer, water_share, solids_share, name):
    with pytest.raises(ValueError, match=name):
        ready_mix(reducer, water_share, activated=False, solids_share=solids_share)


def test_eight_tenths_of_steel_hold_about_three_kilojoules():
    # 7.85 g/mL * 0.47 J/(g K) * 800 mL/m2 = 2951.6 J/(m2 K).
    assert panel_capacity_j_m2_k("steel") == pytest.approx(2951.6)
    assert panel_capacity_j_m2_k("steel", 0.7) == pytest.approx(2951.6 * 7.0 / 8.0)


@pytest.mark.parametrize(
    ("material", "thickness_mm", "name"), [("tin", 1.0, "material"), ("steel", 0.0, "thickness_mm")]
)
def test_sheets_nobody_paints_are_refused(material, thickness_mm, name):
    with pytest.raises(ValueError, match=name):
        panel_capacity_j_m2_k(material, thickness_mm)


def test_plastic_loses_less_at_its_back():
    assert back_w_m2_k("plastic") < back_w_m2_k("steel")


def test_every_default_says_where_it_comes_from():
    listed = defaults("slow", activated=True, material="plastic")
    assert all(entry.source and entry.unit for entry in listed)
    assert len({entry.figure for entry in listed}) == len(listed)
    assert len(listed) > len(defaults("slow", activated=False, material="plastic"))
