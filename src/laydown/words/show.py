"""Makes sentences of codes and figures, in the reader's language and units."""

import re
from functools import lru_cache
from string import Formatter

from laydown.schema.message import Message, Name, Quantity, Range, Said, Saying, message
from laydown.units import System
from laydown.words.amounts import amount, between
from laydown.words.catalogue import SOURCE_LANGUAGE, Catalogue

_COUNT = "count"


class Words:
    """How laydown speaks to one reader."""

    def __init__(self, language: str = SOURCE_LANGUAGE, system: System = "metric") -> None:
        self.language, self.system = language, system
        self._catalogue = Catalogue(language)

    def __call__(self, said: Saying) -> str:
        """Return a sentence; words of a person or a sheet stay as they are."""
        if isinstance(said, str):
            return str(said)
        figures = dict(said.figures)
        count = figures.get(_COUNT)
        text = self._catalogue.text(self._narrowest(said), count if isinstance(count, int) else None)
        return "".join(
            before if name is None else f"{before}{self._figure(name, figures[name], spec)}"
            for before, name, spec in _parsed(text)
        )

    def say(self, code: str, **figures: Said) -> str:
        """Return a sentence by its code and figures."""
        return self(message(code, **figures))

    def word(self, kind: str, value: str) -> str:
        """Return the label of a word of a fixed list, such as "layer" and "effect"."""
        return self._catalogue.text(f"{kind}.{value}")

    def knows(self, kind: str, value: str) -> bool:
        """Whether there is a label of a word."""
        return self._catalogue.entry(f"{kind}.{value}") is not None

    def amount(self, value: float, name: str, spec: str = "") -> str:
        """Return a figure with its unit, which the end of its name tells."""
        return self._signed(amount(value, name, spec, self.system))

    def _signed(self, written: str) -> str:
        """Return figures with the decimal sign of the language."""
        sign = self._catalogue.text("sign.decimal")
        return written if sign == "." else _POINT.sub(sign, written)

    def translated(self, text: str) -> str:
        """Return a text that a template holds, in the language of the reader."""
        return self._catalogue.translated(text)

    def counted(self, one: str, many: str, count: int) -> str:
        """Return the form of a template's text that goes with a number."""
        return self._catalogue.counted(one, many, count)

    def listed(self, parts: tuple[str, ...], how: str = "and") -> str:
        """Return a list with "and" or "or" before its last part."""
        if len(parts) < 2:
            return "".join(parts)
        return self.say(f"list.{how}", first=Name(", ".join(parts[:-1])), last=Name(parts[-1]))

    def _narrowest(self, said: Message) -> str:
        """Code of the sentence for just these words, where a language needs another form for one of them."""
        self._catalogue.entry(said.code)
        for _, value in said.figures:
            if isinstance(value, str) and not isinstance(value, Name):
                narrower = f"{said.code}.{value}"
                if self._catalogue.narrower(narrower):
                    return narrower
        return said.code

    def _figure(self, name: str, value: Said, spec: str) -> str:
        """Write what stands at one place of a sentence."""
        if isinstance(value, Message):
            return _fitted(self(value), spec)
        if isinstance(value, str):
            is_label = not isinstance(value, Name) and self.knows(name, value)
            return self.word(name, value) if is_label else str(value)
        if isinstance(value, tuple):
            parts = tuple(self._figure(name, one, "") for one in value)
            return self.listed(parts, spec) if spec in {"and", "or"} else (spec or ", ").join(parts)
        return self._number(name, value, spec)

    def _number(self, name: str, value: float | Quantity | Range, spec: str) -> str:
        """Write a number or two limits."""
        if isinstance(value, Range):
            low, high = between(value.low, value.high, value.unit or name, spec, self.system)
            return self.say("range", low=Name(self._signed(low)), high=Name(self._signed(high)))
        if isinstance(value, Quantity):
            return self.amount(value.value, value.unit, spec)
        return self.amount(value, name, spec)


def _fitted(text: str, spec: str) -> str:
    """Fit a sentence into another: it may "begin" it, with a large letter, or stay "open", without its full stop."""
    if spec == "begin":
        return f"{text[:1].upper()}{text[1:]}"
    return text.rstrip(".") if spec == "open" else text


_POINT = re.compile(r"(?<=\d)\.(?=\d)")


ENGLISH = Words()
"""How laydown speaks where nobody asked for anything else: English, metric."""


@lru_cache(maxsize=4096)
def _parsed(text: str) -> tuple[tuple[str, str | None, str], ...]:
    """Parts of a sentence: plain text, then a figure and how it is written."""
    return tuple((before, name, spec or "") for before, name, spec, _ in Formatter().parse(text))
