"""How figures and lists are written, and what is there to translate, held against Babel, which reads the CLDR.

Source: Unicode CLDR as it comes with Babel; English as in Great Britain, whose lists have no comma before "and".
"""

import re
from io import BytesIO

import pytest
from babel.lists import format_list
from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.frontend import parse_mapping_cfg
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from babel.numbers import get_decimal_symbol

from cases.speech import english
from laydown.words import catalogue
from laydown.words.catalogue import TABLES, Counted
from laydown.words.show import Words
from rules.source_tree import ROOT, SOURCE
from rules.test_catalogue import table

KEYWORDS = {
    "Sentence": ((1, "c"), 2),
    "Counted": ((1, "c"), 2, 3),
    "_": None,
    "gettext": None,
    "ngettext": (1, 2),
}


@pytest.fixture(scope="module")
def wanted():
    """What a translator gets to see, as `pybabel extract` gathers it."""
    with (ROOT / "babel.cfg").open(encoding="utf-8") as file:
        methods, options = parse_mapping_cfg(file)
    found = Catalog(locale="de", domain="laydown")
    parts = extract_from_dir(SOURCE.parent, method_map=methods, options_map=options, keywords=KEYWORDS)
    for file, line, text, _, context in parts:
        found.add(text, locations=[(file, line)], context=context)
    return found


def test_every_sentence_of_the_tables_reaches_the_translator(wanted):
    there = {
        (message.context, message.id if isinstance(message.id, str) else message.id[0])
        for message in wanted
        if message.id
    }
    for name in TABLES:
        for code, entry in table(name).items():
            assert (code, entry.one if isinstance(entry, Counted) else entry.text) in there, code


def test_every_template_that_speaks_reaches_the_translator(wanted):
    there = {place.rpartition("templates/")[2] for message in wanted for place, _ in message.locations}
    templates = SOURCE / "web" / "templates"
    speaking = {
        str(path.relative_to(templates))
        for path in templates.rglob("*.html")
        if re.search(r"_\(|\{% trans", path.read_text("utf-8"))
    }
    assert len(speaking) > 30
    assert speaking <= there


def test_a_number_bends_a_text_of_a_template(wanted):
    one, many = next(message.id for message in wanted if "%(count)s thing to mend" in message.id)
    assert (one, many) == ("%(count)s thing to mend", "%(count)s things to mend")


@pytest.mark.parametrize("count", range(5))
def test_lists_are_joined_as_in_the_cldr(count):
    parts = tuple("abcd"[:count])
    assert english.listed(parts) == format_list(parts, locale="en_GB")
    assert english.listed(parts, "or") == format_list(parts, "or", locale="en_GB")


def test_the_decimal_sign_is_that_of_the_cldr():
    assert english.amount(20.44, "temperature_c", ".1f") == f"20{get_decimal_symbol('en_GB')}4 °C"


def test_a_translation_is_read_written_and_spoken(wanted, tmp_path, monkeypatch):
    folder = tmp_path / "de" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    texts = {
        "sign.decimal": get_decimal_symbol("de"),
        "list.and": "{first} und {last}",
        "layer.effect": "Effektschicht",
        "never-matt": "Die {layer} wird in dieser Luft nicht matt.",
    }
    file = BytesIO()
    write_po(file, wanted)
    file.seek(0)
    translated = read_po(file, locale="de")
    for message in translated:
        message.string = texts.get(message.context, message.string)
    with (folder / "laydown.mo").open("wb") as out:
        write_mo(out, translated)
    monkeypatch.setattr(catalogue, "LANGUAGES", tmp_path)
    german = Words("de")
    assert german.say("never-matt", layer="effect") == "Die Effektschicht wird in dieser Luft nicht matt."
    assert german.listed(("a", "b", "c")) == format_list(("a", "b", "c"), locale="de")
    assert german.amount(20.44, "temperature_c", ".1f") == "20,4 °C"
    assert german.say("never-dehydrated") == english.say("never-dehydrated")


def test_a_language_that_is_not_there_is_refused():
    with pytest.raises(ValueError, match="no sentences in the language 'xx'; there are en"):
        Words("xx")
