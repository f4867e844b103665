"""From raw readings to nouns: what names say, which conditions count, and what must hold for all readings together."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from laydown.reader.instrument.raw import Faults, Lab, Question, RawReading, RawSpot, digits, quoted
from laydown.reader.instrument.sample_name import LONGEST_NAME, is_ignored, parts_of, spot_of
from laydown.schema.message import Message, Name, message
from laydown.schema.reading import (
    COATS,
    KNOWN_ANGLES_DEG,
    LAB_AB,
    LAB_L,
    NAME,
    Reading,
    ReadingMap,
    ReadingRole,
    Readings,
    SpectralReading,
    Spectrum,
    Understood,
)

_FACTOR_ASKED = 2.5
"""Largest reflectance factor taken without a word from the user; assumption: beyond it stand per cent."""

_FACTORS = (-0.1, 20.0)
"""Range of a reflectance factor; the lower end leaves room for noise. Assumption."""

_WAVES_NM = (200.0, 1100.0)
"""Range of wavelengths [nm]; assumption, beyond every colour instrument."""


def angle_is_known(angle_deg: float, where: str, mapping: ReadingMap, faults: Faults) -> bool:
    """Whether an angle is one of the usual, or one that the user has allowed."""
    if angle_deg in (*KNOWN_ANGLES_DEG, *mapping.other_angles_deg):
        return True
    hint = message("readings.angle-unknown.mend", angles=tuple(map(digits, KNOWN_ANGLES_DEG)))
    faults.ask("angle", where, message("readings.angle-unknown", angle=digits(angle_deg)), hint)
    return False


def spot_is_sound(spot: RawSpot, where: str, faults: Faults) -> bool:
    """Whether coats and names are what they can be."""
    before = faults.count()
    coats = spot.coats
    if spot.role == "field" and coats is None:
        hint = message("readings.field-without-coats.mend")
        faults.add(where, message("readings.field-without-coats"), hint)
    elif spot.role == "ground_ref" and coats:
        faults.add(where, message("readings.coats-on-ground"), message("readings.coats-on-ground.mend"))
    elif spot.role == "car" and coats is not None:
        faults.add(where, message("readings.coats-of-car"), message("readings.coats-of-car.mend"))
    elif coats is not None and not COATS.low <= coats <= COATS.high:
        low, high = digits(COATS.low), digits(COATS.high)
        what = message("readings.coats-outside", coats=digits(coats), low=low, high=high)
        faults.add(where, what, COATS.hint)
    for named, text in (("panel", spot.panel), ("zone", spot.zone)):
        if len(text) > NAME.longest or not text.isprintable():
            what = message("readings.no-name", named=named, text=quoted(text))
            faults.add(where, what, message("readings.no-name.mend", longest=NAME.longest))
    return faults.count() == before


def lab_is_sound(lab: Lab, where: str, faults: Faults) -> bool:
    """Whether L*, a*, b* are in range; nothing is clipped."""
    before = faults.count()
    for name, value, bound in zip(("L*", "a*", "b*"), lab, (LAB_L, LAB_AB, LAB_AB), strict=True):
        if not bound.low <= value <= bound.high:
            low, high = digits(bound.low), digits(bound.high)
            what = message("readings.outside", of=Name(name), value=digits(value), low=low, high=high)
            faults.add(where, what, bound.hint)
    return faults.count() == before


def spectrum_is_sound(spectrum: Spectrum, where: str, faults: Faults) -> bool:
    """Whether a spectrum has wavelengths and factors that can be."""
    before = faults.count()
    last_nm = spectrum.start_nm + spectrum.increment_nm * (len(spectrum.factors) - 1)
    low_nm, high_nm = _WAVES_NM
    if len(spectrum.factors) < 2:
        faults.add(where, message("readings.short-spectrum"), message("readings.short-spectrum.mend"))
    elif not 0 < spectrum.increment_nm <= 50 or spectrum.start_nm < low_nm or last_nm > high_nm:
        first, last = digits(spectrum.start_nm), digits(last_nm)
        what = message("readings.spectrum-runs", first=first, last=last)
        faults.add(where, what, message("readings.spectrum-runs.mend"))
    low, high = _FACTORS
    odd = next((value for value in spectrum.factors if not low <= value <= high), None)
    if odd is not None:
        what = message("readings.spectrum-outside", value=digits(odd), low=digits(low), high=digits(high))
        faults.add(where, what, message("readings.spectrum-outside.mend"))
    return faults.count() == before


def ask_for_scale(raw: Sequence[RawReading], mapping: ReadingMap, faults: Faults) -> None:
    """Ask whether spectra are per cent, where they look like it and the user has not said."""
    if mapping.spectra is not None:
        return
    for one in raw:
        largest = max(one.spectrum.factors, default=0.0) if one.spectrum else 0.0
        if largest > _FACTOR_ASKED:
            what = message("readings.scale-asked", largest=digits(largest))
            faults.ask("scale", one.where, what, message("readings.scale-asked.mend"))
            return


ReadingKey = tuple[str, ReadingRole, float | None, str, int, float]
"""Panel, role, coats, zone, number and angle: what makes a reading unique."""

_SPECTRUM = message("readings.kind-spectrum")


@dataclass(slots=True)
class _State:
    """What was settled so far."""

    mapping: ReadingMap
    faults: Faults
    readings: dict[ReadingKey, Reading] = field(default_factory=dict)
    spectra: dict[ReadingKey, SpectralReading] = field(default_factory=dict)
    seen: dict[tuple[object, ...], str] = field(default_factory=dict)
    counted: Counter[tuple[object, ...]] = field(default_factory=Counter)
    understood: dict[str, Understood] = field(default_factory=dict)
    conditions: dict[tuple[str, int], str] = field(default_factory=dict)
    other_count: int = 0


def settle(source: str, raw: Sequence[RawReading], mapping: ReadingMap, faults: Faults) -> Readings:
    """Return the readings of a file."""
    state = _State(mapping, faults)
    ask_for_scale(raw, mapping, faults)
    for one in raw:
        _take(one, state)
    _one_condition(state)
    spectra = tuple(one for place, one in state.spectra.items() if place not in state.readings)
    if not state.readings and not spectra and not faults.found:
        hint = message("readings.mend.other-conditions" if state.other_count else "readings.mend.all-ignored")
        faults.add("file", message("readings.none-to-use"), hint)
    understood = [*state.understood.values()]
    if state.other_count:
        what = message("readings.values-left-out", count=state.other_count)
        understood.append(Understood("file", what, mapping.confirmed, left_out=True))
    if len(spectra) < len(state.spectra):
        what = message("readings.spectra-left-out", count=len(state.spectra) - len(spectra))
        understood.append(Understood("file", what, mapping.confirmed, left_out=True))
    return Readings(source, tuple(state.readings.values()), spectra, tuple(understood))


def _one_condition(state: _State) -> None:
    """Refuse a mix of illuminants or observers."""
    (first, where), *others = list(state.conditions.items()) or [(("", 0), "")]
    for other, place in others:
        first_said, other_said = _condition(first), _condition(other)
        what = message("readings.mixed", condition=other_said, where=Name(where), other=first_said)
        state.faults.ask("light", place, what, message("readings.mixed.mend"))


def _condition(of: tuple[str, int]) -> Message:
    """Illuminant and observer in words."""
    return message("readings.condition", illuminant=Name(of[0]), observer=of[1])


def _take(one: RawReading, state: _State) -> None:
    """Add one raw reading."""
    if len(one.name) > LONGEST_NAME:
        what = message("readings.long-name", count=len(one.name))
        state.faults.add(one.where, what, message("readings.long-name.mend", longest=LONGEST_NAME))
        return
    if one.name and is_ignored(one.name, state.mapping):
        return
    spot = one.spot or _named(one, state)
    angle_deg = _angle(one, state)
    if spot is None or angle_deg is None or not spot_is_sound(spot, one.where, state.faults):
        return
    if one.lab is not None and lab_is_sound(one.lab, one.where, state.faults):
        _take_lab(one, spot, angle_deg, state)
    if one.spectrum is not None and spectrum_is_sound(one.spectrum, one.where, state.faults):
        place = _place(one, spot, angle_deg, _SPECTRUM, state)
        if place:
            state.spectra[place] = SpectralReading(*place, one.spectrum)


def _take_lab(one: RawReading, spot: RawSpot, angle_deg: float, state: _State) -> None:
    """Add L*, a*, b*, if they are of the conditions the user wants."""
    wanted = state.mapping
    lamp, eye = one.illuminant or wanted.illuminant, one.observer or wanted.observer
    if lamp is None or eye is None:
        what, hint = message("readings.no-conditions"), message("readings.no-conditions.mend")
        _once("light", ("conditions", "file"), what, hint, state)
        return
    if (wanted.illuminant or lamp, wanted.observer or eye) != (lamp, eye):
        state.other_count += 1
        return
    # A second set for other conditions is a mix, not a repeat, so the conditions are a part of what must be unique.
    kind = message("readings.kind-lab", condition=_condition((lamp, eye)))
    place = _place(one, spot, angle_deg, kind, state)
    if place and one.lab:
        state.conditions.setdefault((lamp, eye), one.where)
        state.readings[place] = Reading(*place, *one.lab, lamp, eye)


def _once(about: Question, told: tuple[str, str], what: Message, hint: Message, state: _State) -> None:
    """Ask what holds for many rows a single time; told is what is asked about, and where it was met."""
    of, where = told
    if ("told", of) not in state.seen:
        state.seen["told", of] = where
        state.faults.ask(about, where, what, hint)


def _named(one: RawReading, state: _State) -> RawSpot | None:
    """What a sample name stands for."""
    found = spot_of(one.name, state.mapping)
    if found is None:
        unnamed = message("readings.no-sample-name")
        what = message("readings.sample-unknown", sample=quoted(one.name)) if one.name else unnamed
        hint = message("readings.sample-unknown.mend")
        _once("sample", (f"name {one.name}", one.where), what, hint, state)
        return None
    spot, told = found
    from_name = one.angle_deg is None
    angle_deg = parts_of(one.name).angle_deg if from_name else None
    what = message("readings.taken-for", name=Name(one.name[:60]), parts=_taken_for(spot, angle_deg))
    sure = state.mapping.confirmed or (told and not from_name)
    state.understood.setdefault(one.name, Understood(one.where, what, sure))
    return spot


def _taken_for(spot: RawSpot, angle_deg: float | None) -> tuple[Message, ...]:
    """What a sample name was taken for, part by part."""
    roles: dict[ReadingRole, Message] = {
        "field": message("readings.is-field", coats=digits(spot.coats or 0)),
        "ground_ref": message("readings.is-ground"),
        "car": message("readings.is-car"),
    }
    zone = (message("readings.in-zone", zone=Name(spot.zone)),) if spot.zone else ()
    angle = (message("readings.at-angle", angle=digits(angle_deg)),) if angle_deg is not None else ()
    return (roles[spot.role], *zone, *angle)


def _angle(one: RawReading, state: _State) -> float | None:
    """Angle of a reading, from its name if the file has none."""
    angle_deg = one.angle_deg
    if angle_deg is None:
        parts = parts_of(one.name)
        if parts.angles_count > 1:
            what = message("readings.several-angles", sample=quoted(one.name))
            state.faults.add(one.where, what, message("readings.mend.keep-one"))
            return None
        angle_deg = parts.angle_deg
    if angle_deg is None:
        unnamed = message("readings.angle-missing")
        what = message("readings.sample-without-angle", sample=quoted(one.name)) if one.name else unnamed
        hint = message("readings.angle-missing.mend")
        _once("angle", (f"angle {one.name}", one.where), what, hint, state)
        return None
    return angle_deg if angle_is_known(angle_deg, one.where, state.mapping, state.faults) else None


def _place(
    one: RawReading, spot: RawSpot, angle_deg: float, kind: Message, state: _State
) -> ReadingKey | None:
    """What makes a reading unique; None if the file has it already. Repeats without a number are counted."""
    sample = (kind, one.key, one.name, angle_deg)
    if one.key and sample in state.seen:
        what = message(
            "readings.sample-twice",
            sample=quoted(one.key),
            kind=kind,
            angle=digits(angle_deg),
            where=Name(state.seen[sample]),
        )
        state.faults.add(one.where, what, message("readings.sample-twice.mend"))
        return None
    state.seen[sample] = one.where
    number = spot.number
    if number is None:
        group = (kind, spot.panel, spot.role, spot.coats, spot.zone, angle_deg)
        state.counted[group] += 1
        number = state.counted[group]
    place = (spot.panel, spot.role, spot.coats, spot.zone, number, angle_deg)
    if (kind, place) in state.seen:
        what = message("readings.repeated", where=Name(state.seen[kind, place]), number=number)
        state.faults.add(one.where, what, message("readings.repeated.mend"))
        return None
    state.seen[kind, place] = one.where
    return place
