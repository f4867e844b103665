"""What a number of coats consists of, and undercoats in words."""

import pytest

from cases.speech import english
from laydown.planning.setup.coat_parts import composition, undercoat_of
from laydown.schema.choices import PanelWork

# closed and light are a coat and a half; common practice, no source
TABLE = {
    ("ground", 1.0): ["full"],
    ("ground", 1.5): ["full_light"],
    ("ground", 2.0): ["full", "full"],
    ("ground", 2.5): ["full_light", "full"],
    ("ground", 3.0): ["full_light", "full_light"],
    ("ground", 3.5): ["full_light", "full", "full"],
    ("ground", 4.0): ["full_light", "full_light", "full"],
    ("effect", 0.5): ["light"],
    ("effect", 1.0): ["full"],
    ("effect", 1.5): ["full_light"],
    ("effect", 2.0): ["full_light", "light"],
    ("effect", 2.5): ["full_light", "full"],
    ("effect", 3.0): ["full_light", "full_light"],
    ("effect", 3.5): ["full_light", "full_light", "light"],
    ("clear", 2.0): ["full", "full"],
}


@pytest.mark.parametrize(("layer", "coats"), TABLE)
def test_a_count_is_made_of_these_coats(layer, coats):
    assert [one.part for one in composition(coats, layer)] == TABLE[layer, coats]


@pytest.mark.parametrize("layer", ["ground", "effect"])
@pytest.mark.parametrize("halves", range(1, 17))
def test_parts_count_for_what_was_asked_and_start_closed(layer, halves):
    parts = composition(halves / 2.0, layer)
    assert sum(one.counts for one in parts) == halves / 2.0
    if halves > 1:
        assert parts[0].part in {"full_light", "full"}
    assert all(one.counts == {"full_light": 1.5, "full": 1.0, "light": 0.5}[one.part] for one in parts)


@pytest.mark.parametrize(("word", "lightness"), [("white", 92.0), ("dark grey", 45.0), ("black", 25.0)])
def test_an_undercoat_in_words_has_a_range(word, lightness):
    value, low, high, source = undercoat_of(PanelWork("door", "new", None, word))
    assert value == lightness
    assert low < value < high
    assert word in english(source)


def test_an_undercoat_nobody_named_is_a_wide_guess():
    value, low, high, source = undercoat_of(PanelWork("door", "new"))
    assert low + 20.0 < value < high - 10.0
    assert "not given" in english(source)
