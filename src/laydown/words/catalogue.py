"""Finds the sentence of a code, in English or in the language of a reader.

English stands in the tables of ``laydown.words.sentences``; other languages are gettext files beside them, compiled when the
package is built. A table is loaded when a code of it is first asked for, so that a plan on the command line does not load
the sentences of the pages.
"""

import gettext
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from threading import Lock

TABLES = (
    "labels",
    "findings",
    "counts",
    "craft",
    "printed",
    "pictures",
    "wishes",
    "commands",
    "pages",
    "guide",
    "rescue",
    "safety",
    "files",
    "instruments",
    "refusals",
)
"""Tables in the order in which a code is looked for: those of a plan first."""

SOURCE_LANGUAGE = "en"
"""Language of the tables themselves."""

LANGUAGES = Path(__file__).parent / "languages"
"""Where the other languages lie, a folder each."""


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence: its code, and its English text with figures in braces."""

    code: str
    text: str


@dataclass(frozen=True, slots=True)
class Counted:
    """A sentence with a figure ``count``: its forms for one, for many, and for none where that is said otherwise."""

    code: str
    one: str
    many: str
    none: str | None = None


CatalogueEntry = Sentence | Counted
"""What a table holds."""


def sentences(*entries: CatalogueEntry) -> dict[str, CatalogueEntry]:
    """Return a table; a code stands once."""
    found = {entry.code: entry for entry in entries}
    if len(found) < len(entries):
        codes = [entry.code for entry in entries]
        raise ValueError(f"codes that stand twice: {sorted({one for one in codes if codes.count(one) > 1})}")
    return found


def languages() -> tuple[str, ...]:
    """Return the languages in which laydown speaks."""
    there = LANGUAGES.iterdir() if LANGUAGES.is_dir() else ()
    return (SOURCE_LANGUAGE, *sorted(found.name for found in there if found.is_dir()))


class Catalogue:
    """All sentences in one language."""

    def __init__(self, language: str = SOURCE_LANGUAGE) -> None:
        if language not in languages():
            raise ValueError(f"no sentences in the language {language!r}; there are {', '.join(languages())}")
        self.language = language
        self._found: dict[str, CatalogueEntry] = {}
        self._waiting = list(TABLES)
        self._loading = Lock()
        self._translated = (
            gettext.NullTranslations()
            if language == SOURCE_LANGUAGE
            else gettext.translation("laydown", str(LANGUAGES), [language])
        )

    def entry(self, code: str) -> CatalogueEntry | None:
        """Return the sentence of a code; None if there is none."""
        if code not in self._found and self._waiting:
            with self._loading:
                self._load(code)
        return self._found.get(code)

    def _load(self, code: str) -> None:
        """Load tables until one has a code; a table no longer waits once its sentences are there, so that nobody misses them."""
        while code not in self._found and self._waiting:
            self._found |= import_module(f"laydown.words.sentences.{self._waiting[0]}").TABLE
            del self._waiting[0]

    def narrower(self, code: str) -> bool:
        """Whether there is a form of a sentence for just one word; it stands in the table of the sentence."""
        return code in self._found

    def text(self, code: str, count: int | None = None) -> str:
        """Return the text of a code in the language of the reader."""
        entry = self.entry(code)
        if entry is None:
            raise KeyError(f"the catalogue has no sentence '{code}'")
        if isinstance(entry, Sentence):
            return self._translated.pgettext(code, entry.text)
        if count is None:
            raise ValueError(f"the sentence '{code}' wants a count")
        if count == 0 and entry.none is not None:
            return self._translated.pgettext(code, entry.none)
        return self._translated.npgettext(code, entry.one, entry.many, count)

    def translated(self, text: str) -> str:
        """Return a text that a template holds."""
        return self._translated.gettext(text)

    def counted(self, one: str, many: str, count: int) -> str:
        """Return the form of a template's text that goes with a number."""
        return self._translated.ngettext(one, many, count)
