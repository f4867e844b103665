"""Nouns become documents: stable order, six figures, no NaN."""

import json
import math

import pytest

from laydown.reader.encode import encode, to_json
from laydown.schema.figure import Figure


def test_keys_keep_the_order_of_the_fields():
    assert list(encode(Figure(1.0))) == ["value", "low", "high", "source"]


def test_a_document_rounds_to_six_figures_and_drops_empty_decimals():
    assert json.loads(to_json({"a": 1234567.891, "b": 0.000123456789, "c": 2.0})) == {
        "a": 1234570,
        "b": 0.000123457,
        "c": 2,
    }


def test_without_rounding_numbers_stay_as_they_are():
    assert encode([0.1 + 0.2]) == [0.1 + 0.2]


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
def test_a_number_that_is_not_finite_never_gets_into_a_document(bad):
    with pytest.raises(ValueError, match="not finite"):
        to_json({"a": bad})


def test_lists_of_numbers_stand_on_one_line_and_texts_stay_untouched():
    text = to_json({"points": [[1.5, 2.0], [3, -4]], "said": "[\n1,\n2\n]", "none": []})
    assert "[1.5, 2]" in text
    assert json.loads(text) == {"points": [[1.5, 2], [3, -4]], "said": "[\n1,\n2\n]", "none": []}


def test_letters_outside_ascii_stay_readable():
    assert "Kotflügel °C" in to_json({"a": "Kotflügel °C"})
