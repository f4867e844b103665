"""Finds metric figures that are left in a text, by its own list of units."""

import html
import re

METRIC = re.compile(
    r"\d ?(?:°C|K|k?m|[cd]m|µm|um|m²|m2|cm²|m[lL]|[cd]?[lL]|bar|[hk]?Pa|kg|lx|(?:m|cm)/s|g/(?:m²|m2|[Ll]|m[Ll])|s per m)"
    r"(?![\w*²/'])"
    r"|(?i:metre|micron|celsius|kelvin|litre)"
)
MILLIMETRES = re.compile(r"\d mm\b")
NOZZLE = re.compile(r"nozzle [\d.]+ mm\b")


def metric_left(text: str) -> list[str]:
    """Metric figures of a text; millimetres count unless they name a nozzle, grams never do."""
    without_nozzles = NOZZLE.sub("", text)
    return [match[0] for pattern in (METRIC, MILLIMETRES) for match in pattern.finditer(without_nozzles)]


def words_of(markup: str) -> str:
    """What is read of a page or picture: texts, titles and names for those who hear it, without tags."""
    heard = re.findall(r'(?:aria-label|alt|placeholder)="([^"]*)"', markup)
    seen = re.sub(r"<[^>]*>", " ", re.sub(r"(?s)<style.*?</style>", " ", markup))
    return html.unescape(" ".join(" | ".join((seen, *heard)).split()))
