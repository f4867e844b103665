"""What a table of spectral weights is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Literal

from laydown.schema.figure import TextLength, Within
from laydown.schema.message import Saying, message

ReadingRole = Literal["field", "ground_ref", "car"]
"""What was read: a field of the let-down panel, the bare ground coat beside it, or the car."""

ROLES: tuple[ReadingRole, ...] = ("field", "ground_ref", "car")
"""Every role; definition."""

KNOWN_ANGLES_DEG = (-15.0, 15.0, 25.0, 45.0, 75.0, 110.0)
"""Aspecular angles of the usual multi-angle instruments [deg]; ASTM E2194 and E2539, from memory."""

ILLUMINANTS = ("A", "B", "C", "D50", "D55", "D60", "D65", "D75", "E", *(f"F{n}" for n in range(1, 13)))
"""Names of CIE standard illuminants that a reading may carry; CIE 15, from memory."""

OBSERVERS = (2, 10)
"""Fields of view of the two CIE standard observers [deg]; CIE 15, from memory."""

LAB_L = Within(0.0, 250.0, message("lightness-of-a-reading"))
"""L* of a reading; above 100 is legal, because the reference white is diffuse. Upper end: assumption."""

LAB_AB = Within(-200.0, 200.0, message("check-signs-and-columns"))
"""a* and b* of a reading; assumption, beyond every surface colour."""

COATS = Within(0.0, 20.0, message("count-coats"))
"""Effect coats on a field; assumption."""

NAME = TextLength(60)
"""Panel, zone and sample names."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One colour at one angle.

    Attributes
    ----------
    panel
        Name of the let-down panel the reading belongs to.
    role
        What was read.
    coats
        Effect coats under the instrument, 0 to 20 in any fraction; 0 on the ground reference, none on the car.
    zone
        Place on the car or panel in the reader's words; may be empty.
    number
        Which of the repeated readings of the same spot, from 1.
    angle_deg
        Aspecular angle: from the mirror direction, positive toward the normal [deg]. One of
        `KNOWN_ANGLES_DEG`, or one that the user has allowed.
    lab_l
        CIE L*, 0 to 250; above 100 is legal near the gloss.
    lab_a, lab_b
        CIE a* and b*, -200 to 200.
    illuminant
        CIE illuminant of the three values, one of `ILLUMINANTS`.
    observer
        Field of view of the CIE observer, 2 or 10 [deg].
    """

    panel: Annotated[str, NAME]
    role: ReadingRole
    coats: Annotated[float, COATS] | None
    zone: Annotated[str, NAME]
    number: Annotated[int, Within(1, 999)]
    angle_deg: Annotated[float, Within(-90, 180)]
    lab_l: Annotated[float, LAB_L]
    lab_a: Annotated[float, LAB_AB]
    lab_b: Annotated[float, LAB_AB]
    illuminant: str = "D65"
    observer: int = 10


@dataclass(frozen=True, slots=True)
class Spectrum:
    """Reflectance over wavelength at even steps.

    Attributes
    ----------
    start_nm
        First wavelength [nm], 200 to 1100.
    increment_nm
        Step [nm], above 0 to 50.
    factors
        Reflectance factors, 1 = perfect diffuser; effect paint near the gloss may exceed 1.
    """

    start_nm: float
    increment_nm: float
    factors: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class SpectralReading:
    """One spectrum at one angle, not yet turned into L*, a*, b*.

    Attributes
    ----------
    panel, role, coats, zone, number, angle_deg
        As in `Reading`.
    spectrum
        What was read.
    """

    panel: Annotated[str, NAME]
    role: ReadingRole
    coats: Annotated[float, COATS] | None
    zone: Annotated[str, NAME]
    number: Annotated[int, Within(1, 999)]
    angle_deg: Annotated[float, Within(-90, 180)]
    spectrum: Spectrum


@dataclass(frozen=True, slots=True)
class Understood:
    """How a part of a file was understood; what was not said outright waits to be confirmed.

    Attributes
    ----------
    where
        Line, object or table of the file.
    what
        In words, such as "'field 2 as45': field with 2 effect coats; 45 deg".
    confirmed
        Whether the user said so; False asks to be looked at before the readings are used.
    left_out
        Whether the part is left out.
    """

    where: str
    what: Saying
    confirmed: bool
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class Readings:
    """Everything one file holds.

    Attributes
    ----------
    source
        Name of the file.
    readings
        In the order of the file; all of one illuminant and observer.
    spectra
        Spectra of spots and angles for which the file holds no L*, a*, b*.
    understood
        How the file was understood, in its order; empty for the program's own table.
    """

    source: str
    readings: tuple[Reading, ...]
    spectra: tuple[SpectralReading, ...] = ()
    understood: tuple[Understood, ...] = ()


@dataclass(frozen=True, slots=True)
class SpotRead:
    """A place that was read.

    Attributes
    ----------
    panel, role, coats, zone
        As in a reading; the car belongs to no panel.
    lab
        L*, a*, b* by aspecular angle [degrees], rising.
    count
        Readings that count at the angles every place was read at; where there are none, the most at any angle.
    dropped
        Numbers of the readings that lie far off and do not count.
    idle_deg
        Angles that do not count, because another place was not read at them [degrees].
    """

    panel: str
    role: ReadingRole
    coats: float | None
    zone: str
    lab: Mapping[float, tuple[float, float, float]]
    count: int
    dropped: tuple[int, ...]
    idle_deg: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Columns:
    """Which column of the file holds what; what is left out has its usual name.

    Attributes
    ----------
    panel, role, coats, zone, reading
        Columns of a table that says what was read.
    angle
        Column of the aspecular angle [deg].
    lightness, a, b
        Columns of L*, a* and b*.
    illuminant, observer
        Columns of the conditions.
    sample
        Column of a sample name, instead of panel, role, coats, zone and reading.
    """

    panel: Annotated[str, NAME] | None = None
    role: Annotated[str, NAME] | None = None
    coats: Annotated[str, NAME] | None = None
    zone: Annotated[str, NAME] | None = None
    reading: Annotated[str, NAME] | None = None
    angle: Annotated[str, NAME] | None = None
    lightness: Annotated[str, NAME] | None = None
    a: Annotated[str, NAME] | None = None
    b: Annotated[str, NAME] | None = None
    illuminant: Annotated[str, NAME] | None = None
    observer: Annotated[str, NAME] | None = None
    sample: Annotated[str, NAME] | None = None


@dataclass(frozen=True, slots=True)
class SampleMeaning:
    """What a sample name of the file stands for.

    Attributes
    ----------
    name
        As in the file, with or without its angle and reading number; capitals do not count.
    role
        What was read.
    coats
        Effect coats on a field; left out otherwise.
    zone
        Place in words.
    panel
        Name of the panel, if it is not that of the whole file.
    """

    name: Annotated[str, NAME]
    role: ReadingRole
    coats: Annotated[float, COATS] | None = None
    zone: Annotated[str, NAME] = ""
    panel: Annotated[str, NAME] | None = None


@dataclass(frozen=True, slots=True)
class ReadingMap:
    """How the files of one measuring program are understood; written once and kept.

    Attributes
    ----------
    format
        Always "laydown-readings/1".
    panel
        Name of the panel where the file does not name one.
    illuminant
        Illuminant of values that name none; of values that name several, the one that is taken.
    observer
        Observer, 2 or 10, in the same way.
    angles_deg
        Aspecular angles, one for each table with colours, in the order of the file.
    other_angles_deg
        Angles to accept besides -15, 15, 25, 45, 75 and 110.
    spectra
        Whether spectra are factors (white is 1) or per cent (white is 100).
    columns
        Columns with other names.
    sample
        Sample names and what they stand for.
    ignore
        Sample names to leave out, such as the white tile.
    confirmed
        Whether what was understood from names has been looked at and is right.
    """

    format: Literal["laydown-readings/1"] = "laydown-readings/1"
    panel: Annotated[str, NAME] = "panel"
    illuminant: Annotated[str, NAME] | None = None
    observer: Annotated[int, Within(2, 10, message("write-2-or-10"))] | None = None
    angles_deg: tuple[Annotated[float, Within(-90, 180)], ...] = ()
    other_angles_deg: tuple[Annotated[float, Within(-90, 180)], ...] = ()
    spectra: Literal["factor", "percent"] | None = None
    columns: Columns = field(default_factory=Columns)
    sample: tuple[SampleMeaning, ...] = ()
    ignore: tuple[Annotated[str, NAME], ...] = ()
    confirmed: bool = False


@dataclass(frozen=True, slots=True)
class SpectralWeights:
    """Weights that turn a spectrum into X, Y and Z under one light for one observer; a perfect white has Y = 1."""

    illuminant: str
    observer_deg: int
    from_nm: float
    step_nm: float
    x: tuple[float, ...]
    y: tuple[float, ...]
    z: tuple[float, ...]
