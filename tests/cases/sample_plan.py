# ruff: noqa: PLR0917 - builders of a fixture read best as rows of a table
"""Two invented plans, written by hand: every figure is made up and no model stands behind any of them."""

from dataclasses import replace

from laydown.report.kit.vehicle_frame import crossings, cut_near
from laydown.schema.clock import BakePlan, ClockLimit, Gate, Step
from laydown.schema.coat import Balance, Coat, CoatMap, Join, JoinRunnerUp, Layer, Maps, Pass, Refill, Section
from laydown.schema.colour import Appearance, ColourVerdict, HidingVerdict
from laydown.schema.figure import Figure, Spread
from laydown.schema.message import Finding
from laydown.schema.plan import (
    Adjustment,
    AdjustmentRunnerUp,
    Adjustments,
    Alternative,
    Assumption,
    Caution,
    DrySpray,
    Inputs,
    LimitsOfUse,
    Plan,
    PlannedPanel,
    PlannedSide,
    Program,
    Verdict,
)
from laydown.schema.side import Side
from laydown.schema.supplies import Cost, Mix, PourLine, WaterReading
from laydown.trade.side.build import build_side

HATCH_ROWS = (
    (("quarter",), 2.43, 3.46),
    (("rear door",), 1.53, 2.43),
    (("front door",), 0.47, 1.53),
    (("front wing",), -0.66, 0.47),
)
VAN_ROWS = (
    (("rear side",), 3.95, 4.70),
    (("rear side",), 2.82, 3.95),
    (("sliding door", "high side"), 1.50, 2.82),
    (("front door",), 0.46, 1.50),
    (("front wing",), -0.70, 0.46),
)


def serpentine(side: Side, labels, x_from, x_to, pitch=0.11):
    """Strokes up a section, from its rear end, clipped to its panels."""
    rings = [ring for panel in side.panels if panel.label in labels for ring in panel.rings]
    middle = (x_from + x_to) / 2
    spans = crossings(rings, middle) or ((0.45, 0.9),)
    low, high = max(spans, key=lambda span: span[1] - span[0])
    count = max(2, round((high - low - 0.08) / pitch))
    points = []
    for row in range(count + 1):
        y = low + 0.04 + (high - low - 0.08) * row / count
        ends = (x_to - 0.05, x_from + 0.05) if row % 2 == 0 else (x_from + 0.05, x_to - 0.05)
        points += [(ends[0], y), (ends[1], y)]
    return (tuple(points),)


def spread(value, low, high):
    return Spread(float(value), float(low), float(high))


def join_at(side, ident, between, x, state, margin, kind="gap"):
    cut = cut_near(side, "", x) if kind == "gap" else ()
    bottom, top = (cut[0][0], cut[-1][0]) if cut else (x, x)
    return Join(
        id=ident,
        between=between,
        x_m=x,
        x_bottom_m=bottom,
        x_top_m=top,
        feature="gap" if cut else "open panel",
        kind=kind,
        age_s=spread(60 - margin[0], 60 - margin[2], 60 - margin[1]),
        open_s=spread(60, 50, 75),
        margin_s=spread(*margin),
        state=state,
        wet_chance={"wet": 0.97, "tight": 0.71, "dry": 0.2}[state],
        moved_m=None,
        reason="the gap hides the join and the section before it is short",
        runner_up=JoinRunnerUp(x - 0.4, "open", "open panel", "a join in the open panel shows"),
    )


def coat_of(side, layer, number, rows, joins, part="full_light", refills=()):
    cup = 540.0
    sections = []
    for order, (labels, x_from, x_to) in enumerate(rows, 1):
        grams = round((x_to - x_from) * (92.0 if len(labels) == 1 else 150.0), 1)
        cup -= grams
        if cup < 30:
            cup += 480
        sections.append(
            Section(
                order=order,
                panels=labels,
                x_from_m=x_from,
                x_to_m=x_to,
                spray_s=grams / 2.4,
                elapsed_s=grams / 2.0,
                sprayed_g=grams,
                cup_g_after=cup,
                edge_overlap=0.75,
                path=serpentine(side, labels, x_from, x_to),
                needs_step="rear side" in labels and x_from > 3.9,
            )
        )
    total = sum(section.sprayed_g for section in sections)
    return Coat(
        number=number,
        part=part,
        counts=1.0,
        film_wet_g_m2=42.5,
        film_dry_um=8.1,
        film_cv=0.12,
        thin_fraction=0.02,
        spray_s=total / 2.4,
        elapsed_s=total / 2.0,
        sprayed_g=total,
        flash_s=spread(420, 300, 590),
        open_s=spread(60, 50, 75),
        pattern="sections",
        direction="rear to front",
        start="rear end",
        start_at=sections[0].path[0][0],
        passes=(Pass("full", 0.25, 0.18, 0.5, 2.0, 0.75, 2.4, 0.55, 1.8),),
        sections=tuple(sections),
        joins=joins,
        refills=refills,
        balance=Balance(total, total * 0.55, total * 0.05, total * 0.4),
        reason="the short panels come last, while the first edge is still open",
    )


