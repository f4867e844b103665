"""The adjustment of each layer as a noun: what, why, and what came next."""

import math

from laydown.planning.layers.adjustments import Option, water_on_mix
from laydown.planning.layers.choice import Choice, Offer
from laydown.planning.layers.layer import LayerResult
from laydown.planning.setup.setup import Setup
from laydown.planning.setup.weights import SIMPLER_MINUTES
from laydown.schema.finding import Finding
from laydown.schema.plan import Adjustment, AdjustmentRunnerUp, Adjustments
from laydown.schema.product import Kind
from laydown.trade.mixing.paint_classes import MOST_WATER_SHARE


def option_words(option: Option) -> str:
    """Return an adjustment in words.

    Parameters
    ----------
    option
        The adjustment.

    Returns
    -------
    Such as "slow reducer, 5 % water, nozzle 1.3".

    Sources
    -------
    Definition.
    """
    water = f"{option.water * 100:.0f} % water" if option.water else "no extra water"
    hard = ", hardener" if option.hardener else ""
    return f"{option.reducer} reducer, {water}{hard}, nozzle {option.nozzle_mm:g}"


def _is_fixed(setup: Setup, layer: Kind) -> bool:
    """Whether the user fixed anything of it."""
    choices = setup.job.choices
    if layer == "clear":
        return False
    return any(one is not None for one in (choices.reducer, choices.water, choices.nozzle_mm)) or (
        layer == "ground" and choices.hardener is not None
    )


def _why(offer: Offer, choice: Choice, own_nozzle_mm: float) -> str:
    """Why an adjustment was chosen, with the figures that decided."""
    chosen = offer.options[choice.index]
    opening = float(offer.wetting.open_s[choice.index])
    words = f"the feathered edge stays open {opening:.0f} s"
    plain = next(
        (
            index
            for index, option in enumerate(offer.options)
            if (option.reducer, option.water) == ("standard", 0.0)
            and option.hardener == chosen.hardener
            and abs(option.nozzle_mm - own_nozzle_mm) < 1e-9
        ),
        None,
    )
    if plain is not None and plain != choice.index:
        before, after = (float(offer.total()[index]) for index in (plain, choice.index))
        words += (
            f", against {float(offer.wetting.open_s[plain]):.0f} s with the standard reducer and no water"
        )
        if math.isfinite(before) and math.isfinite(after):
            words += f"; it saves {before - after:.1f} minutes of work over that"
    elif plain == choice.index:
        words += "; nothing gains enough over the plain adjustment"
    if choice.kept_simple and choice.gain >= 0.05:
        words += f"; a further gain of {choice.gain:.1f} min is noise, so the simpler one is kept"
    return words


def _runner_up(offer: Offer, choice: Choice) -> AdjustmentRunnerUp | None:
    """The next best adjustment."""
    if choice.runner_up is None:
        return None
    other = offer.options[choice.runner_up]
    total = offer.total()
    if not (math.isfinite(total[choice.runner_up]) and math.isfinite(total[choice.index])):
        why = "it leads to no possible sections"
        return AdjustmentRunnerUp(other.reducer, other.water, other.hardener, other.nozzle_mm, why)
    more = float(total[choice.runner_up] - total[choice.index])
    if abs(more) < 0.05:
        why = "equally good by the search, and one step farther from the plain adjustment"
    elif more < 0.0:
        why = (
            f"better by {-more:.1f} minutes of work, too little to count (under {max(SIMPLER_MINUTES, -more):.1f}); "
            "more to mix and to get wrong"
        )
    else:
        why = f"{more:.1f} minutes of work dearer; its edge stays open {float(offer.wetting.open_s[choice.runner_up]):.0f} s"
    return AdjustmentRunnerUp(other.reducer, other.water, other.hardener, other.nozzle_mm, why)


def _noun(setup: Setup, layer: Kind, result: LayerResult | None) -> Adjustment:
    """One layer's adjustment; the plain one where the layer is not wanted."""
    nozzle = setup.job.gun.nozzle_mm
    if result is None:
        return Adjustment(
            "standard",
            0.0,
            hardener=False,
            nozzle_mm=nozzle,
            fixed_by_user=False,
            reason="this layer is not wanted on any panel",
            runner_up=None,
        )
    option = result.option
    if layer == "clear":
        reason = "the sheet's own: laydown adjusts water-borne layers only"
        return Adjustment(
            option.reducer,
            option.water,
            option.hardener,
            option.nozzle_mm,
            fixed_by_user=False,
            reason=reason,
            runner_up=None,
        )
    return Adjustment(
        option.reducer,
        option.water,
        option.hardener,
        option.nozzle_mm,
        _is_fixed(setup, layer),
        _why(result.offer, result.choice, nozzle),
        _runner_up(result.offer, result.choice),
    )


