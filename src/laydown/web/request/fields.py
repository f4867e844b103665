"""What the pages call a field of a job, product or side, and how they tell its value."""

from collections.abc import Mapping
from typing import Any

from laydown.desk.papers.second_save import Path
from laydown.units import System, figures, show, suffix
from laydown.web.request.render import FIELD_NAMES

PRODUCT = {
    "key": "Key on the shelf",
    "kind": "Layer",
    "status": "Figures come from",
    "source": "Source",
    "colour": "Colour of a ground coat",
    "volume_solids": "Solids by volume",
    "dry_um_per_coat": "Dry film of one coat",
    "density_g_ml": "Density",
    "coats_min": "Coats, least",
    "coats_max": "Coats, most",
    "voc_label_g_l": "VOC on the label",
    "reducers": "Reducers",
    "water_max": "Water, at most",
    "water_percent_of": "Water: per cent of",
    "water_basis": "Water: by",
    "hardener.use": "Hardener",
    "hardener.pot_life_s": "Pot life with hardener",
    "hardener.pot_life_c": "Pot life holds at",
    "flash.min_s": "Flash, from",
    "flash.max_s": "Flash, to",
    "flash.temperature_c": "Flash holds at",
    "flash.rh": "Flash holds at humidity",
    "flash.air": "Flash with",
    "recoat_max_s": "Next layer within",
    "bake.metal_c": "Bake: metal",
    "bake.time_s": "Bake: hold",
    "allowed.temperature_low_c": "Air, coolest",
    "allowed.temperature_high_c": "Air, warmest",
    "allowed.rh_low": "Air, driest",
    "allowed.rh_high": "Air, dampest",
    "surface_max_c": "Warmest panel",
    "pressure_bar": "Inlet pressure",
}
"""Fields of a product in the words of its form."""

RECIPE = {
    "name": "Name on the tin",
    "role": "What it does",
    "amount": "Amount",
    "kind": "counted in",
    "basis": "by",
    "of": "per cent of",
    "density_g_ml": "Density",
    "voc_mass_fraction": "VOC, share of mass",
    "water_mass_fraction": "Water, share of mass",
    "solids_volume_fraction": "Solids, share of volume",
}
"""Fields of a line of the recipe in the words of its form."""

MEASURES = {
    "wheelbase_m": "Wheelbase",
    "front_overhang_m": "Front overhang",
    "rear_overhang_m": "Rear overhang",
    "arch_radius_m": "Arch, radius",
    "wheel_radius_m": "Wheel, radius",
    "sill_low_m": "Ground to the sill's lower edge",
    "sill_high_m": "Ground to the door's lower gap",
    "waist_front_m": "Ground to below the glass, at the mirror",
    "waist_rear_m": "Ground to below the glass, rear",
    "glass_top_m": "Ground to the top of the glass",
    "roof_m": "Roof",
    "door_front_m": "Front axle to the front door",
    "door_mid_m": "Front axle to the middle gap",
    "door_rear_m": "Front axle to the rear gap",
    "girth": "Tape length over height",
    "edge_m": "Painted return of an edge",
}
"""Tape measures of a side in the words of their form."""

JOB = {
    "job.painters": "painters",
    "job.can_walk": "walk the length",
    "job.spare_cup": "spare cup ready",
    "job.refill_s": "a refill takes",
    "job.spare_cup_s": "a refill takes with the spare cup",
    "body.shape": "shape",
    "body.file": "own side",
    "products.ground": "ground coat",
    "products.effect": "effect coat",
    "products.clear": "clear",
    "air.temperature_c": "booth air",
    "choices.reducer": "reducer",
    "choices.water": "water",
    "choices.hardener": "hardener",
    "choices.nozzle_mm": "nozzle that is fixed",
    "choices.ground_coats": "ground coats",
    "choices.effect_coats": "effect coats",
    "sample.ground_check": "bare ground of panel and car",
    "sample.readings": "readings of the instrument",
    "sample.readings_map": "mapping of the readings",
    "sample.zone": "zone that is planned",
    "sample.coats": "fields of the let-down panel, coats",
    "sample.face": "let-down panel at the face",
    "sample.flop": "let-down panel at the flop",
    "sample.same_settings": "panel sprayed with the settings of the car",
    "sample.card_gone_after": "hiding card gone after ground coat",
    "sample.coat_g_m2": "a coat of the panel, weighed wet",
}
"""Fields of a job in the words of its pages, besides those that every page uses."""


def field_words(path: Path) -> str:
    """Return what the pages call a field.

    Parameters
    ----------
    path
        Where it stands in the paper.

    Returns
    -------
    The words of its form; for a field that only files have, its table and name there.
    """
    place = ".".join(path)
    if path[0] == "panel" and len(path) == 3:
        return f"{path[1]}: {_plain(path[2])}"
    if path[0] == "panels":
        return f"{path[1]}: planned area"
    if path[0] == "recipe":
        return f"recipe line {path[1]}: {RECIPE.get(path[2], _plain(path[2]))}"
    if path[0] == "measures":
        return MEASURES.get(path[1], _plain(path[1]))
    known = PRODUCT | FIELD_NAMES | JOB if len(path) > 1 else FIELD_NAMES | PRODUCT
    return known.get(place) or ": ".join(_plain(part) for part in path)


def _plain(name: str) -> str:
    """Write a name of a file as words, without its unit."""
    return name.removesuffix(suffix(name)).replace("_", " ")


def told_values(path: Path, values: tuple[Any, ...], system: System) -> tuple[str, ...]:
    """Tell values of one field, so that different ones read differently.

    Parameters
    ----------
    path
        Where the field stands.
    values
        Its values; None where it is not given.
    system
        How figures are shown.

    Returns
    -------
    One text for each; with the source of a figure where only that tells them apart.
    """
    told = tuple(_told(path[-1], value, system) for value in values)
    different = [value for number, value in enumerate(values) if value not in values[:number]]
    if len(set(told)) == len(different):
        return told
    return tuple(f"{text}{_finer(value)}" for text, value in zip(told, values, strict=True))


def _told(name: str, value: Any, system: System) -> str:
    """Tell one value."""
    if value is None:
        return "not given"
    if isinstance(value, int | float):
        return _told_number(name, value, system)
    if isinstance(value, list):
        return ", ".join(_told(name, item, system) for item in value) or "none"
    if isinstance(value, Mapping) and "value" in value:
        ends = [value[end] for end in ("low", "high") if value.get(end) is not None]
        spread = f" ({' to '.join(_told(name, end, system) for end in ends)})" if len(ends) == 2 else ""
        return _told(name, value["value"], system) + spread
    return str(value)


def _told_number(name: str, value: float, system: System) -> str:
    """Tell a number or a truth value."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if name == "volume_solids":
        return f"{figures(100 * value)} %"
    return show(value, name, system) if suffix(name) else figures(value)


def _finer(value: Any) -> str:
    """What tells figures apart that read alike."""
    if isinstance(value, Mapping) and "value" in value:
        return f" [{value['value']:g}, {value.get('source', 'not given')}]"
    return f" [{value:g}]" if isinstance(value, int | float) and not isinstance(value, bool) else ""
