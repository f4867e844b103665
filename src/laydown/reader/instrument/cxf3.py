"""Reads colours and spectra of a CxF3 file: objects, their values, and the specification each value points to.

Sources: ISO 17972-1, from memory; checked against another reader in tests/unit/reader/instrument/test_cxf3.py.
"""

import math
from dataclasses import dataclass
from xml.etree.ElementTree import Element, ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import fromstring

from laydown.reader.instrument.raw import (
    Faults,
    RawReading,
    decimal,
    digits,
    illuminant,
    lab_of,
    observer,
    quoted,
)
from laydown.reader.instrument.sample_name import is_ignored
from laydown.reader.values import short
from laydown.schema.message import Message, Name, message
from laydown.schema.reading import ReadingMap, Spectrum, Understood

NAMESPACE = "{http://colorexchangeformat.com/CxF3-core}"
"""Names of CxF3 elements begin with this; an identifier inside the file, nothing is fetched."""

_USUAL_LIGHT_DEG = 45.0
"""Angle of illumination that the aspecular angles of let-down panels are read at [deg]; ASTM E2194, from memory."""


@dataclass(frozen=True, slots=True)
class _Specification:
    """How values were measured."""

    illuminant: str | None
    observer: int | None
    angle_deg: float | None
    light_deg: float | None
    azimuth_deg: float
    start_nm: float | None
    increment_nm: float | None


def is_xml(data: bytes) -> bool:
    """Whether the bytes begin as XML does, in UTF-8 or UTF-16."""
    start = data[:200].replace(b"\0", b"").lstrip(b"\xef\xbb\xbf\xff\xfe \t\r\n")
    return start.startswith(b"<")


def cxf3_readings(
    data: bytes, mapping: ReadingMap, faults: Faults
) -> tuple[list[RawReading], list[Understood]]:
    """Return every colour and spectrum of a CxF3 file."""
    root = _parse(data, faults)
    if root is None:
        return [], []
    specifications = _specifications(root, faults)
    raw: list[RawReading] = []
    left_out: list[Understood] = []
    twice: set[str] = set()
    for item in root.iter(NAMESPACE + "Object"):
        name = (item.get("Name") or item.get("Id") or "").strip()
        key = (item.get("Id") or "").strip()
        where = f"object '{name[:60]}'" if name.isprintable() and name else f"object {short(name)}"
        if key and key in twice:
            what = message("readings.id-twice", key=quoted(key))
            faults.add(where, what, message("readings.id-twice.mend"))
        twice.add(key)
        if is_ignored(name, mapping):
            continue
        for value in item.iterfind(f"{NAMESPACE}ColorValues/*"):
            kind = str(value.tag).removeprefix(NAMESPACE)
            if kind not in {"ColorCIELab", "ReflectanceSpectrum"}:
                continue
            specification = _linked(value, specifications, where, faults)
            other = _other_geometry(specification) if specification else None
            if other is not None:
                what = message("readings.left-out", kind=Name(kind), reason=other)
                left_out.append(Understood(where, what, mapping.confirmed, left_out=True))
            elif specification:
                raw.append(_value(value, specification, (where, name, key), mapping, faults))
    if not raw and not faults.found:
        faults.add("file", message("readings.no-objects"), message("readings.no-objects.mend"))
    return raw, left_out


def _parse(data: bytes, faults: Faults) -> Element | None:
    """Parse without a document type, entities or anything from outside."""
    try:
        root: Element = fromstring(data, forbid_dtd=True)
    except DefusedXmlException:
        faults.add("file", message("readings.document-type"), message("readings.document-type.mend"))
        return None
    except ParseError as error:
        line, column = error.position
        parser = Name(str(error).split(":")[0])
        what = message("readings.xml-broken", line=line, column=column, parser=parser)
        faults.add("file", what, message("readings.xml-broken.mend"))
        return None
    except (ValueError, LookupError):
        faults.add("file", message("readings.encoding-unknown"), message("readings.encoding-unknown.mend"))
        return None
    if root.tag != NAMESPACE + "CxF":
        what = message("readings.other-xml", tag=quoted(str(root.tag)))
        faults.add("file", what, message("readings.other-xml.mend"))
        return None
    return root


def _specifications(root: Element, faults: Faults) -> dict[str, _Specification]:
    """Every specification by its Id."""
    found: dict[str, _Specification] = {}
    for item in root.iter(NAMESPACE + "ColorSpecification"):
        name = item.get("Id")
        if name is None:
            continue
        where = f"specification {short(name)}"
        if name in found:
            what = message("readings.specification-twice")
            faults.add(where, what, message("readings.specification-twice.mend"))
        found[name] = _specification(item, where, faults)
    return found


