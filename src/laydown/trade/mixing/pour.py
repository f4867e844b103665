"""The mix sheet: running totals for the scale, and what to do when too much went in.

Sources: proportions of a recipe; definition. Tolerances: common practice, no source.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from laydown.schema.message import Message, Name, Saying, message
from laydown.schema.product import LineRole, RecipeLine

PourDecision = Literal["leave", "scoop back", "scale up", "bin"]
"""What to do after a pour: nothing, take back pure colour, pour the rest to match, or start again."""

HARDENER_TOLERANCE = 0.02
"""Accepted relative error of a hardener line, 0 to 1. Common practice, no source; the sheet wins."""

OTHER_TOLERANCE = 0.03
"""Accepted relative error of any other line, 0 to 1. Common practice, no source; the sheet wins."""

_NUDGE = 1e-9
"""Share of one step of the scale by which a half counts as reached: 0.35 / 0.1 is 3.4999… in binary."""


@dataclass(frozen=True, slots=True)
class PourStep:
    """One line of the mix sheet.

    Attributes
    ----------
    step_g
        What this line adds on the scale [g].
    running_g
        What the scale shows after it, tared once at the start [g].
    """

    step_g: float
    running_g: float


@dataclass(frozen=True, slots=True)
class Correction:
    """How to pour on so that the ratios are right again.

    Attributes
    ----------
    factor
        New size of the batch over the planned one, 1 or more.
    target_g
        New total of each line [g].
    add_g
        What each line still needs [g].
    extra_g
        How much more mix there will be than planned [g].
    """

    factor: float
    target_g: tuple[float, ...]
    add_g: tuple[float, ...]
    extra_g: float


@dataclass(frozen=True, slots=True)
class PourRoom:
    """What the job and the cup can take.

    Attributes
    ----------
    usable_extra_g
        Mix beyond the plan that the job can still use [g].
    cup_g
        Most the mixing cup holds [g].
    reading_error_g
        Worst error of one pour as read on the scale [g].
    """

    usable_extra_g: float
    cup_g: float
    reading_error_g: float = 0.1


@dataclass(frozen=True, slots=True)
class PourVerdict:
    """The advice after a pour.

    Attributes
    ----------
    decision
        What to do.
    correction
        The figures behind it; its factor is 1 where nothing need change.
    clock_running
        Whether hardener has touched the mix: the pot life counts from that first contact.
    text
        The advice in plain words.
    """

    decision: PourDecision
    correction: Correction
    clock_running: bool
    text: Saying


def pour_sheet(masses_g: Sequence[float], resolution_g: float = 0.1) -> tuple[PourStep, ...]:
    """Round a list of grams to what the scale can show, without letting the errors add up.

    Parameters
    ----------
    masses_g
        Grams of each line in pouring order, 0 or more [g].
    resolution_g
        Smallest step of the scale, greater than 0 [g].

    Returns
    -------
    Step and running total of each line.

    Raises
    ------
    ValueError
        If the resolution is not above 0, or a mass is negative or not finite.

    Notes
    -----
    With S the exact running total and r the resolution::

        n = floor(S / r + 1/2)                                        (1)
        running = n r,  step = (n - n_before) r                       (2)

    The running total is within r/2 of the exact one and each step within r, whatever the number of lines.
    Tare once: taring between lines would bring the added-up errors back.
    """
    if not resolution_g > 0.0:
        raise ValueError("resolution_g must be above 0")
    if any(not (math.isfinite(mass) and mass >= 0.0) for mass in masses_g):
        raise ValueError("masses_g must be finite and 0 or more")
    steps = []
    count_before = 0
    for end in range(1, len(masses_g) + 1):
        running = math.fsum(masses_g[:end])
        count = math.floor(running / resolution_g + 0.5 + _NUDGE)
        steps.append(
            PourStep(round((count - count_before) * resolution_g, 6), round(count * resolution_g, 6))
        )
        count_before = count
    return tuple(steps)


def weighing_tolerance(role: LineRole, target_g: float, reading_error_g: float = 0.0) -> float:
    """Return the accepted relative error of one line, 0 to 1, never tighter than the scale can show.

    Parameters
    ----------
    role
        What the line does in the mix.
    target_g
        Its planned grams [g].
    reading_error_g
        Worst error of one pour as read on the scale [g].
    """
    wanted = HARDENER_TOLERANCE if role == "hardener" else OTHER_TOLERANCE
    return max(wanted, reading_error_g / target_g) if target_g > 0.0 else wanted


def overpour(target_g: Sequence[float], poured_g: Sequence[float]) -> Correction:
    """Return how to pour on after one or more lines went over, so that every ratio is the recipe's again.

    Parameters
    ----------
    target_g
        Planned grams of each line, in pouring order [g].
    poured_g
        Grams poured so far; may be shorter than the plan [g].

    Returns
    -------
    The smallest batch that holds what is in the cup. Lines that are still short do not enlarge it.

    Raises
    ------
    ValueError
        If more lines were poured than planned, or a line planned at 0 was poured.

    Notes
    -----
    With t the targets and p what was poured::

        s = max(1, max p_i / t_i)                                     (1)
        add_i = s t_i - p_i,  extra = (s - 1) sum t                   (2)
    """
    if len(poured_g) > len(target_g):
        raise ValueError("poured_g must not have more lines than target_g")
    if any(poured > 0.0 and not planned > 0.0 for planned, poured in zip(target_g, poured_g, strict=False)):
        raise ValueError("poured_g holds a line that target_g plans at 0")
    ratios = [poured / planned for planned, poured in zip(target_g, poured_g, strict=False) if planned > 0.0]
    factor = max([1.0, *ratios])
    padded = [*poured_g, *([0.0] * (len(target_g) - len(poured_g)))]
    targets = tuple(factor * planned for planned in target_g)
    adds = tuple(max(0.0, target - poured) for target, poured in zip(targets, padded, strict=True))
    return Correction(factor, targets, adds, (factor - 1.0) * math.fsum(target_g))


def judge_pour(
    lines: Sequence[RecipeLine], target_g: Sequence[float], poured_g: Sequence[float], room: PourRoom
) -> PourVerdict:
    """Say in plain words what to do after a pour.

    Parameters
    ----------
    lines
        The recipe, in pouring order.
    target_g, poured_g
        Planned grams of each line, and grams poured so far; may be shorter than the plan [g].
    room
        What the job and the cup can take.

    Returns
    -------
    The decision, the figures behind it and the words.

    Notes
    -----
    Within every line's tolerance: leave. Only the base colour is in the cup: it is still pure and may go
    back. Otherwise never scoop from a mix: what is taken out has the mix's composition and the surplus
    stays. Pour on in proportion, or start again if the surplus is more than the job can use or the cup
    can hold. Whatever has met hardener never returns to a tin.

    Sources
    -------
    Arithmetic; the order of choices is common practice, no source.
    """
    over = [
        Name(line.name)
        for line, planned, poured in zip(lines, target_g, poured_g, strict=False)
        if poured > planned * (1.0 + weighing_tolerance(line.role, planned, room.reading_error_g))
    ]
    clock = any(
        poured > 0.0 and line.role == "hardener" for line, poured in zip(lines, poured_g, strict=False)
    )
    decision, text, correction = _choice(over, target_g, poured_g, room)
    if clock:
        text = message("parts", parts=(text, message("pour.hardener-is-in")))
    return PourVerdict(decision, correction, clock, text)


def _choice(
    over: Sequence[Name], target_g: Sequence[float], poured_g: Sequence[float], room: PourRoom
) -> tuple[PourDecision, Message, Correction]:
    """Decision, words and figures, before the hardener's warning."""
    correction = overpour(target_g, poured_g)
    if not over:
        zero = overpour(target_g, [min(*pair) for pair in zip(target_g, poured_g, strict=False)])
        return "leave", message("pour.leave"), zero
    lines, extra_g = tuple(over), correction.extra_g
    if sum(1 for poured in poured_g if poured > 0.0) == 1 and poured_g[0] > 0.0:
        back_g = poured_g[0] - target_g[0]
        return (
            "scoop back",
            message("pour.scoop-back", lines=lines, back_g=back_g, extra_g=extra_g),
            correction,
        )
    total = correction.factor * math.fsum(target_g)
    if total > room.cup_g:
        return "bin", message("pour.more-than-the-cup-holds", lines=lines, extra_g=extra_g), correction
    if extra_g > room.usable_extra_g:
        return "bin", message("pour.more-than-the-job-uses", lines=lines, extra_g=extra_g), correction
    return "scale up", message("pour.scale-up", lines=lines, extra_g=extra_g), correction
