"""From raw readings to nouns: what names say, which conditions count, and what must hold for all readings together."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from laydown.reader.instrument.raw import Faults, Lab, Question, RawReading, Spot, digits
from laydown.reader.instrument.sample_name import LONGEST_NAME, is_ignored, parts_of, spot_of
from laydown.reader.values import short
from laydown.schema.reading import (
    COATS,
    KNOWN_ANGLES_DEG,
    LAB_AB,
    LAB_L,
    NAME,
    Reading,
    ReadingMap,
    Readings,
    Role,
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
    """Whether an angle is one of the usual, or one that the user has allowed.

    Parameters
    ----------
    angle_deg
        Aspecular angle [deg].
    where
        Line or object.
    mapping
        Names further angles.
    faults
        Takes up an angle that is not known.

    Returns
    -------
    Whether the reading can be used.
    """
    if angle_deg in (*KNOWN_ANGLES_DEG, *mapping.other_angles_deg):
        return True
    listed = ", ".join(digits(item) for item in KNOWN_ANGLES_DEG)
    hint = f"known are {listed}; if the instrument has it, add it to other_angles_deg of the mapping"
    faults.ask("angle", where, f"the angle {digits(angle_deg)} deg is not known", hint)
    return False


def spot_is_sound(spot: Spot, where: str, faults: Faults) -> bool:
    """Whether coats and names are what they can be.

    Parameters
    ----------
    spot
        What was read.
    where
        Line or object.
    faults
        Takes up what is wrong.

    Returns
    -------
    Whether the reading can be used.
    """
    before = faults.count()
    coats = spot.coats
    if spot.role == "field" and coats is None:
        faults.add(where, "is a field without coats", "write how many effect coats it has")
    elif spot.role == "ground_ref" and coats:
        faults.add(where, "is bare ground with effect coats on it", "leave coats empty, or call it a field")
    elif spot.role == "car" and coats is not None:
        faults.add(where, "counts the coats of the car", "leave coats empty: the car's are not known")
    elif coats is not None and not COATS.low <= coats <= COATS.high:
        what = f"{digits(coats)} coats are outside {digits(COATS.low)} to {digits(COATS.high)}"
        faults.add(where, what, COATS.hint)
    for what, text in (("panel", spot.panel), ("zone", spot.zone)):
        if len(text) > NAME.longest or not text.isprintable():
            hint = f"at most {NAME.longest} letters, no control characters"
            faults.add(where, f"the {what} {short(text)} cannot be a name", hint)
    return faults.count() == before


def lab_is_sound(lab: Lab, where: str, faults: Faults) -> bool:
    """Whether L*, a*, b* are in range; nothing is clipped.

    Parameters
    ----------
    lab
        The values.
    where
        Line or object.
    faults
        Takes up each value outside its range.

    Returns
    -------
    Whether the reading can be used.
    """
    before = faults.count()
    for name, value, bound in zip(("L*", "a*", "b*"), lab, (LAB_L, LAB_AB, LAB_AB), strict=True):
        if not bound.low <= value <= bound.high:
            what = f"{name} {digits(value)} is outside {digits(bound.low)} to {digits(bound.high)}"
            faults.add(where, what, bound.hint)
    return faults.count() == before


def spectrum_is_sound(spectrum: Spectrum, where: str, faults: Faults) -> bool:
    """Whether a spectrum has wavelengths and factors that can be.

    Parameters
    ----------
    spectrum
        As read.
    where
        Line or object.
    faults
        Takes up what is wrong.

    Returns
    -------
    Whether the reading can be used.
    """
    before = faults.count()
    last_nm = spectrum.start_nm + spectrum.increment_nm * (len(spectrum.factors) - 1)
    low_nm, high_nm = _WAVES_NM
    if len(spectrum.factors) < 2:
        faults.add(where, "its spectrum has fewer than two values", "export the whole spectrum")
    elif not 0 < spectrum.increment_nm <= 50 or spectrum.start_nm < low_nm or last_nm > high_nm:
        what = f"its spectrum runs from {digits(spectrum.start_nm)} to {digits(last_nm)} nm"
        faults.add(where, what, "check first wavelength and step; 400 to 700 nm in steps of 10 is usual")
    low, high = _FACTORS
    odd = next((value for value in spectrum.factors if not low <= value <= high), None)
    if odd is not None:
        what = f"its spectrum holds {digits(odd)}, outside {digits(low)} to {digits(high)}"
        faults.add(
            where, what, 'factors count white as 1; for per cent say spectra = "percent" in the mapping'
        )
    return faults.count() == before


def ask_for_scale(raw: Sequence[RawReading], mapping: ReadingMap, faults: Faults) -> None:
    """Ask whether spectra are per cent, where they look like it and the user has not said.

    Parameters
    ----------
    raw
        Everything the file holds.
    mapping
        May name the scale.
    faults
        Takes up the question.
    """
    if mapping.spectra is not None:
        return
    for one in raw:
        largest = max(one.spectrum.factors, default=0.0) if one.spectrum else 0.0
        if largest > _FACTOR_ASKED:
            what = f"its spectrum reaches {digits(largest)}: factors or per cent?"
            faults.ask(
                "scale", one.where, what, 'say spectra = "percent", or spectra = "factor", in the mapping'
            )
            return


Place = tuple[str, Role, float | None, str, int, float]
"""Panel, role, coats, zone, number and angle: what makes a reading unique."""

_LAB, _SPECTRUM = "L*, a*, b*", "a spectrum"


@dataclass(slots=True)
class _State:
    """What was settled so far."""

    mapping: ReadingMap
    faults: Faults
    readings: dict[Place, Reading] = field(default_factory=dict)
    spectra: dict[Place, SpectralReading] = field(default_factory=dict)
    seen: dict[tuple[object, ...], str] = field(default_factory=dict)
    counted: Counter[tuple[object, ...]] = field(default_factory=Counter)
    understood: dict[str, Understood] = field(default_factory=dict)
    conditions: dict[tuple[str, int], str] = field(default_factory=dict)
    other_count: int = 0


def settle(source: str, raw: Sequence[RawReading], mapping: ReadingMap, faults: Faults) -> Readings:
    """Return the readings of a file.

    Parameters
    ----------
    source
        Name of the file.
    raw
        As they stand in the file.
    mapping
        What the user has said.
    faults
        Takes up everything that is wrong; with any fault in it the result is not to be used.

    Returns
    -------
    The readings, the spectra that have no L*, a*, b* beside them, and how names were understood.
    """
    state = _State(mapping, faults)
    ask_for_scale(raw, mapping, faults)
    for one in raw:
        _take(one, state)
    _one_condition(state)
    spectra = tuple(one for place, one in state.spectra.items() if place not in state.readings)
    if not state.readings and not spectra and not faults.found:
        hint = (
            "its conditions are not those of the mapping"
            if state.other_count
            else "it is empty, or all is ignored"
        )
        faults.add("file", "holds no reading that can be used", hint)
    understood = [*state.understood.values()]
    if state.other_count:
        what = f"{state.other_count} values left out: not of the illuminant and observer in the mapping"
        understood.append(Understood("file", what, mapping.confirmed))
    if len(spectra) < len(state.spectra):
        what = f"{len(state.spectra) - len(spectra)} spectra left out: their L*, a*, b* are in the file"
        understood.append(Understood("file", what, mapping.confirmed))
    return Readings(source, tuple(state.readings.values()), spectra, tuple(understood))


def _one_condition(state: _State) -> None:
    """Refuse a mix of illuminants or observers."""
    (first, where), *others = list(state.conditions.items()) or [(("", 0), "")]
    for other, place in others:
        what = f"is measured for {_worded(other)}, {where} for {_worded(first)}"
        hint = "one file holds one illuminant and observer: export again, or name both in the mapping"
        state.faults.ask("light", place, what, hint)


def _worded(condition: tuple[str, int]) -> str:
    """Illuminant and observer in words."""
    return f"{condition[0]} and {condition[1]} deg"


def _take(one: RawReading, state: _State) -> None:
    """Add one raw reading."""
    if len(one.name) > LONGEST_NAME:
        state.faults.add(
            one.where, f"its sample name has {len(one.name)} letters", f"use {LONGEST_NAME} at most"
        )
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


def _take_lab(one: RawReading, spot: Spot, angle_deg: float, state: _State) -> None:
    """Add L*, a*, b*, if they are of the conditions the user wants."""
    wanted = state.mapping
    lamp, eye = one.illuminant or wanted.illuminant, one.observer or wanted.observer
    if lamp is None or eye is None:
        hint = 'add illuminant = "D65" and observer = 10 (or what the instrument was set to) to the mapping'
        what = "does not say for which illuminant and observer L*, a*, b* are"
        _once("light", ("conditions", "file"), what, hint, state)
        return
    if (wanted.illuminant or lamp, wanted.observer or eye) != (lamp, eye):
        state.other_count += 1
        return
    # A second set for other conditions is a mix, not a repeat, so the conditions are a part of what must be unique.
    place = _place(one, spot, angle_deg, f"{_LAB} for {_worded((lamp, eye))}", state)
    if place and one.lab:
        state.conditions.setdefault((lamp, eye), one.where)
        state.readings[place] = Reading(*place, *one.lab, lamp, eye)


def _once(about: Question, told: tuple[str, str], what: str, hint: str, state: _State) -> None:
    """Ask what holds for many rows a single time; told is what is asked about, and where it was met."""
    of, where = told
    if ("told", of) not in state.seen:
        state.seen["told", of] = where
        state.faults.ask(about, where, what, hint)


def _named(one: RawReading, state: _State) -> Spot | None:
    """What a sample name stands for."""
    found = spot_of(one.name, state.mapping)
    if found is None:
        what = (
            f"the sample {short(one.name)} does not say what was read" if one.name else "has no sample name"
        )
        hint = (
            "name it 'field 2', 'ground' or 'car front door', or explain it under [[sample]] of the mapping"
        )
        _once("sample", (f"name {one.name}", one.where), what, hint, state)
        return None
    spot, told = found
    from_name = one.angle_deg is None
    angle_deg = parts_of(one.name).angle_deg if from_name else None
    coats = f"field with {digits(spot.coats or 0)} effect coats"
    what = {"field": coats, "ground_ref": "bare ground coat", "car": "the car"}[spot.role]
    what += f", zone '{spot.zone}'" if spot.zone else ""
    what += f", {digits(angle_deg)} deg" if angle_deg is not None else ""
    sure = state.mapping.confirmed or (told and not from_name)
    state.understood.setdefault(one.name, Understood(one.where, f"'{one.name[:60]}': {what}", sure))
    return spot


def _angle(one: RawReading, state: _State) -> float | None:
    """Angle of a reading, from its name if the file has none."""
    angle_deg = one.angle_deg
    if angle_deg is None:
        parts = parts_of(one.name)
        if parts.angles_count > 1:
            state.faults.add(one.where, f"the sample {short(one.name)} names several angles", "keep one")
            return None
        angle_deg = parts.angle_deg
    if angle_deg is None:
        what = f"the sample {short(one.name)} has no angle" if one.name else "has no angle"
        hint = "name its column, or angles_deg for each table, in the mapping; or write as45 into the sample name"
        _once("angle", (f"angle {one.name}", one.where), what, hint, state)
        return None
    return angle_deg if angle_is_known(angle_deg, one.where, state.mapping, state.faults) else None


def _place(one: RawReading, spot: Spot, angle_deg: float, kind: str, state: _State) -> Place | None:
    """What makes a reading unique; None if the file has it already. Repeats without a number are counted."""
    sample = (kind, one.key, one.name, angle_deg)
    if one.key and sample in state.seen:
        what = (
            f"sample {short(one.key)} has {kind} at {digits(angle_deg)} deg in {state.seen[sample]} already"
        )
        state.faults.add(one.where, what, "leave one out, or give each reading a sample id of its own")
        return None
    state.seen[sample] = one.where
    number = spot.number
    if number is None:
        group = (kind, spot.panel, spot.role, spot.coats, spot.zone, angle_deg)
        state.counted[group] += 1
        number = state.counted[group]
    place = (spot.panel, spot.role, spot.coats, spot.zone, number, angle_deg)
    if (kind, place) in state.seen:
        what = f"repeats {state.seen[kind, place]}: same spot, angle and reading number {number}"
        state.faults.add(one.where, what, "number the readings of one spot 1, 2, 3 ..., or leave one out")
        return None
    state.seen[kind, place] = one.where
    return place