def _specification(item: Element, where: str, faults: Faults) -> _Specification:
    """Read one specification."""
    lamp_text = (item.findtext(f"{NAMESPACE}TristimulusSpec/{NAMESPACE}Illuminant") or "").strip()
    eye_text = (item.findtext(f"{NAMESPACE}TristimulusSpec/{NAMESPACE}Observer") or "").strip()
    lamp, eye = illuminant(lamp_text), observer(eye_text)
    for condition, text, known in (("illuminant", lamp_text, lamp), ("observer", eye_text, eye)):
        if text and known is None:
            what = message("readings.condition-not-read", condition=condition, text=quoted(text))
            faults.add(where, what, message("readings.condition-not-read.mend"))
    angles = list(item.iter(NAMESPACE + "BRDFAngle"))
    if len(angles) > 1:
        what = message("readings.many-angles", count=len(angles))
        faults.add(where, what, message("readings.many-angles.mend"))
    seen_deg = light_deg = None
    azimuth_deg = 0.0
    if len(angles) == 1:
        seen_deg = _child(angles[0], "Aspecular", where, faults)
        light_deg = _child(angles[0], "IlluminationAngle", where, faults)
        azimuth_deg = decimal(angles[0].findtext(NAMESPACE + "Azimuth") or "0") or 0.0
    waves = next(item.iter(NAMESPACE + "WavelengthRange"), None)
    start = None if waves is None else decimal(waves.get("StartWL") or "")
    step = None if waves is None else decimal(waves.get("Increment") or "")
    return _Specification(lamp, eye, seen_deg, light_deg, azimuth_deg, start, step)


def _child(item: Element, name: str, where: str, faults: Faults) -> float | None:
    """Number in a child or an attribute of that name."""
    text = (item.findtext(NAMESPACE + name) or item.get(name) or "").strip()
    value = decimal(text)
    if value is None:
        what = message("readings.its-no-number", part=Name(name), text=quoted(text))
        faults.add(where, what, message("readings.mend.write-degrees"))
    return value


def _linked(
    value: Element, specifications: dict[str, _Specification], where: str, faults: Faults
) -> _Specification | None:
    """Specification a value points to."""
    name = value.get("ColorSpecification")
    if name is None:
        what = message("readings.no-specification")
        faults.add(where, what, message("readings.no-specification.mend"))
    elif name not in specifications:
        what = message("readings.specification-missing", specification=quoted(name))
        faults.add(where, what, message("readings.specification-missing.mend"))
    return specifications.get(name or "")


def _other_geometry(of: _Specification) -> Message | None:
    """Why a value cannot stand beside the others; None if it can."""
    if of.azimuth_deg % 360:
        return message("readings.out-of-plane", azimuth=digits(of.azimuth_deg))
    if of.light_deg is not None and not math.isclose(abs(of.light_deg), _USUAL_LIGHT_DEG, abs_tol=0.5):
        return message("readings.lit-otherwise", light=digits(of.light_deg))
    return None


def _value(
    value: Element, of: _Specification, said: tuple[str, str, str], mapping: ReadingMap, faults: Faults
) -> RawReading:
    """Return one value."""
    where, name, key = said
    lab, spectrum = None, None
    if value.tag == NAMESPACE + "ColorCIELab":
        texts = [(value.findtext(NAMESPACE + axis) or "").strip() for axis in "LAB"]
        lab = lab_of((texts[0], texts[1], texts[2]), where, faults)
    else:
        spectrum = _spectrum(value, of, where, mapping, faults)
    return RawReading(where, name, key, of.angle_deg, lab, spectrum, of.illuminant, of.observer)


def _spectrum(
    value: Element, of: _Specification, where: str, mapping: ReadingMap, faults: Faults
) -> Spectrum | None:
    """Return a spectrum as factors."""
    texts = (value.text or "").split()
    numbers = [decimal(text) for text in texts]
    if None in numbers:
        bad = texts[numbers.index(None)]
        what = message("readings.spectrum-no-number", text=quoted(bad))
        faults.add(where, what, message("readings.mend.export-again"))
        return None
    start_nm = decimal(value.get("StartWL") or "")
    start_nm = of.start_nm if start_nm is None else start_nm
    if start_nm is None or of.increment_nm is None:
        faults.add(where, message("readings.no-wavelengths"), message("readings.no-wavelengths.mend"))
        return None
    white = 100.0 if mapping.spectra == "percent" else 1.0
    return Spectrum(
        start_nm, of.increment_nm, tuple(number / white for number in numbers if number is not None)
    )
