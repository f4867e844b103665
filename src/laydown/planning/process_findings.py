"""What there is to fear of air, drying, cooling and start."""

import math

from laydown.planning.layers import LayerResult
from laydown.planning.process import Process
from laydown.planning.setup import Setup
from laydown.schema.finding import Finding


def process_findings(setup: Setup, process: Process) -> list[Finding]:
    """Return what there is to fear of air, drying and cooling.

    Parameters
    ----------
    setup, process
        The job and its layers.

    Returns
    -------
    Findings; may be empty.

    Sources
    -------
    The sheets; dew point rule of ISO 8502-4, second hand.
    """
    return [
        *_air_findings(setup, process),
        *_drying_findings(setup, process),
        *_cooling_findings(setup, process),
        *(one for layer in process.layers.values() for one in _start_findings(layer)),
    ]


def _air_findings(setup: Setup, process: Process) -> list[Finding]:
    """Air outside a sheet."""
    found: list[Finding] = []
    job = setup.job
    air = job.air
    for name, paint in setup.paints.items():
        allowed = paint.product.allowed
        inside_t = allowed.temperature_low_c <= air.temperature_c.value <= allowed.temperature_high_c
        inside_rh = allowed.rh_low - 1e-9 <= air.rh.value <= allowed.rh_high + 1e-9
        if name in process.layers and not (inside_t and inside_rh):
            found.append(
                Finding(
                    "stop",
                    "air-outside-sheet",
                    f"{name}.air",
                    f"the air ({air.temperature_c.value:.0f} °C, {air.rh.value * 100:.0f} %) lies outside what the sheet of {paint.product.key} allows.",
                    f"{allowed.temperature_low_c:g} to {allowed.temperature_high_c:g} °C, {allowed.rh_low * 100:.0f} to {allowed.rh_high * 100:.0f} %",
                    ("bring the booth into the range", "choose another hour", "ask the paint supplier"),
                )
            )
    return found


def _drying_findings(setup: Setup, process: Process) -> list[Finding]:
    """Coats that do not get dry."""
    found: list[Finding] = []
    air = setup.job.air
    for name in ("ground", "effect"):
        layer = process.layers.get(name)
        if layer is not None and not all(math.isfinite(coat.flash_s) for coat in layer.coats):
            found.append(
                Finding(
                    "stop",
                    "never-matt",
                    name,
                    f"the {name} coat does not get matt in this air.",
                    f"{air.rh.value * 100:.0f} % humidity",
                    ("warm the booth", "blowers", "thinner coats", "a drier hour"),
                )
            )
    if not math.isfinite(process.dehydrate_s):
        found.append(
            Finding(
                "stop",
                "never-dehydrated",
                "effect",
                "water and co-solvent do not leave the effect coat within two hours in this air.",
                f"{air.temperature_c.value:.0f} °C, {air.rh.value * 100:.0f} %",
                ("blow at 35 to 40 °C", "thinner coats", "a drier hour"),
            )
        )
    return found


def _cooling_findings(setup: Setup, process: Process) -> list[Finding]:
    """A panel that is not ready for the effect coat."""
    found: list[Finding] = []
    air = setup.job.air
    cooling = process.cooling
    if cooling is not None and not cooling.gate.open:
        found.append(
            Finding(
                "stop",
                "panel-not-ready",
                "effect",
                "the panel is not in the range for the effect coat: " + "; ".join(cooling.gate.reasons) + ".",
                cooling.text,
                ("wait until it has cooled", "move air over it", "measure it with a contact thermometer"),
            )
        )
    elif cooling is not None and cooling.surface_c > air.temperature_c.value + 5.0:
        found.append(
            Finding(
                "care",
                "panel-warm",
                "effect",
                f"the panel is {cooling.surface_c - air.temperature_c.value:.0f} K warmer than the air: the wet edge is shorter.",
                cooling.text,
                ("let it cool to the air's temperature",),
            )
        )
    return found


def _start_findings(layer: LayerResult) -> list[Finding]:
    """A start the user named that this layer does not have."""
    if not layer.start.unknown:
        return []
    name = layer.task.paint.product.kind
    known = ", ".join(place.id for place in layer.task.places if place.kind != "open")
    return [
        Finding(
            "care",
            "start-unknown",
            name,
            f"the start '{layer.start.unknown}' is no feature of the {name} coat; it was left free.",
            f"features: {known}",
            ("use front, rear, best or one of the features",),
        )
    ]
