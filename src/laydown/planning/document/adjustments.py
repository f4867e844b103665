"""The adjustment of each layer as a noun: what, why, and what came next."""

import math

from laydown.planning.layers.adjustments import water_on_mix
from laydown.planning.layers.choice import Choice, Offer
from laydown.planning.layers.layer import LayerResult
from laydown.planning.setup.setup import Setup
from laydown.planning.setup.weights import SIMPLER_MINUTES
from laydown.schema.message import Finding, Message, Name, message
from laydown.schema.plan import Adjustment, AdjustmentRunnerUp, Adjustments
from laydown.schema.product import LayerName
from laydown.trade.mixing.paint_classes import MOST_WATER_SHARE


def _is_fixed(setup: Setup, layer: LayerName) -> bool:
    """Whether the user fixed anything of it."""
    choices = setup.job.choices
    if layer == "clear":
        return False
    return any(one is not None for one in (choices.reducer, choices.water, choices.nozzle_mm)) or (
        layer == "ground" and choices.hardener is not None
    )


def _why(offer: Offer, choice: Choice, own_nozzle_mm: float) -> Message:
    """Why an adjustment was chosen, with the figures that decided."""
    chosen = offer.options[choice.index]
    opening = float(offer.wetting.open_s[choice.index])
    said = [message("edge-stays-open", open_s=opening)]
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
        plain_s = float(offer.wetting.open_s[plain])
        said = [message("edge-stays-open-against", open_s=opening, plain_s=plain_s)]
        if math.isfinite(before) and math.isfinite(after):
            said.append(message("saves-over-plain", minutes=before - after))
    elif plain == choice.index:
        said.append(message("nothing-over-plain"))
    if choice.kept_simple and choice.gain >= 0.05:
        said.append(message("gain-is-noise", minutes=choice.gain))
    return message("one-after-another", parts=tuple(said))


def _runner_up(offer: Offer, choice: Choice) -> AdjustmentRunnerUp | None:
    """The next best adjustment."""
    if choice.runner_up is None:
        return None
    other = offer.options[choice.runner_up]
    total = offer.total()
    if not (math.isfinite(total[choice.runner_up]) and math.isfinite(total[choice.index])):
        why = message("second.no-sections")
        return AdjustmentRunnerUp(other.reducer, other.water, other.hardener, other.nozzle_mm, why)
    more = float(total[choice.runner_up] - total[choice.index])
    if abs(more) < 0.05:
        why = message("second.equal")
    elif more < 0.0:
        why = message("second.hardly-better", minutes=-more, least_minutes=max(SIMPLER_MINUTES, -more))
    else:
        opening = float(offer.wetting.open_s[choice.runner_up])
        why = message("second.dearer", minutes=more, open_s=opening)
    return AdjustmentRunnerUp(other.reducer, other.water, other.hardener, other.nozzle_mm, why)


def _noun(setup: Setup, layer: LayerName, result: LayerResult | None) -> Adjustment:
    """One layer's adjustment; the plain one where the layer is not wanted."""
    nozzle = setup.job.gun.nozzle_mm
    if result is None:
        return Adjustment(
            "standard",
            0.0,
            hardener=False,
            nozzle_mm=nozzle,
            fixed_by_user=False,
            reason=message("layer-not-wanted"),
            runner_up=None,
        )
    option = result.option
    if layer == "clear":
        return Adjustment(
            option.reducer,
            option.water,
            option.hardener,
            option.nozzle_mm,
            fixed_by_user=False,
            reason=message("clear-as-on-sheet"),
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


def adjustments_of(setup: Setup, layers: dict[LayerName, LayerResult]) -> Adjustments:
    """Return the adjustment of each layer."""
    return Adjustments(
        _noun(setup, "ground", layers.get("ground")),
        _noun(setup, "effect", layers.get("effect")),
        _noun(setup, "clear", layers.get("clear")),
    )


def adjustment_findings(setup: Setup, layers: dict[LayerName, LayerResult]) -> list[Finding]:
    """Return what there is to fear of what the user fixed, against the sheet and against the best."""
    found: list[Finding] = []
    choices = setup.job.choices
    for layer, result in layers.items():
        if layer == "clear":
            continue
        product = setup.paints[layer].product
        most = product.water_max
        if choices.water is not None and choices.water > (most or 0.0) + 1e-9:
            named = Name(product.key)
            found.append(
                Finding(
                    "stop",
                    "water-above-sheet",
                    f"{layer}.adjustment",
                    message("water-above-sheet.none", water=choices.water, product=named)
                    if most is None
                    else message("water-above-sheet", water=choices.water, product=named, water_max=most),
                    _as_fixed(water_on_mix(setup.paints[layer], choices.water)),
                    (message("do.stay-within-sheet"), message("do.slower-reducer")),
                )
            )
        if choices.reducer is not None and choices.reducer not in product.reducers:
            found.append(
                Finding(
                    "stop",
                    "reducer-not-on-sheet",
                    f"{layer}.adjustment",
                    message("reducer-not-on-sheet", product=Name(product.key), reducer=choices.reducer),
                    message("reducer-not-on-sheet.why", reducer=product.reducers),
                    (message("do.reducer-of-sheet"), message("do.ask-supplier")),
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
                    message("hardener-against-sheet"),
                    message("hardener-against-sheet.why", hardener_use=rule),
                    (message("do.follow-sheet"),),
                )
            )
    return found


def _as_fixed(on_mix: float) -> Message:
    """What the plan does with water beyond the sheet."""
    if on_mix >= MOST_WATER_SHARE:
        return message("water-as-fixed-beyond", most_share=MOST_WATER_SHARE)
    return message("water-as-fixed")


def _against_best(layer: LayerName, result: LayerResult) -> list[Finding]:
    """What a plan that is held to its adjustment loses where every join it makes is at risk."""
    worst = min((coat for coat in result.coats), key=lambda coat: coat.open_s)
    if worst.open_s < 15.0:
        return [
            Finding(
                "caution",
                "edge-closes-at-once",
                f"{layer}.{worst.number}",
                message("edge-closes-at-once", layer=layer, open_s=worst.open_s),
                message("edge-closes-at-once.why"),
                tuple(map(message, ("do.cooler-hour", "do.slower-and-water", "do.walk-length"))),
            )
        ]
    return []


def _film_factor(setup: Setup, layer: LayerName, result: LayerResult) -> list[Finding]:
    """Warn where the gun's own film per coat is far from the sheet's."""
    paint = setup.paints[layer]
    own = paint.dry_um_of(result.offer.full[result.choice.index].film_g_m2())
    factor = own / paint.dry_um
    if 0.75 <= factor <= 1.33:
        return []
    speed = result.offer.full[result.choice.index].speed_m_s * factor
    return [
        Finding(
            "caution",
            "film-off-sheet",
            f"{layer}.film",
            message("film-off-sheet", layer=layer, own_um=own, times=factor, sheet_um=paint.dry_um),
            message("film-off-sheet.more" if factor > 1.0 else "film-off-sheet.less"),
            (
                message("do.hand-speed", speed_m_s=speed),
                message("do.weigh-cup-again"),
                message("do.panel-same-settings"),
            ),
        )
    ]
