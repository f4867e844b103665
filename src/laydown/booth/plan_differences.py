"""What has changed between two plans of the same job, old and new."""

from collections.abc import Iterator
from dataclasses import dataclass

from laydown.schema.coat import Coat, Layer
from laydown.schema.message import Message, Name, Saying, message
from laydown.schema.plan import Adjustment, Plan
from laydown.schema.product import LayerName


@dataclass(frozen=True, slots=True)
class Changed:
    """One thing that has changed: what, and as it was and is."""

    what: Saying
    old: Saying
    new: Saying


def differences(old: Plan, new: Plan) -> tuple[Changed, ...]:
    """Return what has changed, as a painter reads it."""
    found: list[Changed] = []
    after = {layer.name: layer for layer in new.layers}
    for layer in old.layers:
        found += _adjustment(layer.name, old, new)
        found += _layer(layer, after[layer.name])
    found += _told(message("changed.unmasked"), _minutes(_unmask_s(old)), _minutes(_unmask_s(new)))
    found += _told(
        message("changed.verdict"),
        message("as-verdict", verdict=old.verdict.state),
        message("as-verdict", verdict=new.verdict.state),
    )
    return tuple(found)


def _told(what: Message, old: Message, new: Message) -> Iterator[Changed]:
    """A change, if it is one."""
    if old != new:
        yield Changed(what, old, new)


def _minutes(seconds: float) -> Message:
    """A time as it is said: what is not said does not differ."""
    return message("as-minutes", time_s=round(seconds / 60.0, 1) * 60.0)


def _unmask_s(plan: Plan) -> float:
    """When the car is unmasked."""
    return next((step.end_s for step in plan.timeline if step.kind == "unmask"), 0.0)


def _adjustment(name: LayerName, old: Plan, new: Plan) -> Iterator[Changed]:
    """Reducer, water, hardener and nozzle of a layer."""
    yield from _told(
        message("mix-of-layer", short_layer=name),
        _mixed(getattr(old.adjustment, name)),
        _mixed(getattr(new.adjustment, name)),
    )


def _mixed(adjustment: Adjustment) -> Message:
    """An adjustment in words."""
    return message(
        "as-mixed-with-hardener" if adjustment.hardener else "as-mixed",
        reducer=adjustment.reducer,
        water=round(adjustment.water, 2),
        nozzle_mm=adjustment.nozzle_mm,
    )


def _layer(old: Layer, new: Layer) -> Iterator[Changed]:
    """Number of coats, and each coat that both plans have."""
    yield from _told(
        message("changed.coats", short_layer=old.name),
        message("as-coats", coats=len(old.coats)),
        message("as-coats", coats=len(new.coats)),
    )
    for before, after in zip(old.coats, new.coats, strict=False):
        yield from _coat(message("numbered-coat", layer=old.name, number=before.number), before, after)


def _coat(coat: Message, old: Coat, new: Coat) -> Iterator[Changed]:
    """What differs in one coat."""
    yield from _told(
        message("changed.part", coat=coat),
        message("as-part", part=old.part),
        message("as-part", part=new.part),
    )
    yield from _told(message("changed.time", coat=coat), _minutes(old.elapsed_s), _minutes(new.elapsed_s))
    yield from _told(
        message("changed.flash", coat=coat), _minutes(old.flash_s.value), _minutes(new.flash_s.value)
    )
    yield from _told(
        message("changed.open", coat=coat), _minutes(old.open_s.value), _minutes(new.open_s.value)
    )
    yield from _told(message("changed.joins", coat=coat), _places(old), _places(new))
    yield from _told(message("changed.tightest", coat=coat), _tightest(old), _tightest(new))
    yield from _told(message("changed.refills", coat=coat), _refills(old), _refills(new))


def _places(coat: Coat) -> Message:
    """Where sections meet."""
    places = tuple(Name(join.feature) for join in coat.joins)
    return message("as-places", places=places) if places else message("as-none")


def _tightest(coat: Coat) -> Message:
    """State of the join that is least sure."""
    if not coat.joins:
        return message("as-none")
    return message("as-join", join=min(coat.joins, key=lambda join: join.wet_chance).state)


def _refills(coat: Coat) -> Message:
    """Where the cup is filled."""
    sections = tuple(one.after_section for one in coat.refills)
    return message("as-sections", sections=sections) if sections else message("as-none")
