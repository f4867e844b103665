"""What happened at the booth, line by line, and what to show now."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.message import Saying
from laydown.schema.product import LayerName

EventKind = Literal[
    "mixed",
    "begin",
    "next",
    "refill",
    "hold",
    "earlier",
    "matt",
    "not_yet",
    "answer",
    "release",
    "release_anyway",
    "done",
    "weighed",
    "defect",
    "replan",
    "note",
    "close",
    "undo",
]
"""What a tap says.

mixed: the mix of a layer stands ready. begin: first stroke, or metal at temperature. next: the next section begins,
after the last one the coat ends. refill, hold: the section has ended and the painter stands at its end. earlier: the
last tap came some seconds late. matt, not_yet: the flash. answer, release, release_anyway: a gate. done: any other
step. weighed, defect, replan, note, close: kept in the log. undo: takes back another tap.
"""


@dataclass(frozen=True, slots=True)
class Event:
    """One tap; never changed, never taken out of the log.

    Attributes
    ----------
    id
        Made by whoever tapped; the same tap sent twice has the same id.
    at_s
        When, seconds since 1970 in UTC.
    kind
        What was said.
    step
        Step of the timeline it was meant for, as the screen showed it; empty = whichever is at hand.
    section
        Section it was meant for, from 1; 0 = whichever is at hand.
    layer
        Layer of a mix.
    item, yes
        Question of a gate, from 0, and its answer.
    seconds_s
        How much earlier it was [s].
    weight_g
        What the cup weighs less its own weight [g].
    text
        Name behind a release, key of a defect, id of a new plan, a note.
    target
        Id of the tap that an undo takes back.
    """

    id: str
    at_s: float
    kind: EventKind
    step: str = ""
    section: int = 0
    layer: LayerName | None = None
    item: int = 0
    yes: bool = False
    seconds_s: float = 0.0
    weight_g: float = 0.0
    text: str = ""
    target: str = ""


@dataclass(frozen=True, slots=True)
class Session:
    """The log of one job; it only grows.

    Attributes
    ----------
    plan_id
        Plan it began with; a later plan stands in an event.
    events
        Taps in the order they were received.
    """

    plan_id: str
    events: tuple[Event, ...] = ()


Tone = Literal["go", "caution", "stop"]
"""How the whole screen is coloured; never the only sign."""

Sign = Literal[
    "ready",
    "spray",
    "wet",
    "tight",
    "dry",
    "refill",
    "hold",
    "flash",
    "look",
    "gate",
    "clock",
    "heat",
    "cool",
    "hand",
    "done",
    "other plan",
]
"""Shape on the screen, told apart without colour."""


@dataclass(frozen=True, slots=True)
class Button:
    """One button: what it says, and the tap it sends but for id and time.

    Attributes
    ----------
    text
        What stands on it.
    kind, step, section, layer, item, yes, seconds_s, target, says
        Fields of the event it makes; says is its text.
    main
        Whether it is the large one.
    asks_name
        Whether a name must be given first.
    """

    text: Saying
    kind: EventKind
    step: str = ""
    section: int = 0
    layer: LayerName | None = None
    item: int = 0
    yes: bool = False
    seconds_s: float = 0.0
    target: str = ""
    says: str = ""
    main: bool = False
    asks_name: bool = False


@dataclass(frozen=True, slots=True)
class Deadline:
    """A clock that runs: the screen counts to it by itself.

    Attributes
    ----------
    name
        What runs out or opens.
    at_s
        When, seconds since 1970 in UTC.
    text
        What it means now.
    tone
        How it stands now.
    near
        Whether it is near enough to be said aloud.
    """

    name: Saying
    at_s: float
    text: Saying
    tone: Tone
    near: bool


@dataclass(frozen=True, slots=True)
class Screen:
    """What to show now.

    Attributes
    ----------
    step, section, section_count
        Where the work stands; section 0 outside a coat.
    where
        The same in words, for the line "where was I".
    number_s
        The one number: seconds left, below 0 once past; None = no number.
    counts_to_s
        Instant it counts to, seconds since 1970 in UTC; None with no number.
    sentence, second
        What to do, and a second line that is empty when nothing is due.
    sign, tone
        Shape and colour.
    sound_count
        How many low tones: 0 none, 1 half, 2 the last ten seconds, 3 late.
    assertive
        Whether it must be read out at once.
    buttons
        What may be tapped, the main one first.
    deadlines
        Other clocks, the nearest first.
    undo
        Id of the tap that undo would take back; empty = none.
    """

    step: str
    section: int
    section_count: int
    where: Saying
    number_s: float | None
    counts_to_s: float | None
    sentence: Saying
    second: Saying
    sign: Sign
    tone: Tone
    sound_count: int
    assertive: bool
    buttons: tuple[Button, ...]
    deadlines: tuple[Deadline, ...]
    undo: str
