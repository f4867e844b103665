"""Let-down panels read by an instrument, from the spectral model of the physics tests: nothing of it fits the curves."""

import numpy as np

from cases.spectral_panel import ANGLES_DEG, ground, panel
from laydown.schema.reading import Reading, Readings


def spot(role, coats, zone, lab, dice, repeats=3):
    """Readings of one spot, each put down anew."""
    return [
        Reading(
            panel="A",
            role=role,
            coats=coats,
            zone=zone,
            number=number,
            angle_deg=float(angle),
            lab_l=float(lab[at, 0] + dice.normal(0.0, 0.12)),
            lab_a=float(lab[at, 1] + dice.normal(0.0, 0.12)),
            lab_b=float(lab[at, 2] + dice.normal(0.0, 0.12)),
        )
        for number in range(1, repeats + 1)
        for at, angle in enumerate(ANGLES_DEG)
    ]


def readings(
    zones, *, fields=(0, 1, 2, 3, 4, 5), strength=1.0, seed=1, below=None, shift=0.0, ground_ref=True
):
    """A panel of hand-sprayed fields and a car whose zones have true numbers of coats."""
    dice = np.random.default_rng(seed)
    below = ground() if below is None else below
    made = []
    for field in fields:
        coats = max(0.0, field + dice.normal(0.0, 0.05 * np.sqrt(field)))
        made += spot("field", float(field), "", panel(np.array([coats]), strength)[0], dice)
    if ground_ref:
        made += spot("ground_ref", 0.0, "filler flap", panel(np.array([0.0]), strength, below=below)[0], dice)
    for zone, true in zones.items():
        lab = panel(np.array([float(true)]), strength, below=below)[0] + np.array(shift)
        made += spot("car", None, zone, lab, dice)
    return Readings("panel.csv", tuple(made))
