"""Print and pictures in a made-up language: whatever is read stands in the catalogue, or is a name, a key or a unit."""

import io
import re

import pytest
from pypdf import PdfReader

from cases.made_up import LANGUAGE, speak, words_left
from laydown.desk.plans.outputs import drawings
from laydown.desk.plans.plan import plan_job
from laydown.desk.plans.why import reasons
from laydown.reader.papers.shelf import shipped_folder
from laydown.report.paper.card import card_pdf
from laydown.report.text.mix_sheet import mix_sheet_text
from laydown.report.text.plan import plan_text
from laydown.report.text.why import why_text
from laydown.words.show import Words

JOBS = sorted((shipped_folder() / "jobs").glob("*.toml"))
UNITS = {"min", "hPa"}


@pytest.fixture(scope="module", params=JOBS, ids=lambda path: path.stem)
def spoken(request):
    """A shipped plan, the made-up words, and the names that a job and its papers gave."""
    with pytest.MonkeyPatch.context() as patch:
        speak(patch)
        plan = plan_job(request.param, drawn=False).planned.plan
        names = {plan.inputs.job, plan.inputs.painter, plan.side.shape, plan.id}
        names |= {panel.name for panel in plan.side.panels}
        names |= {layer.product for layer in plan.layers}
        names |= {zone.zone for zone in plan.colour.zones if zone.zone}
        names |= {line.name for mix in plan.mixes for line in mix.lines}
        yield plan, Words(LANGUAGE), names


def test_the_printed_plan_is_said_whole(spoken):
    plan, words, names = spoken
    assert words_left(plan_text(plan, words), names) == []


def test_the_mix_sheet_is_said_whole(spoken):
    plan, words, names = spoken
    assert words_left(mix_sheet_text(plan, None, words), names) == []


def test_pictures_are_said_whole(spoken):
    plan, words, names = spoken
    for name, draw in drawings(plan, words).items():
        svg = re.sub(r"(?s)<style.*?</style>", "", draw())
        heard = " ".join(re.findall(r'aria-label="([^"]*)"', svg))
        assert words_left(f"{re.sub('<[^>]*>', ' ', svg)} {heard}", names) == [], name


def test_reasons_are_said_whole(spoken):
    """But for the key of an item, and sources, which are quoted as they were given."""
    plan, words, names = spoken
    for item, found in reasons(plan).items():
        for one in found:
            quoted = {row.source for row in one.figures if isinstance(row.source, str)} | set(one.sources)
            text = why_text(one, words, 400)
            for source in sorted(quoted, key=len, reverse=True):
                text = text.replace(source, " ")
            assert set(words_left(text.removeprefix(one.item), names)) - UNITS == set(), item


def test_the_card_is_said_whole(spoken):
    plan, words, names = spoken
    pages = PdfReader(io.BytesIO(card_pdf(plan, words=words))).pages
    text = "\n".join(page.extract_text() for page in pages)
    # A cell breaks a name over lines, so each of its words counts as a name.
    parts = {part for name in names for part in re.findall(r"[^\W\d_]{3,}", name)}
    assert set(words_left(text, names)) - parts == set()