def adjustments_of(setup: Setup, layers: dict[Kind, LayerResult]) -> Adjustments:
    """Return the adjustment of each layer.

    Parameters
    ----------
    setup
        The job.
    layers
        Planned layers.

    Returns
    -------
    The adjustments with reasons and runners-up.

    Sources
    -------
    ``laydown.planning.layers.layer``.
    """
    return Adjustments(
        _noun(setup, "ground", layers.get("ground")),
        _noun(setup, "effect", layers.get("effect")),
        _noun(setup, "clear", layers.get("clear")),
    )


def adjustment_findings(setup: Setup, layers: dict[Kind, LayerResult]) -> list[Finding]:
    """Return what there is to fear of what the user fixed, against the sheet and against the best.

    Parameters
    ----------
    setup
        The job and the sheets.
    layers
        Planned layers.

    Returns
    -------
    Findings; may be empty.

    Sources
    -------
    The sheets.
    """
    found: list[Finding] = []
    choices = setup.job.choices
    for layer, result in layers.items():
        if layer == "clear":
            continue
        product = setup.paints[layer].product
        most = product.water_max
        if choices.water is not None and choices.water > (most or 0.0) + 1e-9:
            limit = f"at most {most * 100:.0f} %" if most is not None else "none"
            found.append(
                Finding(
                    "stop",
                    "water-above-sheet",
                    f"{layer}.adjustment",
                    f"{choices.water * 100:.0f} % water is more than the sheet of {product.key} allows ({limit}).",
                    _as_fixed(water_on_mix(setup.paints[layer], choices.water)),
                    ("stay within the sheet", "use a slower reducer instead"),
                )
            )
        if choices.reducer is not None and choices.reducer not in product.reducers:
            found.append(
                Finding(
                    "stop",
                    "reducer-not-on-sheet",
                    f"{layer}.adjustment",
                    f"the sheet of {product.key} names no {choices.reducer} reducer.",
                    f"it names {', '.join(product.reducers)}",
                    ("choose one the sheet names", "ask the paint supplier"),
                )
            )
        found += _against_best(layer, result)
        found += _film_factor(setup, layer, result)
    if layers.get("ground") is not None and choices.hardener is not None:
        rule = setup.paints["ground"].product.hardener.use
        if (choices.hardener and rule == "none") or (not choices.hardener and rule == "required"):
            found.append(
                Finding(
                    "stop",
                    "hardener-against-sheet",
                    "ground.adjustment",
                    "hardener in the ground coat is fixed against the sheet.",
                    f"the sheet says: {rule}",
                    ("follow the sheet",),
                )
            )
    return found


def _as_fixed(on_mix: float) -> str:
    """What the plan does with water beyond the sheet."""
    words = "laydown never overrules a data sheet; the plan shows times and grams with the water as fixed"
    if on_mix >= MOST_WATER_SHARE:
        words += f", but reckons its drying with {MOST_WATER_SHARE * 100:.0f} % of the mix, the most the film model knows"
    return words


def _against_best(layer: Kind, result: LayerResult) -> list[Finding]:
    """What a plan that is held to its adjustment loses where every join it makes is at risk."""
    worst = min((coat for coat in result.coats), key=lambda coat: coat.open_s)
    if worst.open_s < 15.0:
        return [
            Finding(
                "care",
                "edge-closes-at-once",
                f"{layer}.{worst.number}",
                f"the edge of the {layer} coat stays open for {worst.open_s:.0f} s only.",
                "no section is sprayed that fast",
                (
                    "choose a cooler, damper hour",
                    "a slower reducer and water, as far as the sheet allows",
                    "walk the length",
                ),
            )
        ]
    return []


def _film_factor(setup: Setup, layer: Kind, result: LayerResult) -> list[Finding]:
    """Warn where the gun's own film per coat is far from the sheet's."""
    paint = setup.paints[layer]
    own = paint.dry_um_of(result.offer.closed[result.choice.index].film_g_m2())
    factor = own / paint.dry_um
    if 0.75 <= factor <= 1.33:
        return []
    effect = "counts as more" if factor > 1.0 else "counts as less"
    speed = result.offer.closed[result.choice.index].speed_m_s * factor
    return [
        Finding(
            "care",
            "film-off-sheet",
            f"{layer}.film",
            f"one closed pass of the {layer} coat gives {own:.1f} µm dry, {factor:.2f} times the sheet's {paint.dry_um:g} µm.",
            f"flow over fan, overlap and hand speed; a coat {effect} than one of the sheet",
            (
                f"a hand speed of {speed:.2f} m/s gives the sheet's film",
                "weigh 30 s of flow into a cup again",
                "spray the let-down panel with exactly these settings",
            ),
        )
    ]
