"""What has changed between two plans of the same job, old and new."""

from collections.abc import Iterator
from dataclasses import dataclass

from laydown.schema.coat import Coat, Layer
from laydown.schema.plan import Adjustment, Plan
from laydown.schema.product import Kind


@dataclass(frozen=True, slots=True)
class Changed:
    """One thing that has changed: what, and as it was and is."""

    what: str
    old: str
    new: str


def differences(old: Plan, new: Plan) -> tuple[Changed, ...]:
    """Return what has changed, as a painter reads it.

    Parameters
    ----------
    old, new
        Two plans of the same job.

    Returns
    -------
    Changes in the order of work; times to the tenth of a minute, so that noise is not told.
    """
    found: list[Changed] = []
    after = {layer.name: layer for layer in new.layers}
    for layer in old.layers:
        found += _adjustment(layer.name, old, new)
        found += _layer(layer, after[layer.name])
    found += _told("unmasked after", _minutes(_unmask_s(old)), _minutes(_unmask_s(new)))
    found += _told("verdict", old.verdict.state, new.verdict.state)
    return tuple(found)


def _told(what: str, old: str, new: str) -> Iterator[Changed]:
    """A change, if it is one."""
    if old != new:
        yield Changed(what, old, new)


def _minutes(seconds: float) -> str:
    """A time as it is said."""
    return f"{seconds / 60.0:.1f} min"


def _unmask_s(plan: Plan) -> float:
    """When the car is unmasked."""
    return next((step.end_s for step in plan.timeline if step.kind == "unmask"), 0.0)


def _adjustment(name: Kind, old: Plan, new: Plan) -> Iterator[Changed]:
    """Reducer, water, hardener and nozzle of a layer."""
    yield from _told(
        f"{name} mix", _mixed(getattr(old.adjustment, name)), _mixed(getattr(new.adjustment, name))
    )


def _mixed(adjustment: Adjustment) -> str:
    """An adjustment in words."""
    hard = ", hardener" if adjustment.hardener else ""
    return f"{adjustment.reducer} reducer, {adjustment.water * 100:.0f} % water{hard}, nozzle {adjustment.nozzle_mm:g}"


def _layer(old: Layer, new: Layer) -> Iterator[Changed]:
    """Number of coats, and each coat that both plans have."""
    yield from _told(f"{old.name} coats", str(len(old.coats)), str(len(new.coats)))
    for before, after in zip(old.coats, new.coats, strict=False):
        yield from _coat(f"{old.name} coat {before.number}", before, after)


def _coat(name: str, old: Coat, new: Coat) -> Iterator[Changed]:
    """What differs in one coat."""
    yield from _told(f"{name} is", old.part, new.part)
    yield from _told(f"{name}, time", _minutes(old.elapsed_s), _minutes(new.elapsed_s))
    yield from _told(f"{name}, flash", _minutes(old.flash_s.value), _minutes(new.flash_s.value))
    yield from _told(f"{name}, edge open", _minutes(old.open_s.value), _minutes(new.open_s.value))
    yield from _told(f"{name}, joins", _places(old), _places(new))
    yield from _told(f"{name}, tightest join", _tightest(old), _tightest(new))
    yield from _told(f"{name}, fill the cup after section", _refills(old), _refills(new))


def _places(coat: Coat) -> str:
    """Where sections meet."""
    return ", ".join(join.feature for join in coat.joins) or "none"


def _tightest(coat: Coat) -> str:
    """State of the join that is least sure."""
    return min(coat.joins, key=lambda join: join.wet_chance).state if coat.joins else "none"


def _refills(coat: Coat) -> str:
    """Where the cup is filled."""
    return ", ".join(str(one.after_section) for one in coat.refills) or "none"
