"""How many ground coats hide, from which on they are sprayed blind, and which undercoat would serve better."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from laydown.physics.colour.hiding import absorption_for, endless_reflectance, steps_de
from laydown.physics.colour.hiding_card import contrast_ratio, learn_scattering
from laydown.physics.colour.undercoat import choose_undercoat, island_steps, weigh_undercoats
from laydown.physics.values import Floats
from laydown.planning.setup.coat_parts import undercoat_of
from laydown.planning.setup.paint import Paint, bands_of
from laydown.schema.choices import Choices, PanelWork
from laydown.schema.colour import HidingVerdict, UndercoatChoice
from laydown.schema.message import Finding, Message, Name, Saying, message

SHOWS_DE = 0.5
"""Contrast between two undercoats from which it is still seen, CIEDE2000; a choice."""

BLIND_DE = 1.0
"""Difference a coat makes below which the painter does not see where he was, CIEDE2000; a choice."""

_LOOK_OR_LIGHTER = ("do.card-beside-panel", "do.lighter-undercoat")


def hiding_findings(verdict: HidingVerdict, computed: float, paint: Paint, choices: Choices) -> list[Finding]:
    """Return what there is to fear of the count of the ground coat.

    Source: Range of the sheet; blind spraying, islands: common practice, no source.
    """
    found = []
    if choices.ground_coats is not None and choices.ground_coats < computed:
        text = message("ground-not-hiding", coats=choices.ground_coats, panel=Name(verdict.worst_panel))
        ways = (message("do.plan-coats", coats=computed), *map(message, _LOOK_OR_LIGHTER))
        found.append(Finding("caution", "ground-not-hiding", "ground", text, verdict.reason, ways))
    if verdict.ground_coats > paint.coats_max:
        text = message("ground-beyond-sheet", coats=verdict.ground_coats, most=paint.coats_max)
        ways = tuple(map(message, ("do.undercoat-nearer", "do.spray-card", "do.ask-supplier")))
        found.append(Finding("caution", "ground-beyond-sheet", "ground", text, verdict.reason, ways))
    blind = verdict.blind_from_coat
    if blind is not None:
        text = message("blind", coat=blind)
        why = message("blind.why", difference=verdict.steps_de[blind - 1], seen_from=BLIND_DE)
        ways = tuple(map(message, ("do.count-strokes", "do.weigh-cup", "do.card-on-masking")))
        found.append(Finding("note", "blind", "ground", text, why, ways))
    return [*found, *_undercoat(verdict)]


def _undercoat(verdict: HidingVerdict) -> Iterator[Finding]:
    """What the undercoat costs: places that stand out, and coats that cannot be seen."""
    if verdict.islands_de and verdict.islands_de[-1] > SHOWS_DE:
        text = message("islands", coats=verdict.ground_coats)
        why = message("islands.why", difference=verdict.islands_de[-1], seen_from=SHOWS_DE)
        ways = tuple(map(message, ("do.islands-first", "do.one-undercoat", "do.look-at-card")))
        yield Finding("caution", "islands", "ground", text, why, ways)
    best = next((one for one in verdict.undercoats if one.best), None)
    if best is None or best.coats is None or verdict.blind_from_coat is None or verdict.blind_from_coat > 2:
        return
    text = message(
        "undercoat-choice", lightness=best.lightness, difference=best.first_step_de, coats=best.coats
    )
    why, ways = message("undercoat-choice.why"), (message("do.choose-undercoat-before"),)
    yield Finding("note", "undercoat-choice", "ground", text, why, ways)


HIDDEN_DE = 0.5
"""Difference to full hiding that is not seen any more, CIEDE2000; a choice, 0.3 strict, 1.0 quick."""

THIN_Z = 1.645
"""Standard deviations below the mean of the thin twentieth of the film; definition."""

MOST_COATS = 6.0
"""Most ground coats that are tried; beyond it another undercoat is the answer."""

UNDERCOATS = (92.0, 85.0, 78.0, 70.0, 50.0, 30.0)
"""CIE L* of the undercoats that are compared, white to dark grey; a choice."""

_WEAK, _STRONG = 0.68, 1.4
_GREEN = 1


@dataclass(frozen=True, slots=True)
class Covering:
    """How a ground coat hides."""

    absorption_per_um: Floats
    scattering_per_um: Floats
    weak: float
    strong: float
    source: Saying
    is_pigment: bool

    def at(self, factor: float) -> tuple[Floats, Floats]:
        """Return K and S with S moved by a factor."""
        return self.absorption_per_um * (factor if self.is_pigment else 1.0), self.scattering_per_um * factor


def covering_of(paint: Paint, film_um: float, card_gone_after: int | None) -> Covering:
    """Return how a ground coat hides, by its sheet or its colour, and by a hiding card if one was looked at."""
    hiding, endless, scattering, source = bands_of(paint.product)
    s = np.asarray(scattering, np.float64)
    if hiding is not None:
        k = np.asarray(hiding.absorption_per_um, np.float64)
        found = Covering(k, s, hiding.low_factor, hiding.high_factor, source, is_pigment=False)
    else:
        k = absorption_for(np.asarray(endless, np.float64), s)
        found = Covering(k, s, _WEAK, _STRONG, source, is_pigment=True)
    if card_gone_after is None:
        return found
    thick = float(endless_reflectance(found.absorption_per_um, s)[_GREEN])
    learnt = learn_scattering(card_gone_after, film_um, thick, float(s[_GREEN]))
    ratio = learnt.mean_per_um / float(s[_GREEN])
    return Covering(
        found.absorption_per_um * ratio,
        s * ratio,
        learnt.low_per_um / learnt.mean_per_um,
        learnt.high_per_um / learnt.mean_per_um,
        message("by-hiding-card", coat=card_gone_after),
        is_pigment=True,
    )


@lru_cache(maxsize=16)
def hiding_of(
    panels: tuple[tuple[str, PanelWork], ...],
    paint: Paint,
    film: tuple[float, float],
    choices: Choices,
    card_gone_after: int | None = None,
) -> tuple[HidingVerdict, tuple[Finding, ...]]:
    """Return how many ground coats hide, on the thin part of the film over the hardest undercoat.

    Film of the thin twentieth::

        x = film * (1 - 1.645 * cv)                                             (1)

    Source: Kubelka-Munk (``laydown.physics.colour.hiding``); end point: dE00 of at most 0.5 to full hiding
    over the real undercoat.
    """
    film_um, cv = film
    thin = film_um * max(0.3, 1.0 - THIN_Z * cv)
    covering = covering_of(paint, film_um, card_gone_after)
    needs = {label: _need(work, covering, thin) for label, work in panels}
    worst = max(needs, key=lambda label: (needs[label][0], needs[label][2]))
    middle, low, high, lightness = needs[worst]
    computed = _whole(middle, paint)
    count = choices.ground_coats if choices.ground_coats is not None else computed
    hides = message("coats-do-not-hide", lightness=lightness, panel=Name(worst), most=MOST_COATS)
    if math.isfinite(middle):
        hides = message(
            "coats-to-hide",
            lightness=lightness,
            panel=Name(worst),
            thin_um=thin,
            coats=middle,
            source=covering.source,
        )
    reason = message("reasons", reasons=(hides, *_more(middle, computed, paint)))
    verdict = HidingVerdict(
        count,
        max(_whole(low, paint), paint.coats_min),
        min(max(_whole(high, paint), count), MOST_COATS),
        None,
        worst,
        (),
        reason,
    )
    verdict = _seen(verdict, lightness, covering, (film_um, thin))
    verdict = replace(verdict, islands_de=_islands(needs, covering, thin, count))
    return verdict, tuple(hiding_findings(verdict, computed, paint, choices))


def _need(work: PanelWork, covering: Covering, thin_um: float) -> tuple[float, float, float, float]:
    """Coats that hide on a panel: middle, fewest, most; and its undercoat."""
    lightness, low, high, _ = undercoat_of(work)
    middle = _coats_to_hide(lightness, covering, thin_um, 1.0)
    ends = [
        _coats_to_hide(end, covering, thin_um, factor)
        for end in sorted({low, high, lightness})
        for factor in (covering.weak, covering.strong)
    ]
    return middle, min(ends), max(ends), lightness


def _coats_to_hide(lightness: float, covering: Covering, film_um: float, factor: float) -> float:
    """Half coats until the difference to full hiding is not seen any more."""
    halves = np.arange(1, round(MOST_COATS * 2) + 1)
    _, rest = steps_de(lightness, *covering.at(factor), np.asarray(halves * film_um / 2.0, np.float64))
    hidden = np.flatnonzero(rest <= HIDDEN_DE)
    return float(halves[hidden[0]]) / 2.0 if hidden.size else math.inf


def _whole(coats: float, paint: Paint) -> float:
    """Coats in the steps that full and light passes allow, never below the sheet's least."""
    least = max(coats, paint.coats_min)
    if not math.isfinite(least):
        return MOST_COATS
    # A lone half coat on a dried ground is not closed, so 2 becomes 2.5: a coat and a half, and one more.
    return 2.5 if least == 2.0 else least