def panel(name, ident, area, ground, effect, clear, fade=None):
    return PlannedPanel(name, ident, area, ground, effect, clear, fade, False, "the damage lies here")


def hatch_plan() -> Plan:
    side = build_side("medium hatch", {})
    work = HATCH_ROWS
    ground = tuple(
        coat_of(side, "ground", n, work[2:], (join_at(side, f"g{n}.1", (1, 2), 0.47, "tight", (9, 3, 16)),))
        for n in (1, 2)
    )
    effect = tuple(
        coat_of(
            side,
            "effect",
            n,
            work[1:],
            (
                join_at(side, f"e{n}.1", (1, 2), 1.53, "wet", (28, 19, 40)),
                join_at(side, f"e{n}.2", (2, 3), 0.47, "tight", (9, 3, 16)),
            ),
            "drop" if n == 4 else "full_light",
        )
        for n in (1, 2, 3, 4)
    )
    clear = tuple(
        coat_of(
            side,
            "clear",
            n,
            work,
            (
                join_at(side, f"c{n}.1", (1, 2), 2.43, "wet", (150, 120, 190)),
                join_at(side, f"c{n}.2", (2, 3), 1.53, "wet", (140, 110, 180)),
                join_at(side, f"c{n}.3", (3, 4), 0.47, "wet", (130, 100, 170)),
            ),
        )
        for n in (1, 2)
    )
    panels = (
        panel("front wing", "front_wing", 0.58, "full", "full", "full"),
        panel("front door", "front_door", 0.90, "full", "full", "full"),
        panel("rear door", "rear_door", 0.80, "none", "fade", "full", 0.81),
        panel("quarter", "quarter", 0.92, "none", "none", "full"),
    )
    return plan_of("0417 left side", "medium hatch", "left", side, panels, (ground, effect, clear))


def van_plan() -> Plan:
    side = build_side("large van", {})
    side = replace(side, side="right")
    ground = tuple(
        coat_of(
            side,
            "ground",
            n,
            VAN_ROWS[:3],
            van_joins(side, "g", n, 2),
            refills=(Refill(2, "gap", 90.0, 480.0),),
        )
        for n in (1, 2)
    )
    effect = tuple(
        coat_of(
            side,
            "effect",
            n,
            VAN_ROWS[:4],
            van_joins(side, "e", n, 3),
            refills=(Refill(2, "gap", 90.0, 480.0),),
        )
        for n in (1, 2, 3)
    )
    clear = tuple(coat_of(side, "clear", n, VAN_ROWS, van_joins(side, "c", n, 4)) for n in (1, 2))
    panels = tuple(
        panel(p.label, p.id, 1.0, *extents)
        for p in side.panels
        for key, extents in {
            "front wing": ("none", "none", "full"),
            "front door": ("none", "fade", "full", 0.75),
            "sliding door": ("full", "full", "full"),
            "high side": ("full", "full", "full"),
            "rear side": ("full", "full", "full"),
        }.items()
        if p.label == key
    )
    return plan_of("0431 right side", "large van", "right", side, panels, (ground, effect, clear))


def van_joins(side, letter, number, count):
    moved = 3.95 + (0.0, 0.18, -0.32)[number - 1]
    joins = (
        join_at(side, f"{letter}{number}.1", (1, 2), moved, "dry", (-14, -30, 2), "open"),
        join_at(side, f"{letter}{number}.2", (2, 3), 2.82, "wet", (35, 22, 50)),
        join_at(side, f"{letter}{number}.3", (3, 4), 1.50, "tight", (9, 3, 16)),
        join_at(side, f"{letter}{number}.4", (4, 5), 0.46, "wet", (35, 22, 50)),
    )
    return joins[:count]


