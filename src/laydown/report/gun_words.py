"""How the gun is held, in words: overlap, distance, hand speed and pressure of each pass."""

from laydown.report.text_words import pace_text
from laydown.schema.coat import Coat, Pass
from laydown.unit_table import FOOT_M
from laydown.units import System, show


def gun_text(coats: tuple[Coat, ...], system: System) -> str:
    """Say how the gun is held in each pass.

    Parameters
    ----------
    coats
        Coats of a layer.
    system
        How figures are shown.

    Returns
    -------
    Such as "closed pass 70 % overlap, 18 cm, 1.4 s per m | light pass 65 % overlap, 22 cm, 1.1 s per m | pressure as
    the sheet"; settings that differ from coat to coat stand one after another.
    """
    held = dict.fromkeys(
        f"{'light' if row.name == 'control' else row.name} pass {show(row.overlap, 'overlap', system)} overlap, "
        f"{distance_text(row, system)}, {pace_text(row.seconds_per_m, system)}"
        for coat in coats
        for row in coat.passes
    )
    pressures = dict.fromkeys(pressure_text(row, system) for coat in coats for row in coat.passes)
    return " | ".join([*held, *(f"pressure {text}" for text in pressures)])


def distance_text(held: Pass, system: System) -> str:
    """Say the distance of the gun.

    Parameters
    ----------
    held
        The pass.
    system
        How figures are shown.

    Returns
    -------
    Whole centimetres, or inches and tenths.
    """
    if system == "metric":
        return f"{held.distance_m * 100:.0f} cm"
    return f"{round(held.distance_m * float(12 / FOOT_M), 1):g} in"


def pressure_text(held: Pass, system: System) -> str:
    """Say the pressure of a pass.

    Parameters
    ----------
    held
        The pass.
    system
        How figures are shown.

    Returns
    -------
    The pressure, or "as the sheet" where nobody named one.
    """
    return "as the sheet" if held.pressure_bar is None else show(held.pressure_bar, "pressure_bar", system)