def _more(needed: float, computed: float, paint: Paint) -> tuple[Message, ...]:
    """Why more is sprayed than hides; nothing where just as much is."""
    if not math.isfinite(needed) or computed <= needed:
        return ()
    return (
        message("sheet-asks-more" if computed == paint.coats_min else "half-coat-not-closed", coats=computed),
    )


def _seen(
    verdict: HidingVerdict, lightness: float, covering: Covering, films: tuple[float, float]
) -> HidingVerdict:
    """The verdict with what is seen coat by coat, on a card, and over other undercoats."""
    film_um, thin_um = films
    k, s = covering.at(1.0)
    coats = max(2, math.ceil(verdict.ground_coats))
    steps, rest = steps_de(lightness, k, s, np.asarray(np.arange(1, coats + 1) * film_um, np.float64))
    blind = next((index for index, step in enumerate(steps, start=1) if step < BLIND_DE), None)
    card = contrast_ratio(k[_GREEN], s[_GREEN], verdict.ground_coats * film_um)
    options = weigh_undercoats(UNDERCOATS, k, s, thin_um, HIDDEN_DE)
    best = choose_undercoat(options)
    return replace(
        verdict,
        blind_from_coat=blind,
        steps_de=tuple(round(float(step), 3) for step in steps),
        rest_de=tuple(round(float(one), 3) for one in rest),
        card_contrast=round(float(card), 4),
        undercoats=tuple(
            UndercoatChoice(
                one.lightness,
                one.coats if math.isfinite(one.coats) else None,
                round(one.first_step, 2),
                one.blind_from,
                one is best,
            )
            for one in options
        ),
    )


def _islands(
    needs: Mapping[str, tuple[float, float, float, float]], covering: Covering, thin_um: float, count: float
) -> tuple[float, ...]:
    """How far the darkest undercoat stands out from the lightest after each coat, the planned count last."""
    lightnesses = [need[3] for need in needs.values()]
    darkest, lightest = min(lightnesses), max(lightnesses)
    if lightest - darkest < 1.0:
        return ()
    k, s = covering.at(1.0)
    coats = np.append(np.arange(0.0, math.ceil(count)), count)
    found = island_steps(darkest, lightest, k, s, coats * thin_um)
    return tuple(round(float(one), 3) for one in found)
