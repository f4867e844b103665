"""How many effect coats, how sure that is, and what the let-down panel said."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.choices import FieldJudgement
from laydown.schema.message import Saying

ColourWord = Literal[
    "ground_unchecked",
    "ground_wrong",
    "beyond_panel",
    "below_ground",
    "no_fit",
    "either",
    "undecided",
    "clear",
    "no_panel",
]
"""What is known of the number of effect coats."""

ComparedBy = Literal["nobody", "eye", "instrument", "instrument and eye"]
"""How the let-down panel was compared with the car."""


@dataclass(frozen=True, slots=True)
class HalfChance:
    """Chance that a half coat is the nearest one."""

    coats: float
    chance: float


@dataclass(frozen=True, slots=True)
class ZoneVerdict:
    """What the panel says of one zone of the car.

    Attributes
    ----------
    zone
        Name of the zone; empty where the whole side was judged.
    verdict
        What is known.
    coats
        The half coat to order; None where no number is given.
    mean, low, high
        Mean and middle 90 % of the number of coats; None where no number can be had.
    chances
        Every half coat with a chance of one in a hundred or more.
    worst_de, worst_angle_deg
        Largest CIEDE2000 between car and panel at the best number, and the angle where it is [deg].
    differs
        What is left there in words, such as "0.8 lighter".
    joins_with
        Other zones that may share the count.
    reason, next_step
        Why, and what to do next.
    """

    zone: str
    verdict: ColourWord
    coats: float | None
    mean: float | None
    low: float | None
    high: float | None
    chances: tuple[HalfChance, ...]
    worst_de: float | None
    worst_angle_deg: float | None
    differs: Saying
    joins_with: tuple[str, ...]
    reason: Saying
    next_step: Saying


@dataclass(frozen=True, slots=True)
class PanelField:
    """One field of the panel: its coats, and what the eye said of it at face and flop."""

    coats: float
    face: FieldJudgement | None = None
    flop: FieldJudgement | None = None


@dataclass(frozen=True, slots=True)
class AngleColour:
    """One colour at one angle: CIELAB, and for how many coats it counts where that is known."""

    coats: float | None
    zone: str
    lab: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class AngleCurve:
    """How the panel moves with coats at one aspecular angle [deg].

    Attributes
    ----------
    angle_deg
        The angle.
    curve
        Points of the curve, coats rising.
    fields
        The fields as read.
    car
        Each zone of the car.
    ordered
        What the ordered count will look like over the car's own ground coat; None without a count.
    difference
        CIEDE2000 from `ordered` to the car's deciding zone.
    """

    angle_deg: float
    curve: tuple[AngleColour, ...]
    fields: tuple[AngleColour, ...]
    car: tuple[AngleColour, ...]
    ordered: AngleColour | None
    difference: float | None


@dataclass(frozen=True, slots=True)
class PanelEvidence:
    """The let-down panel as it was read.

    Attributes
    ----------
    fields
        Fields in the order of coats.
    curves
        One for each angle; empty where the eye judged.
    illuminant, observer
        Of all values; empty and 0 where the eye judged.
    ground_de
        CIEDE2000 between the grounds of car and panel, mean over 25 to 75 degrees; None where not read.
    """

    fields: tuple[PanelField, ...]
    curves: tuple[AngleCurve, ...] = ()
    illuminant: str = ""
    observer: int = 0
    ground_de: float | None = None


@dataclass(frozen=True, slots=True)
class ColourVerdict:
    """How many effect coats, and how sure that is.

    Attributes
    ----------
    verdict
        What is known.
    effect_coats
        The count that is planned.
    low, high
        Middle 90 %, or the range of the sheet where no panel decides.
    provisional
        Whether the count may not be relied on.
    reason, next_step
        Why, and what to do next.
    read_by
        How the panel was compared.
    zone
        Zone whose count is planned; empty where there is only one.
    film_factor
        Film of a coat of the plan over that of a coat of the panel; None where the panel's is not known.
    panel_coats
        The count in coats of the panel; other than `effect_coats` where the films differ.
    zones
        Each zone of the car that was judged.
    evidence
        The panel as it was read; None without one.
    """

    verdict: ColourWord
    effect_coats: float | None
    low: float
    high: float
    provisional: bool
    reason: Saying
    next_step: Saying
    read_by: ComparedBy = "nobody"
    zone: str = ""
    film_factor: float | None = None
    panel_coats: float | None = None
    zones: tuple[ZoneVerdict, ...] = ()
    evidence: PanelEvidence | None = None


@dataclass(frozen=True, slots=True)
class UndercoatChoice:
    """An undercoat under this ground coat.

    Attributes
    ----------
    lightness
        CIE L*.
    coats
        Half coats until it is hidden; None where eight do not hide it.
    first_step_de
        What the first coat changes, CIEDE2000.
    blind_from_coat
        First coat that cannot be seen any more.
    best
        Whether laydown would lay this one: fewest coats among those on which the first coat is seen.
    """

    lightness: float
    coats: float | None
    first_step_de: float
    blind_from_coat: int | None
    best: bool


@dataclass(frozen=True, slots=True)
class HidingVerdict:
    """How many ground coats hide, and from which coat on the painter sprays blind.

    Attributes
    ----------
    ground_coats, low, high
        The count and its range.
    blind_from_coat
        First coat that changes less than the eye sees.
    worst_panel
        Panel whose undercoat decides.
    steps_de
        What each coat changes, CIEDE2000.
    reason
        Why.
    rest_de
        What is still missing to full hiding after each coat, CIEDE2000.
    islands_de
        How far the darkest undercoat still stands out from the lightest after 0, 1, 2 ... coats and at last after the
        planned count, CIEDE2000; empty where all undercoats are alike.
    card_contrast
        Contrast ratio over a black and white card after the planned coats; 0.98 is the usual mark.
    undercoats
        What other undercoats would cost and give.
    """

    ground_coats: float
    low: float
    high: float
    blind_from_coat: int | None
    worst_panel: str
    steps_de: tuple[float, ...]
    reason: Saying
    rest_de: tuple[float, ...] = ()
    islands_de: tuple[float, ...] = ()
    card_contrast: float | None = None
    undercoats: tuple[UndercoatChoice, ...] = ()


@dataclass(frozen=True, slots=True)
class AngleAppearance:
    """How the effect film looks over the side at one angle.

    Attributes
    ----------
    angle_deg
        Aspecular angle [deg].
    de_p95
        One twentieth of the area differs by more from the wanted colour, CIEDE2000.
    share_above_half, share_above_1, share_above_2
        Share of the area that differs by more than 0.5, 1 and 2.
    thinner_share, thicker_share
        By which share the film may be thinner and thicker before 0.5 is reached; None where it never is.
    """

    angle_deg: float
    de_p95: float
    share_above_half: float
    share_above_1: float
    share_above_2: float
    thinner_share: float | None
    thicker_share: float | None


@dataclass(frozen=True, slots=True)
class JoinContrast:
    """How far the strip of a join stands out from the areas beside it, CIEDE2000 at its worst angle [deg]."""

    join: str
    feature: str
    de: float
    angle_deg: float


@dataclass(frozen=True, slots=True)
class Appearance:
    """How the effect film differs over the side, from the film alone."""

    de_p95: float | None
    share_above_1: float | None
    worst_join: str | None
    label: Saying
    angles: tuple[AngleAppearance, ...] = ()
    joins: tuple[JoinContrast, ...] = ()
