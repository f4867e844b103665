"""A sentence of a document comes back as it was said."""

import json

import pytest

from laydown.reader.encode import to_json
from laydown.reader.sentence import read_sentence
from laydown.schema.message import Name, Quantity, Range, message


@pytest.mark.parametrize(
    "figure",
    [
        3,
        2.5,
        "effect",
        Name("12 µm"),
        Quantity(15.0, "_um"),
        Range(5.0, 45.0),
        Range(5.0, 45.0, "_c"),
        message("never-matt", layer="effect"),
        (Name("front door"), Name("sill")),
    ],
)
def test_every_kind_of_figure_is_told_by_its_form(figure):
    said = message("some-code", figure=figure)
    assert read_sentence(json.loads(to_json(said))) == said
