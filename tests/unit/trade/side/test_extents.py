"""How far ground, effect and clear coat reach."""

from dataclasses import replace

import pytest

from cases.problems import problems_of
from cases.speech import english
from laydown.schema.choices import PanelWork
from laydown.schema.side import Cut, Side, SidePanel
from laydown.trade.side.borders import borders, run_beyond_m
from laydown.trade.side.build import build_side
from laydown.trade.side.extents import match_panels, propose_extents
from laydown.trade.side.reach import Fade

HATCH = build_side("medium hatch", {})
VAN = build_side("large van", {})


def box(name, x0, x1):
    return SidePanel(name, name, (((x0, 0.2), (x1, 0.2), (x1, 1.0), (x0, 1.0)),))


def drawn(*panels):
    return Side(format="laydown-side/1", name="drawn", panels=panels)


def plan(side, *work):
    return propose_extents(side, match_panels(side, work))


def reaches(side, *work):
    return {r.panel: (r.ground, r.effect, r.clear) for r in plan(side, *work).panels}


def codes(side, *work):
    return [finding.code for finding in plan(side, *work).findings]


def test_a_new_wing_beside_a_sound_door():
    # Fact of the trade: front wing new, door sound, three-stage white: ground on the wing only, effect on the wing and
    # fading over at least 61 cm in the door, clear over the whole door. 61 cm (24 in): procedure sheets of paint
    # makers, from memory; the extents are common practice, no source.
    extents = plan(HATCH, PanelWork("front wing", "new"))
    got = {r.panel: (r.ground, r.effect, r.clear) for r in extents.panels}
    assert got["front_wing"] == ("full", "full", "full")
    assert got["front_door"] == ("none", "fade", "full")
    assert {got[name] for name in ("rear_door", "quarter", "sill")} == {("none", "none", "none")}
    (fade,) = extents.fades_of("effect")["front_door"]
    assert fade.away_from == "front_wing"
    assert 0.61 <= fade.length_m <= 1.05
    assert extents.findings == ()


def test_a_repaired_door_fades_into_both_neighbours():
    got = reaches(HATCH, PanelWork("rear door", "repaired"))
    assert got["front_door"] == got["quarter"] == ("none", "fade", "full")
    assert got["front_wing"] == ("none", "none", "none")


def test_level_gaps_stop_the_effect_coat():
    assert reaches(HATCH, PanelWork("front door", "repaired"))["sill"] == ("none", "none", "none")
    assert reaches(HATCH, PanelWork("sill", "repaired"))["front_door"] == ("none", "none", "none")


def test_a_door_between_two_damaged_panels_gets_the_effect_coat_right_across():
    extents = plan(HATCH, PanelWork("front wing", "new"), PanelWork("rear door", "new"))
    door = next(r for r in extents.panels if r.panel == "front_door")
    assert (door.ground, door.effect, door.clear) == ("none", "full", "full")
    assert "between two damaged panels" in english(door.reason)


def test_a_fade_runs_on_where_only_a_narrow_strip_parts_two_panels():
    got = reaches(VAN, PanelWork("sliding door", "repaired"), PanelWork("rear side", "repaired"))
    assert got["high_side"] == got["front_door"] == ("none", "fade", "full")


def test_a_short_neighbour_makes_the_effect_coat_stop_in_the_gap_and_says_both_ways_out():
    side = drawn(box("a", 0.0, 1.0), box("b", 1.0, 1.45), box("c", 1.45, 2.6))
    extents = plan(side, PanelWork("a", "new"))
    assert [(r.effect, r.clear) for r in extents.panels] == [
        ("full", "full"),
        ("none", "none"),
        ("none", "none"),
    ]
    (finding,) = extents.findings
    assert (finding.level, finding.code) == ("caution", "fade-short")
    assert "45 cm" in english(finding.text)
    assert len(finding.do) == 2
    assert "stop at the gap a|b" in english(finding.do[0])
    assert "whole b" in english(finding.do[1])


def test_without_a_gap_the_effect_coat_fades_over_whatever_room_there_is():
    # A cut elsewhere makes the border of a and b an open one: one sheet of metal.
    cut = Cut("gap.b.c", "gap", ("b", "c"), ((1.45, 0.2), (1.45, 1.0)))
    side = replace(drawn(box("a", 0.0, 1.0), box("b", 1.0, 1.45), box("c", 1.45, 2.6)), cuts=(cut,))
    extents = plan(side, PanelWork("a", "new"))
    assert extents.fades_of("effect")["b"] == (Fade("a", 0.45),)
    assert [(f.code, [english(one) for one in f.do]) for f in extents.findings] == [
        ("fade-short", ["take in the panel beyond the b"])
    ]


