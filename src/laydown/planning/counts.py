"""How many coats: hiding of the ground coat, count of the effect coat, and what each coat consists of."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from laydown.physics.hiding import absorption_for, steps_de
from laydown.planning.count_findings import BLIND_DE, colour_findings, hiding_findings
from laydown.planning.paint import Paint, bands_of
from laydown.schema.colour import ColourVerdict, ColourWord, HidingVerdict
from laydown.schema.choices import Choices, Sample
from laydown.schema.coat import Part
from laydown.schema.finding import Finding
from laydown.schema.panel import PanelWork

HIDDEN_DE = 0.5
"""Difference to full hiding that is not seen any more, CIEDE2000; a choice, 0.3 strict, 1.0 quick."""

THIN_Z = 1.645
"""Standard deviations below the mean of the thin twentieth of the film; definition."""

_LIGHTNESS = {"white": 92.0, "light grey": 76.0, "dark grey": 45.0, "black": 25.0}
"""CIE L* of undercoats in words; common practice, no source."""

UNKNOWN_LIGHTNESS = 70.0
"""CIE L* taken where the job names no undercoat; common practice, no source."""

MOST_COATS = 6.0
"""Most ground coats that are tried; beyond it another undercoat is the answer."""


@dataclass(frozen=True, slots=True)
class CoatPlan:
    """One coat: what it consists of and for how many coats it counts."""

    part: Part
    counts: float


def undercoat_of(panel: PanelWork) -> tuple[float, float, float, str]:
    """Return CIE L* of the undercoat, its low and high end, and where it comes from.

    Parameters
    ----------
    panel
        The panel.

    Returns
    -------
    L*, low, high, source.

    Sources
    -------
    The job; words and the unknown case: common practice, no source.
    """
    if panel.undercoat_lightness is not None:
        figure = panel.undercoat_lightness
        low = figure.low if figure.low is not None else figure.value
        high = figure.high if figure.high is not None else figure.value
        return figure.value, low, high, figure.source
    if panel.undercoat is not None:
        value = _LIGHTNESS[panel.undercoat]
        return value, value - 8.0, min(100.0, value + 5.0), f"the word {panel.undercoat}"
    return UNKNOWN_LIGHTNESS, 45.0, 85.0, "not given: taken as a middle grey"


def composition(coats: float, layer: str) -> tuple[CoatPlan, ...]:
    """Return what a number of coats consists of.

    Parameters
    ----------
    coats
        Coats in halves, at least 0.5.
    layer
        "ground", "effect" or "clear".

    Returns
    -------
    Coats in order. Closed and light together are a coat and a half; a further closed coat counts for one; on the
    effect coat a light one, wet on wet, for a half.

    Sources
    -------
    Common practice, no source.
    """
    if layer == "clear":
        return tuple(CoatPlan("closed", 1.0) for _ in range(max(1, round(coats))))
    halves = max(1, round(coats * 2.0))
    fulls, rest = divmod(halves, 3)
    if halves == 1:
        return (CoatPlan("light", 0.5),)
    if rest == 1 and layer == "ground":
        fulls, closed, light = fulls - 1, 2, 0
    else:
        closed, light = (1, 0) if rest == 2 else (0, rest)
    return (
        *(CoatPlan("full", 1.5) for _ in range(fulls)),
        *(CoatPlan("closed", 1.0) for _ in range(closed)),
        *(CoatPlan("light", 0.5) for _ in range(light)),
    )


def _coats_to_hide(lightness: float, paint: Paint, film_um: float, strength: float) -> float:
    """Half coats until the difference to full hiding is not seen any more."""
    hiding, endless, scattering, _ = bands_of(paint.product)
    s = np.asarray(scattering, np.float64) * strength
    k = np.asarray(hiding.absorption_per_um) if hiding is not None else absorption_for(np.asarray(endless), s)
    halves = np.arange(1, round(MOST_COATS * 2) + 1)
    _, rest = steps_de(lightness, k, s, np.asarray(halves * film_um / 2.0, np.float64))
    hidden = np.flatnonzero(rest <= HIDDEN_DE)
    return float(halves[hidden[0]]) / 2.0 if hidden.size else math.inf


def _steps(lightness: float, paint: Paint, film_um: float, coats: int) -> tuple[float, ...]:
    """What each whole coat changes, CIEDE2000."""
    hiding, endless, scattering, _ = bands_of(paint.product)
    s = np.asarray(scattering, np.float64)
    k = np.asarray(hiding.absorption_per_um) if hiding is not None else absorption_for(np.asarray(endless), s)
    steps, _ = steps_de(lightness, k, s, np.asarray(np.arange(1, coats + 1) * film_um, np.float64))
    return tuple(round(float(step), 3) for step in steps)


def _whole(coats: float, paint: Paint) -> float:
    """Coats in the steps that closed and light passes allow, never below the sheet's least."""
    least = max(coats, paint.coats_min)
    if not math.isfinite(least):
        return MOST_COATS
    # A lone half coat on a dried ground is not closed, so 2 becomes 2.5: a coat and a half, and one more.
    return 2.5 if least == 2.0 else least


