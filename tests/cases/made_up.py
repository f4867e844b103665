"""A made-up language: every sentence of the catalogue in marks, so that what is not in the catalogue stands bare."""

import gettext
import re
from html.parser import HTMLParser

OPEN, CLOSE = "«", "»"
LANGUAGE = "qaa"
"""First code that ISO 639 leaves to private use."""


def marked(text: str) -> str:
    return f"{OPEN}{text}{CLOSE}"


class MadeUp(gettext.NullTranslations):
    """Puts every sentence in marks."""

    def gettext(self, message):
        return marked(message)

    def ngettext(self, msgid1, msgid2, n):
        return marked(msgid1 if n == 1 else msgid2)

    def pgettext(self, context, message):
        return marked(message)

    def npgettext(self, context, msgid1, msgid2, n):
        return marked(msgid1 if n == 1 else msgid2)


def speak(monkeypatch):
    """Let everything that asks for no language speak the made-up one."""
    monkeypatch.setattr("laydown.words.catalogue.languages", lambda: ("en", LANGUAGE))
    monkeypatch.setattr("laydown.words.catalogue.gettext.translation", lambda *_args, **_named: MadeUp())
    monkeypatch.setattr("laydown.words.show.Words.__init__.__defaults__", (LANGUAGE, "metric"))


def bare(text: str) -> str:
    """What stands outside all marks; marks lie within each other."""
    depth, kept = 0, []
    for sign in text:
        if sign == OPEN:
            depth += 1
        elif sign == CLOSE:
            depth -= 1
            kept.append(" ")
        elif depth <= 0:
            kept.append(sign)
    return "".join(kept)


def words_left(text: str, allowed) -> list[str]:
    """Runs of three letters and more outside all marks that no name, unit or figure explains."""
    rest = bare(text)
    for name in sorted(allowed, key=len, reverse=True):
        rest = rest.replace(name, " ")
    return re.findall(r"[^\W\d_]{3,}", rest)


class Visible(HTMLParser):
    """What a person sees or hears of a page."""

    SAID = ("title", "alt", "aria-label", "placeholder", "aria-description")

    def __init__(self):
        super().__init__()
        self.texts, self._silent = [], 0

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self._silent += tag in {"script", "style", "code", "pre", "textarea"}
        self.texts += [given[name] for name in self.SAID if given.get(name)]

    def handle_endtag(self, tag):
        self._silent -= tag in {"script", "style", "code", "pre", "textarea"}

    def handle_data(self, data):
        if not self._silent:
            self.texts.append(data)


def visible(page: str) -> str:
    seen = Visible()
    seen.feed(page)
    return "\n".join(seen.texts)
