"""Reads CGATS text: keyword lines, then tables of fields and data sets; several tables to a file.

Keywords are read in capitals or not, comments from ``#`` to the end of the line, texts between double quotes, numbers
with point or comma. The stated count of rows is checked.

Sources: ANSI CGATS.17 and ISO 28178, from memory; checked on the files of two Debian packages.
"""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from laydown.reader.instrument.raw import Faults, quoted
from laydown.schema.message import Name, message

_KEPT = {
    "ILLUMINATION_NAME",
    "OBSERVER_ANGLE",
    "WEIGHTING_FUNCTION",
    "SPECTRAL_BANDS",
    "SPECTRAL_START_NM",
    "SPECTRAL_END_NM",
    "SPECTRAL_NORM",
}
_BLANKS = re.compile(r'"((?:[^"]|"")*)"|(\S+)')
_SEMICOLONS = re.compile(r'"((?:[^"]|"")*)"|([^\s;"]+)')
_COMMAS = re.compile(r'"((?:[^"]|"")*)"|([^\s,;"]+)')


@dataclass(frozen=True, slots=True)
class CgatsTable:
    """One table of a file."""

    line_count: int
    header: tuple[tuple[str, str], ...]
    fields: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


@dataclass(slots=True)
class _State:
    """What was read so far."""

    faults: Faults
    header: dict[str, str] = field(default_factory=dict)
    fields: list[str] = field(default_factory=list)
    rows: list[tuple[int, tuple[str, ...]]] = field(default_factory=list)
    tables: list[CgatsTable] = field(default_factory=list)
    block: str = ""
    since: int = 0
    sets: tuple[int, int] | None = None


def is_cgats(lines: Sequence[str]) -> bool:
    """Whether any line begins a block as CGATS does."""
    begin = ("BEGIN_DATA", "BEGIN_DATA_FORMAT")
    return any(line.split(maxsplit=1)[:1] and line.split(maxsplit=1)[0].upper() in begin for line in lines)


def read_cgats(lines: Sequence[str], faults: Faults) -> tuple[CgatsTable, ...]:
    """Return every table of a CGATS text."""
    state = _State(faults)
    for number, line in enumerate(lines, start=1):
        words = _words(line, _BLANKS)
        if words is None:
            faults.add(f"line {number}", message("readings.quote-open"), message("readings.quote-open.mend"))
        elif words:
            _take(words, line, number, state)
    if state.block:
        what = message("readings.ends-in-block", block=Name(state.block), line=state.since)
        faults.add("file", what, message("readings.mend.cut-off"))
    return tuple(state.tables)


def _words(line: str, pattern: re.Pattern[str]) -> list[str] | None:
    """Words of a line without its comment; None if a quote stays open."""
    words: list[str] = []
    for found in pattern.finditer(line):
        quoted, bare = found.groups()
        if quoted is not None:
            words.append(quoted.replace('""', '"'))
        elif bare.startswith("#"):
            break
        elif bare.startswith('"'):
            return None
        else:
            words.append(bare.rstrip(",;"))
    return words


def _take(words: list[str], line: str, number: int, state: _State) -> None:
    """Add one line."""
    keyword = words[0].upper()
    if keyword in {"BEGIN_DATA_FORMAT", "BEGIN_DATA"}:
        _begin(keyword, number, state)
        words, line = words[1:], line.split(maxsplit=1)[1] if len(words) > 1 else ""
        if not words:
            return
    elif keyword in {"END_DATA_FORMAT", "END_DATA"}:
        _end(keyword, number, state)
        return
    if state.block == "BEGIN_DATA_FORMAT":
        state.fields += [word.upper() for word in words]
    elif state.block == "BEGIN_DATA":
        _take_row(words, line, number, state)
    elif keyword == "NUMBER_OF_SETS":
        _take_count(words, number, state)
    # NUMBER_OF_FIELDS is wrong in files that are in use; every row is held against the names of the fields instead.
    elif keyword in _KEPT:
        _take_keyword(keyword, " ".join(words[1:]), state)


def _take_keyword(keyword: str, value: str, state: _State) -> None:
    """Keep what is said about light, observer or wavelengths; the last word counts."""
    if keyword == "WEIGHTING_FUNCTION":
        kind, _, value = value.partition(",")
        if kind.strip().upper() not in {"ILLUMINANT", "OBSERVER"}:
            return
        keyword = f"{keyword} {kind.strip().upper()}"
    state.header.pop(keyword, None)
    state.header[keyword] = value.strip()


def _begin(keyword: str, number: int, state: _State) -> None:
    """Open a block."""
    if state.block:
        what = message(
            "readings.block-in-block", keyword=Name(keyword), block=Name(state.block), line=state.since
        )
        state.faults.add(f"line {number}", what, message("readings.block-in-block.mend"))
    if keyword == "BEGIN_DATA_FORMAT":
        state.fields = []
    else:
        state.rows = []
        if not state.fields:
            damaged = message("readings.mend.damaged")
            state.faults.add(f"line {number}", message("readings.data-before-fields"), damaged)
    state.block, state.since = keyword, number


def _end(keyword: str, number: int, state: _State) -> None:
    """Close a block and check what the file says about it."""
    where = f"line {number}"
    if state.block != keyword.replace("END", "BEGIN"):
        what = message("readings.end-without-beginning", keyword=Name(keyword))
        state.faults.add(where, what, message("readings.mend.damaged"))
        state.block = ""
        return
    state.block = ""
    if keyword == "END_DATA_FORMAT":
        twice = [name for name, count in Counter(state.fields).items() if count > 1]
        if twice:
            what = message("readings.field-twice", field=quoted(twice[0]))
            state.faults.add(where, what, message("readings.field-twice.mend"))
        return
    if state.sets is not None and state.sets[1] != len(state.rows):
        what = message("readings.other-row-count", stated=state.sets[1], count=len(state.rows))
        state.faults.add(f"line {state.sets[0]}", what, message("readings.other-row-count.mend"))
    table = CgatsTable(state.since, tuple(state.header.items()), tuple(state.fields), tuple(state.rows))
    state.tables.append(table)
    state.sets = None


def _take_count(words: list[str], number: int, state: _State) -> None:
    """Take up how many data sets the file states."""
    if len(words) < 2 or not re.fullmatch(r"\d{1,9}", words[1]):
        what = message("readings.no-row-count")
        state.faults.add(f"line {number}", what, message("readings.no-row-count.mend"))
        return
    state.sets = (number, int(words[1]))


def _take_row(words: list[str], line: str, number: int, state: _State) -> None:
    """Add a data set; blanks part its cells, then semicolons, commas last, so that a decimal comma stays whole."""
    for pattern in (_SEMICOLONS, _COMMAS):
        if len(words) != len(state.fields):
            other = _words(line, pattern) or []
            words = other if len(other) == len(state.fields) else words
    if len(words) != len(state.fields) and state.fields:
        what = message("readings.values-for-fields", count=len(words), fields=len(state.fields))
        state.faults.add(f"line {number}", what, message("readings.values-for-fields.mend"))
    state.rows.append((number, tuple(words)))