def hiding_of(
    panels: Sequence[tuple[str, PanelWork]], paint: Paint, film: tuple[float, float], choices: Choices
) -> tuple[HidingVerdict, tuple[Finding, ...]]:
    """Return how many ground coats hide, on the thin part of the film over the hardest undercoat.

    Parameters
    ----------
    panels
        Label and work of every panel that gets ground coat; at least one.
    paint
        The ground coat.
    film
        Dry film of one coat [µm] and its coefficient of variation.
    choices
        A count the user fixed is kept and judged.

    Returns
    -------
    The verdict and its findings.

    Notes
    -----
    Film of the thin twentieth::

        x = film * (1 - 1.645 * cv)                                             (1)

    Sources
    -------
    Kubelka-Munk (``laydown.physics.hiding``); end point: dE00 of at most 0.5 to full hiding over the real undercoat.
    """
    film_um, cv = film
    thin = film_um * max(0.3, 1.0 - THIN_Z * cv)
    hiding, _, _, source = bands_of(paint.product)
    weak, strong = (hiding.low_factor, hiding.high_factor) if hiding is not None else (0.68, 1.4)
    needs = {}
    for label, work in panels:
        lightness, low, high, _ = undercoat_of(work)
        middle = _coats_to_hide(lightness, paint, thin, 1.0)
        ends = [
            _coats_to_hide(end, paint, thin, factor)
            for end in {low, high, lightness}
            for factor in (weak, strong)
        ]
        needs[label] = (middle, min(ends), max(ends), lightness)
    worst = max(needs, key=lambda label: (needs[label][0], needs[label][2]))
    middle, low, high, lightness = needs[worst]
    computed = _whole(middle, paint)
    count = choices.ground_coats if choices.ground_coats is not None else computed
    steps = _steps(lightness, paint, film_um, max(2, math.ceil(count)))
    blind = next((index for index, step in enumerate(steps, start=1) if step < BLIND_DE), None)
    reason = (
        f"over L* {lightness:.0f} ({worst}) the thin twentieth of the film, {thin:.1f} µm a coat, "
        f"needs {middle:g} coats to hide ({source})"
        if math.isfinite(middle)
        else f"over L* {lightness:.0f} ({worst}) {MOST_COATS:g} coats do not hide"
    )
    verdict = HidingVerdict(
        count,
        max(_whole(low, paint), paint.coats_min),
        min(max(_whole(high, paint), count), MOST_COATS),
        blind,
        worst,
        steps,
        reason,
    )
    return verdict, tuple(hiding_findings(verdict, computed, paint, choices))


def colour_of(sample: Sample, choices: Choices, paint: Paint) -> tuple[ColourVerdict, tuple[Finding, ...]]:
    """Return the count of effect coats, provisional without a let-down panel.

    Parameters
    ----------
    sample
        What is known of the let-down panel.
    choices
        A count the user fixed is kept.
    paint
        The effect coat, for the sheet's range.

    Returns
    -------
    The verdict and its findings. A ground coat that is off gets no count of laydown's own.

    Sources
    -------
    The sheet; common practice, no source: two to four coats of pearl, and no count without a let-down panel.
    """
    fixed = choices.effect_coats
    low, high = paint.coats_min, paint.coats_max
    panel = bool(sample.readings or sample.face or sample.flop)
    kind: ColourWord
    if sample.ground_check == "off":
        kind, step = (
            "ground_wrong",
            "choose another ground variant and spray a new let-down panel; do not change the effect count",
        )
    elif panel and sample.ground_check == "not done":
        kind, step = "ground_unchecked", "compare field 0 of the panel with the car's bare ground coat first"
    else:
        kind, step = "no_panel", "spray a let-down panel with fields of 0 to 5 coats and clear half of it"
    count = fixed if fixed is not None else low
    if fixed is not None:
        reason = f"{fixed:g} coats as fixed by the user; the sheet allows {low:g} to {high:g}"
        low, high = min(low, fixed), max(high, fixed)
    else:
        reason = f"no let-down panel decides: the sheet's least, range {low:g} to {high:g}; too few can be added, too many not taken off"
    verdict = ColourVerdict(
        kind,
        count,
        fixed if fixed is not None else low,
        fixed if fixed is not None else high,
        provisional=fixed is None,
        reason=reason,
        next_step=step,
    )
    return verdict, tuple(colour_findings(verdict, paint, fixed, panel=panel))