def adjustment(reducer, water, hardener):
    return Adjustment(
        reducer=reducer,
        water=water,
        hardener=hardener,
        nozzle_mm=1.3,
        fixed_by_user=False,
        reason="dry air: the slow reducer and some water keep the edge open",
        runner_up=AdjustmentRunnerUp("standard", 0.0, hardener, 1.3, "the edge closes 20 s sooner"),
    )


def mix_of(layer, product, pot):
    return Mix(
        layer=layer,
        product=product,
        need_ml=480.0,
        mix_ml=575.0,
        mix_g=661.0,
        density_g_ml=1.15,
        lines=(
            PourLine("base, stirred", "base", 503.1, 503.1),
            PourLine("slow reducer", "reducer", 50.3, 553.4),
        ),
        pot_life_s=pot,
        least_mix_g=114.0,
        left_over_ml=spread(95, 40, 150),
        voc_material_g_l=109.5,
        voc_regulatory_g_l=402.6,
        ask="is the water a share of the base or of the mix?" if layer == "effect" else "",
        readings=(WaterReading("of the base", 25.2), WaterReading("of the mix", 33.1))
        if layer == "effect"
        else (),
    )


def steps_of(layers):
    steps = [Step("prepare", "prepare", None, None, 0, 900, 840, 1000, (), "booth", "mask, tack")]
    now = 900.0
    for layer in layers:
        for coat in layer.coats:
            end = now + coat.elapsed_s
            key = f"{layer.name}.{coat.number}"
            steps.append(
                Step(
                    f"{key}.spray",
                    "spray",
                    layer.name,
                    coat.number,
                    now,
                    end,
                    end - 20,
                    end + 60,
                    (),
                    "booth",
                    "spray",
                )
            )
            now = end + coat.flash_s.value
            steps.append(
                Step(
                    f"{key}.flash",
                    "flash",
                    layer.name,
                    coat.number,
                    end,
                    now,
                    now - 120,
                    now + 170,
                    (),
                    "booth",
                    "air",
                )
            )
        if layer.name != "clear":
            steps.append(
                Step(
                    f"{layer.name}.release",
                    "release",
                    layer.name,
                    None,
                    now,
                    now + 120,
                    now,
                    now + 300,
                    (),
                    "booth",
                    "check",
                )
            )
            now += 120
    for kind, run in (("bake", 2550), ("cool", 900)):
        steps.append(
            Step(kind, kind, None, None, now, now + run, now + run - 200, now + run + 700, (), "booth", kind)
        )
        now += run
    steps.append(
        Step("unmask", "unmask", None, None, now, now + 600, now + 400, now + 1500, (), "booth", "unmask")
    )
    return tuple(steps)


