"""What is written reads back as what it was."""

import json
import tomllib
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from cases.speech import english
from cases.thorough import examples
from laydown.reader.decode import decode
from laydown.reader.encode import encode, to_json
from laydown.reader.papers.job_file import SOURCE, decode_job
from laydown.reader.papers.job_text import job_text
from laydown.schema.choices import Choices, PanelWork, Sample
from laydown.schema.figure import Figure
from laydown.schema.job import Air, Body, Gun, Job, Painter, ProductNames, Surface, Task
from laydown.schema.limits import Limits, Prices
from laydown.schema.side import Side, SidePanel
from laydown.units import UnitError, parse

TEXT = st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")), min_size=1, max_size=30)


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False, allow_infinity=False)


@st.composite
def figures(draw, low: float, high: float) -> Figure:
    ends = sorted(draw(st.tuples(*[numbers(low, high)] * 3)))
    spread = draw(st.booleans())
    source = draw(st.sampled_from([SOURCE, "not given", "thermometer"]))
    return Figure(ends[1], ends[0] if spread else None, ends[2] if spread else None, source)


REACH = st.sampled_from(
    [("none", "none", "full"), ("full", "full", "full"), ("none", "fade", "full"), (None, None, None)]
)


@st.composite
def panels(draw) -> tuple[PanelWork, ...]:
    names = draw(
        st.lists(
            TEXT, min_size=1, max_size=4, unique_by=lambda name: name.casefold().replace("_", " ").strip()
        )
    )
    made = []
    for name in names:
        ground, effect, clear = draw(REACH)
        state = draw(st.sampled_from(["new", "repaired", "sound"]))
        undercoat = draw(st.one_of(st.none(), figures(0, 100)))
        made.append(PanelWork(name, state, undercoat, None, ground, effect, clear))
    return tuple(made)


@st.composite
def jobs(draw) -> Job:
    optional = lambda strategy: draw(st.one_of(st.none(), strategy))  # noqa: E731
    return Job(
        format="laydown-job/1",
        job=Task(
            draw(TEXT), draw(st.sampled_from(["left", "right"])), draw(st.integers(1, 2)), draw(st.booleans())
        ),
        body=Body(shape="medium hatch", measures=draw(st.dictionaries(st.just("roof_m"), numbers(1, 2)))),
        panel=draw(panels()),
        air=Air(draw(figures(5, 45)), draw(figures(0, 1)), blower_temperature_c=optional(figures(5, 70))),
        products=ProductNames("ground-a", "effect-a", "clear-a"),
        surface=Surface(
            draw(st.sampled_from(["steel", "plastic"])), draw(numbers(0.3, 20)), optional(figures(-5, 80))
        ),
        gun=Gun(
            1.2,
            draw(st.just((1.2, 1.3)) | st.just(())),
            draw(figures(0.1, 0.45)),
            cup_ml=draw(numbers(50, 2000)),
        ),
        painter=Painter(draw(TEXT), habit=draw(st.sampled_from([None, "front", "rear"]))),
        choices=Choices(
            water=optional(numbers(0, 1)),
            hardener=optional(st.booleans()),
            effect_coats=optional(st.just(2.5)),
        ),
        sample=Sample(face=draw(st.just(()) | st.just(("few", "match")))),
        limits=Limits(
            electric_vehicle=draw(st.booleans()), ready_by=optional(st.just("2026-11-25T16:00:00"))
        ),
        prices=Prices(draw(st.sampled_from(["", "EUR"])), booth_per_h=optional(numbers(0, 1e6))),
        invented=draw(st.booleans()),
    )


@settings(max_examples=examples(60))
@given(jobs())
def test_a_job_written_as_a_job_file_reads_back_as_the_same_job(job):
    assert decode_job(tomllib.loads(job_text(job, english)), Path("job.toml")) == job


@settings(max_examples=examples(60))
@given(jobs())
def test_a_job_written_as_json_reads_back_as_the_same_job(job):
    raw = json.loads(json.dumps(encode(job)))
    assert decode(Job, raw, SOURCE).noun == job


@given(st.lists(st.tuples(numbers(-3, 5), numbers(0, 3)), min_size=3, max_size=20))
def test_a_side_keeps_six_figures_of_every_point(points):
    side = Side("laydown-side/1", "own", (SidePanel("p", "p", (tuple(points),)),))
    read = decode(Side, json.loads(to_json(side))).noun
    for (x, y), (other_x, other_y) in zip(points, read.panels[0].rings[0], strict=True):
        assert abs(x - other_x) <= 5e-6 * abs(x)
        assert abs(y - other_y) <= 5e-6 * abs(y)


@given(
    st.floats(-1e6, 1e6, allow_nan=False),
    st.sampled_from(["temperature_c", "flash_s", "fan_m", "base_g", "cup_ml", "rh", "seed"]),
)
def test_a_bare_number_is_the_house_unit_whether_it_is_typed_as_number_or_as_text(value, name):
    assert parse(value, name) == value
    assert parse(repr(value), name) == value


@given(st.text(max_size=80), st.sampled_from(["temperature_c", "rh", "base_g"]))
def test_any_text_is_read_or_refused_with_words_but_never_breaks_the_reader(text, name):
    said = ""
    try:
        read: object = parse(text, name)
    except UnitError as error:
        read, said = error, error.what
    assert isinstance(read, float) or (said and read.hint)


JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=20),
    lambda inside: st.lists(inside, max_size=4) | st.dictionaries(st.text(max_size=12), inside, max_size=4),
    max_leaves=12,
)
TABLES = st.sampled_from(
    ["job", "body", "panel", "air", "gun", "choices", "sample", "limits", "products", "format"]
)


@settings(max_examples=examples(150))
@given(st.dictionaries(TABLES | st.text(max_size=8), JSON, max_size=6))
def test_any_table_is_read_or_refused_with_words_but_never_breaks_the_reader(raw):
    decoded = decode(Job, raw)
    assert (decoded.noun is None) == bool(decoded.problems)
    assert all(problem.where and problem.what for problem in decoded.problems)
