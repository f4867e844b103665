"""Reads colours and spectra of a CxF3 file: objects, their values, and the specification each value points to.

Sources: ISO 17972-1, from memory; checked against another reader in tests/unit/reader/test_cxf3.py.
"""

import math
from dataclasses import dataclass
from xml.etree.ElementTree import Element, ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import fromstring

from laydown.reader.instrument.raw import Faults, RawReading, decimal, digits, illuminant, lab_of, observer
from laydown.reader.instrument.sample_name import is_ignored
from laydown.reader.values import short
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
    """Return every colour and spectrum of a CxF3 file.

    Parameters
    ----------
    data
        Content of the file.
    mapping
        What the user has said about the file.
    faults
        Takes up every fault with the name of its object.

    Returns
    -------
    Values in the order of the file, and what was left out because it was lit or seen otherwise.
    """
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
            faults.add(where, f"its Id {short(key)} stands twice", "each object needs an Id of its own")
        twice.add(key)
        if is_ignored(name, mapping):
            continue
        for value in item.iterfind(f"{NAMESPACE}ColorValues/*"):
            kind = str(value.tag).removeprefix(NAMESPACE)
            if kind not in {"ColorCIELab", "ReflectanceSpectrum"}:
                continue
            specification = _linked(value, specifications, where, faults)
            other = _other_geometry(specification) if specification else ""
            if other:
                left_out.append(Understood(where, f"{kind} left out: {other}", mapping.confirmed))
            elif specification:
                raw.append(_value(value, specification, (where, name, key), mapping, faults))
    if not raw and not faults.found:
        faults.add(
            "file", "has no object with ColorCIELab or ReflectanceSpectrum", "export CIELAB or spectra"
        )
    return raw, left_out


def _parse(data: bytes, faults: Faults) -> Element | None:
    """Parse without a document type, entities or anything from outside."""
    try:
        root: Element = fromstring(data, forbid_dtd=True)
    except DefusedXmlException:
        faults.add(
            "file", "declares a document type or entities", "these are refused for safety: export it again"
        )
        return None
    except ParseError as error:
        line, column = error.position
        what = f"line {line}, column {column}: {str(error).split(':')[0]}"
        faults.add("file", what, "the file is cut off or damaged: export or copy it again")
        return None
    except (ValueError, LookupError):
        faults.add("file", "is written in an encoding that is not read", "save it as UTF-8")
        return None
    if root.tag != NAMESPACE + "CxF":
        faults.add(
            "file", f"is XML, but no CxF3: it begins with {short(str(root.tag))}", "export CxF3, or text"
        )
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
            faults.add(where, "stands twice", "each specification needs an Id of its own")
        found[name] = _specification(item, where, faults)
    return found


def _specification(item: Element, where: str, faults: Faults) -> _Specification:
    """Read one specification."""
    lamp_text = (item.findtext(f"{NAMESPACE}TristimulusSpec/{NAMESPACE}Illuminant") or "").strip()
    eye_text = (item.findtext(f"{NAMESPACE}TristimulusSpec/{NAMESPACE}Observer") or "").strip()
    lamp, eye = illuminant(lamp_text), observer(eye_text)
    for what, text, known in (("illuminant", lamp_text, lamp), ("observer", eye_text, eye)):
        if text and known is None:
            faults.add(
                where, f"has the {what} {short(text)}, which is not read", "export for D65 and 10 degrees"
            )
    angles = list(item.iter(NAMESPACE + "BRDFAngle"))
    if len(angles) > 1:
        faults.add(where, f"has {len(angles)} angles", "export one specification for each angle")
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
        faults.add(where, f"its {name} is {short(text)}, which is no number", "write degrees, such as 45")
    return value


def _linked(
    value: Element, specifications: dict[str, _Specification], where: str, faults: Faults
) -> _Specification | None:
    """Specification a value points to."""
    name = value.get("ColorSpecification")
    if name is None:
        faults.add(where, "has a value without ColorSpecification", "the angle stands there: export it too")
    elif name not in specifications:
        faults.add(where, f"points to the specification {short(name)}, which is missing", "export it too")
    return specifications.get(name or "")


def _other_geometry(of: _Specification) -> str:
    """Why a value cannot stand beside the others; empty if it can."""
    if of.azimuth_deg % 360:
        return f"seen out of the plane of the light (azimuth {digits(of.azimuth_deg)} deg)"
    if of.light_deg is not None and not math.isclose(abs(of.light_deg), _USUAL_LIGHT_DEG, abs_tol=0.5):
        return f"lit at {digits(of.light_deg)} deg instead of 45 deg"
    return ""


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
        faults.add(where, f"its spectrum holds {short(bad)}, which is no number", "export it again")
        return None
    start_nm = decimal(value.get("StartWL") or "")
    start_nm = of.start_nm if start_nm is None else start_nm
    if start_nm is None or of.increment_nm is None:
        what = "does not say at which wavelengths its spectrum stands"
        faults.add(where, what, "its specification needs WavelengthRange with StartWL and Increment")
        return None
    white = 100.0 if mapping.spectra == "percent" else 1.0
    return Spectrum(
        start_nm, of.increment_nm, tuple(number / white for number in numbers if number is not None)
    )