def plan_of(job, shape, hand, side, panels, coats):
    layers = tuple(
        Layer(name, f"{name}-a", spread(21, 20, 22), rows)
        for name, rows in zip(("ground", "effect", "clear"), coats, strict=True)
    )
    return Plan(
        format="laydown-plan/2",
        id="3a9c51e0",
        program=Program("0.1.0", 1),
        made_at=None,
        verdict=Verdict("caution", "one join needs haste: the wing gap", ("join-tight",)),
        inputs=Inputs(
            job=job,
            painter="R.",
            painters=1,
            invented=True,
            air={
                "temperature_c": Figure(20.0, 19.5, 20.5, "job file"),
                "rh": Figure(0.22, 0.19, 0.25, "job file"),
                "speed_m_s": Figure(0.3, None, None, "default"),
            },
            gun={"nozzle_mm": Figure(1.3), "flow_g_s": Figure(2.4, 2.3, 2.5, "weighed")},
            surface={"temperature_c": Figure(20.0)},
            ready_by=None,
        ),
        side=PlannedSide(shape, hand, "generic_fitted", 3.2, panels, side),
        adjustment=Adjustments(
            adjustment("slow", 0.05, True), adjustment("slow", 0.10, False), adjustment("standard", 0.0, True)
        ),
        colour=ColourVerdict(
            "clear", 3.0, 2.6, 3.3, False, "field 3 matches in face and flop", "spray three coats"
        ),
        hiding=HidingVerdict(2.0, 2.0, 2.5, 2, "front wing", (1.2, 0.4), "the undercoat is light"),
        layers=layers,
        appearance=Appearance(0.7, 0.03, "e1.2", "film only"),
        dry_spray=DrySpray(0.2, "e1.2", 0.0),
        mixes=(
            mix_of("ground", "ground-a", 7200.0),
            mix_of("effect", "effect-a", None),
            mix_of("clear", "clear-a", 3600.0),
        ),
        timeline=steps_of(layers),
        gates=(
            Gate("ground released", "effect.1.spray", ("matt everywhere", "card hidden", "even and clean")),
            Gate("effect released", "clear.1.spray", ("matt", "even from three angles", "panel held to it")),
        ),
        bake=BakePlan(60.0, 1800.0, 75.0, "sill", 750.0, "estimated", "metal at 60 °C for 30 min"),
        clocks=(
            ClockLimit("pot_life", "mix.ground", 7200.0, "ground-a"),
            ClockLimit("recoat_max", "effect.3.spray", 86400.0, "effect-a"),
            ClockLimit("polish_from", "cool", None, "not on the sheet"),
        ),
        cost=Cost("EUR", None, None, None, None, None, ("prices",)),
        alternatives=(
            Alternative("two painters", "go", 80.0, 0.99, -2.1, None, "every join stays wet"),
            Alternative("10 % water", "caution", 14.0, 0.88, 1.5, None, "longer open, longer flash"),
        ),
        limits_of_use=LimitsOfUse(0.16, 0.55, 17.0, 25.0, "plan again outside"),
        findings=(
            Finding(
                "note",
                "sample-same-gun",
                "sample",
                "the panel was sprayed as the job will be",
                "same nozzle",
                (),
            ),
            Finding(
                "caution",
                "join-tight",
                "effect.1.e1.2",
                "9 s margin at the wing gap",
                "age 51 s, open 60 s",
                ("do not stop in the front door",),
            ),
        ),
        assumptions=(Assumption("ground.volume_solids", 0.2, "default, not from the sheet"),),
        cautions=("S01", "S02", "S06", "S07"),
        safety=(
            Caution(
                "S01",
                "Breathe fed air",
                "Hardener in the mix, or any clear: wear fed air. A filter mask does not hold isocyanate mist back well enough.",
            ),
            Caution(
                "S02",
                "Visor stays down",
                "Keep the visor down until you are outside or the clearing time has passed.",
            ),
            Caution("S06", "No electronics inside", "Tablet, phone, scale and charger stay outside."),
            Caution("S07", "Airflow first", "Fan on and proven before the trigger, doors shut."),
            Caution("S04", "Skin and eyes", "Gloves that suit the product."),
        ),
    )


def maps_of(plan: Plan) -> Maps:
    """Three made-up fields for the first effect coat, high near its joins."""
    side = plan.side.outline
    cell = 0.05
    height = cell / side.girth
    coat = plan.layers[1].coats[0]
    rings = {p.label: p.rings for p in side.panels}
    labels = {name for section in coat.sections for name in section.panels}
    columns, rows = round(6.0 / cell), round(2.7 / height)

    def value(column, row, kind):
        x, y = -1.1 + (column + 0.5) * cell, (row + 0.5) * height
        if not any(low <= y <= high for name in labels for low, high in crossings(rings[name], x)):
            return None
        near = min(abs(x - join.x_m) for join in coat.joins)
        rise = max(0.0, 1 - near / 0.25)
        return {
            "film": 36 * (0.97 + 0.4 * rise - 0.35 * (y < 0.35)),
            "age": 0.2 + 1.1 * rise,
            "dry spray": 0.9 * rise**2,
        }[kind]

    def field(kind, unit, target):
        values = tuple(tuple(value(c, r, kind) for c in range(columns)) for r in range(rows))
        worst = max((v, c, r) for r, line in enumerate(values) for c, v in enumerate(line) if v is not None)
        at = (-1.1 + (worst[1] + 0.5) * cell, (worst[2] + 0.5) * height)
        return CoatMap(
            "effect",
            coat.number,
            kind,
            cell,
            height,
            -1.1,
            0.0,
            values,
            target,
            worst[0],
            at,
            "front door, at the wing gap",
            unit,
        )

    return Maps((field("film", "g/m²", 36.0), field("age", "", 0.0), field("dry spray", "g/m²", 0.0)))