def test_what_the_user_set_is_kept_and_judged():
    side = drawn(box("a", 0.0, 1.0), box("b", 1.0, 1.45))
    extents = plan(side, PanelWork("a", "new"), PanelWork("b", effect="fade"))
    assert extents.of("effect") == {"a": "full", "b": "fade"}
    assert [f.code for f in extents.findings] == ["fade-short"]


def test_ground_coat_on_a_sound_panel_is_judged():
    assert "ground-on-sound" in codes(
        HATCH, PanelWork("front wing", "new"), PanelWork("front door", ground="full")
    )


def test_effect_coat_that_stops_where_the_ground_stops_is_judged():
    assert codes(HATCH, PanelWork("front wing", "new"), PanelWork("front door", effect="none")) == [
        "effect-stops-with-ground"
    ]


def test_effect_coat_within_the_ground_coat_stops_the_plan():
    (finding,) = [
        f for f in plan(HATCH, PanelWork("sill", "new", effect="none")).findings if f.level == "stop"
    ]
    assert finding.code == "effect-within-ground"


def test_damage_without_ground_coat_and_colour_without_clear_coat_stop_the_plan():
    found = plan(HATCH, PanelWork("sill", "new", ground="none", clear="none")).findings
    assert [(f.level, f.code) for f in found] == [("stop", "clear-missing"), ("stop", "ground-missing")]


def test_clear_coat_that_ends_in_the_open_is_judged():
    assert codes(HATCH, PanelWork("sill", "new", clear="fade")) == ["clear-in-the-open"]
    # Without the cut at the narrow strip the two panels are one sheet, and the clear coat would end in its middle.
    one_sheet = replace(VAN, cuts=tuple(cut for cut in VAN.cuts if cut.kind != "pillar"))
    work = (PanelWork("rear side", "repaired"), PanelWork("high side", effect="none"))
    assert "clear-in-the-open" in codes(one_sheet, *work)
    assert "clear-in-the-open" not in codes(VAN, *work)


def test_a_fade_without_a_full_neighbour_is_judged():
    assert codes(HATCH, PanelWork("sill", "new"), PanelWork("quarter", effect="fade")) == ["fade-nowhere"]


def test_a_fading_ground_coat_is_planned_whole_and_said():
    assert codes(HATCH, PanelWork("sill", "repaired", ground="fade")) == ["ground-fade-place"]


def test_a_job_without_damage_gets_a_note():
    assert codes(HATCH, PanelWork("sill")) == ["nothing-damaged"]


def test_every_finding_says_why():
    work = (
        PanelWork("front wing", "new", ground="none", effect="fade", clear="none"),
        PanelWork("sill", ground="fade"),
    )
    found = plan(HATCH, *work).findings
    assert len(found) >= 4
    assert all(english(f.why) and f.where.startswith("panel.") for f in found)


def test_unknown_and_repeated_panels_are_reported_together():
    problems = problems_of(
        match_panels, HATCH, (PanelWork("front dor"), PanelWork("sill"), PanelWork("Sill"))
    )
    assert [(p.where, english(p.what)) for p in problems] == [
        ("panel[1].name", "medium hatch has no panel 'front dor'"),
        ("panel[3].name", "'Sill' is the same panel as panel[2]"),
    ]


def test_the_room_for_a_fade_is_what_a_tape_would_show():
    # By its tape measures the front door of the medium hatch runs from 0.47 m to 1.545 m behind the front axle, and the
    # wing's upper half from 0.47 m to about 0.6 m before it.
    gap = next(b for b in borders(HATCH) if set(b.panels) == {"front_wing", "front_door"})
    assert run_beyond_m(HATCH, "front_door", gap) == pytest.approx(1.545 - 0.47, abs=0.02)
    assert run_beyond_m(HATCH, "front_wing", gap) == pytest.approx(0.47 + 0.6, abs=0.1)
    assert run_beyond_m(HATCH, "quarter", gap) == 0.0


def test_room_over_a_level_border_is_measured_over_the_skin():
    side = replace(
        drawn(
            SidePanel("low", "low", (((0.0, 0.2), (1.0, 0.2), (1.0, 0.4), (0.0, 0.4)),)),
            SidePanel("high", "high", (((0.0, 0.4), (1.0, 0.4), (1.0, 0.9), (0.0, 0.9)),)),
        ),
        girth=1.2,
    )
    (gap,) = borders(side)
    assert run_beyond_m(side, "high", gap) == pytest.approx(0.6)
