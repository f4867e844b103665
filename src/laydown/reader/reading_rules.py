"""What must hold for one reading by itself: known angle, possible coats and names, values in range."""

from collections.abc import Sequence

from laydown.reader.leaf import short
from laydown.reader.raw_reading import Faults, Lab, RawReading, Spot, digits
from laydown.schema.reading import COATS, KNOWN_ANGLES_DEG, LAB_AB, LAB_L, NAME, ReadingMap, Spectrum

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
