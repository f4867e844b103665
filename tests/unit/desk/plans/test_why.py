from dataclasses import replace

import pytest

from cases.speech import english
from laydown.desk.plans.outputs import screen_preview
from laydown.desk.plans.why import why_colour, why_hiding
from laydown.schema.colour import (
    AngleColour,
    AngleCurve,
    ColourVerdict,
    HalfChance,
    HidingVerdict,
    PanelEvidence,
    PanelField,
    UndercoatChoice,
    ZoneVerdict,
)


def curve(angle, car, plan):
    return AngleCurve(
        angle, (), (), (AngleColour(None, "roof", (50.0, 0.0, 0.0)), AngleColour(None, "side", car)), AngleColour(2.0, "", plan), 1.2
    )  # fmt: skip


def verdict(*curves, illuminant="D65"):
    zone = ZoneVerdict(
        "side", "clear", 2.0, 2.1, 1.8, 2.4, (HalfChance(2.0, 0.9), HalfChance(2.5, 0.1)), 0.6, 45.0, "darker", (), "why", ""
    )  # fmt: skip
    evidence = PanelEvidence((PanelField(0.0), PanelField(2.0)), curves, illuminant, 10, 0.4)
    return ColourVerdict(
        "clear", 2.0, 1.8, 2.4, False, "why", "", "instrument", "side", 1.0, 2.0, (zone,), evidence
    )


def test_the_planned_zone_is_shown_and_a_neutral_stays_neutral():
    shown = screen_preview(verdict(curve(45.0, (60.0, 0.0, 0.0), (55.0, 0.0, 0.0))))
    assert shown.zone == "side"
    tile = shown.angles[0]
    assert tile.words == ("darker",)
    # CIELAB neutrals of any white are grey in sRGB (ISO/CIE 11664-4, IEC 61966-2-1): L* 60 is code 145, colour-science
    code = [int(tile.car[start : start + 2], 16) for start in (1, 3, 5)]
    assert max(code) - min(code) <= 1
    assert code[0] == pytest.approx(145, abs=1)
    assert tile.magnified is None
    assert shown.exposure_stops == 0.0


def test_a_white_shows_its_difference_enlarged():
    shown = screen_preview(verdict(curve(45.0, (92.0, -0.5, 1.0), (91.0, -0.5, 1.0))))
    assert shown.angles[0].magnified is not None
    assert shown.angles[0].magnified < shown.angles[0].ordered


def test_brighter_than_paper_darkens_every_tile_together():
    curves = (
        curve(15.0, (104.0, 0.0, 0.0), (103.0, 0.0, 0.0)),
        curve(45.0, (90.0, 0.0, 0.0), (90.0, 0.0, 0.0)),
    )
    shown = screen_preview(verdict(*curves))
    assert shown.exposure_stops < 0
    assert shown.angles[1].car == shown.angles[1].ordered != screen_preview(verdict(curves[1])).angles[0].car


def test_without_curves_or_with_an_unknown_light_there_is_nothing_to_show():
    assert screen_preview(verdict()) is None
    assert screen_preview(verdict(curve(45.0, (60.0, 0, 0), (55.0, 0, 0)), illuminant="F11")) is None
    assert screen_preview(replace(verdict(), evidence=None)) is None


def test_why_colour_shows_interval_chances_film_and_evidence():
    told = why_colour(verdict(curve(110.0, (60.0, 0.0, 0.0), (55.0, 0.0, 0.0))))
    figures = {english(row.name): english(row.value) for row in told.figures}
    assert figures["middle 90 %"] == "1.8 to 2.4"
    assert figures["chance of 2"] == "90 %"
    assert figures["film of a coat"] == "1.00 of panel's"
    assert figures["fields"] == "0, 2"
    assert figures["left at 110° flop"] == "1.2, good"
    assert "too many not taken off" in english(told.runner_up)


def test_why_hiding_shows_each_coat_and_the_better_undercoat():
    hiding = HidingVerdict(
        3.0, 2.5, 4.0, 2, "wing", (3.0, 0.9), "why", (1.0, 0.3), (9.0, 0.4), 0.98,
        (UndercoatChoice(70.0, 2.0, 8.0, 3, best=True),),
    )  # fmt: skip
    told = why_hiding(hiding)
    figures = {english(row.name): english(row.value) for row in told.figures}
    assert figures["coat 2 changes"] == "0.9, 0.3 missing"
    assert figures["repaired spots show"] == "9 to 0.4"
    assert "L* 70 would take 2 coats" in english(told.runner_up)
    assert "blind from coat 2" in english(told.decision)
