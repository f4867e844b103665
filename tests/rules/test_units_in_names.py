"""A number's name ends in its unit. What does not is on a short list here, with the reason."""

import ast
import re

import pytest

from rules.source_tree import arguments, classes, fields, modules, public_functions

UNITS = [
    "_g_m2_s",
    "_w_m2_k",
    "_j_m2_k",
    "_w_m_k",
    "_j_g_k",
    "_j_mol",
    "_g_mol",
    "_mm2_s",
    "_g_ml",
    "_g_m2",
    "_g_m3",
    "_g_s",
    "_m_s",
    "_kg_m3",
    "_m2_s",
    "_m2_l",
    "_j_g",
    "_g_l",
    "_pa",
    "_bar",
    "_mm",
    "_um",
    "_m2",
    "_ml",
    "_m",
    "_s",
    "_c",
    "_k",
    "_g",
    "_px",
    "_deg",
    "_nm",
]
"""House units; those of two or three parts first, so that the longest is taken."""

SHARES = ("rh", "overlap", "_share", "_fraction", "_chance", "_count", "_factor", "_cv", "_ln_sd")
"""Plain numbers whose name says that they have no unit."""

IN_ONE_UNIT = {
    "physics/geometry/curves.py": "plane geometry: points, radii and heights share the unit of what is drawn, whatever it is",
    "physics/geometry/rings.py": "plane geometry, as curves",
    "physics/geometry/grid.py": "plane geometry, as curves",
    "physics/colour/letdown.py": "coats, CIELAB and shares, scales without unit",
    "physics/colour/ground_check.py": "coats and CIELAB, as letdown",
    "physics/colour/coat_count.py": "coats and CIELAB, as letdown",
    "physics/colour/count_chances.py": "coats, and chances of them",
    "physics/colour/eye_ranking.py": "coats, and chances of them",
    "physics/colour/repeats.py": "CIELAB, scales without unit",
    "physics/colour/unexplained.py": "coats and CIELAB, as letdown",
    "physics/colour/unevenness.py": "coats and colour differences; films and areas have their unit",
    "physics/colour/difference.py": "CIELAB, scales without unit",
    "physics/colour/screen.py": "CIELAB and codes of a screen, scales without unit",
    "physics/colour/spectrum.py": "CIELAB, X, Y, Z and reflectance factors; wavelengths have their unit",
    "physics/colour/hiding_card.py": "reflectances and their ratio, 0 to 1; films, K and S have their unit",
    "physics/colour/undercoat.py": "CIE L*, colour differences and coats; films have their unit",
    "schema/reading.py": "weights of X, Y and Z, a white having Y = 1; wavelengths have their unit",
    "planning/counts/": "coats, CIELAB, CIEDE2000 and shares of pigment; films, K and S have their unit",
    "planning/process/look.py": "CIEDE2000; lengths have their unit",
    "schema/colour.py": "coats, CIELAB, CIEDE2000 and shares; angles have their unit",
    "trade/side/borders.py": "points of the side, metres as in schema/side",
    "trade/side/skin.py": "points of the side, metres as in schema/side",
    "trade/side/contact.py": "points of the side, metres as in schema/side",
    "trade/side/drawing.py": "points of the side, metres as in schema/side",
    "trade/side/car_curves.py": "points of the side, metres as in schema/side; named after the places on a car",
    "trade/side/van_curves.py": "points of the side, metres as in schema/side; named after the places on a van",
    "words/letdown.py": "coats and colour differences, as schema/colour",
    "words/numbers.py": "what a number means stands in the name of the function that says it",
    "report/": "a picture: everything without a unit in its name is in points of the drawing",
    "reader/papers/svg_shapes.py": "points of the drawing as it is read",
    "planning/sections/search.py": "costs are minutes of work, as the weights; grams and ages have their unit",
    "planning/setup/weights.py": "the whole noun is in minutes of work, or per unit named in its docstring",
}
"""Modules in which every length has one unit, and which."""

PLAIN = {
    "strength": "share of pigment against the mix as ordered, above 0 to 1",
    # field formats: fixed words of the files, each with its unit in docs/files.md
    "transfer": "share of the sprayed paint that lands, 0 to 1; word of the job file",
    "transfer_efficiency": "the same",
    "transfer_at": "the same",
    "water": "share of the base, 0 to 1; word of the job file",
    "water_max": "share, 0 to 1; word of the product file",
    "volume_solids": "share, 0 to 1; word of the product file",
    "dry_um_per_coat": "unit stands inside the name",
    "wet_um_per_coat": "unit stands inside the name",
    "cup_g_after": "unit stands inside the name",
    "undercoat_lightness": "CIE L*, a scale without unit",
    "amount": "parts or per cent, as the kind of the line says",
    "girth": "factor from seen height to tape length",
    "area_scale": "factor from drawn to planned area",
    "rh_low": "relative humidity, 0 to 1",
    "rh_high": "relative humidity, 0 to 1",
    "share_above_1": "share, 0 to 1; 1 is the colour difference",
    "wheels": "centre and radius, metres as every point of a side",
    # coats and colours
    "coats": "coats, in halves",
    "counts": "coats, in halves",
    "coats_min": "coats, in halves",
    "coats_max": "coats, in halves",
    "ground_coats": "coats, in halves",
    "effect_coats": "coats, in halves",
    "computed": "coats, in halves",
    "fixed": "coats, in halves",
    "de2000": "colour difference, a scale without unit",
    "de_p95": "colour difference, a scale without unit",
    "steps_de": "colour difference, a scale without unit",
    "lightness": "CIE L*, a scale without unit",
    "lab_of_bands": "CIELAB, scales without unit",
    "first": "CIELAB of a pair, scales without unit",
    "second": "CIELAB of a pair, scales without unit",
    "bands": "reflectance in three bands, 0 to 1",
    "below": "reflectance of the background, 0 to 1",
    "endless": "reflectance of an endless film, 0 to 1",
    "endless_reflectance": "reflectance, 0 to 1",
    "layer_reflectance": "reflectance, 0 to 1",
    "neutral_reflectance": "reflectance, 0 to 1",
    "absorption": "Kubelka-Munk K, in the unit of 1 over that of the film it is used with",
    "absorption_for": "the same",
    "scattering": "Kubelka-Munk S, as absorption",
    "lab_l": "CIE L*, a scale without unit",
    "lab_a": "CIE a*, a scale without unit",
    "lab_b": "CIE b*, a scale without unit",
    "factors": "reflectance factors, 1 = perfect diffuser",
    "decimal": "any figure, as it stands in a cell",
    # numbers without unit inside the laws
    "u": "place across the fan in half fan widths",
    "ramp": "integral of a share over places in half heights",
    "z": "standard deviations",
    "exponent": "exponent of a profile",
    "spread": "standard deviation of a logarithm, or a ratio of diameters; see the docstring",
    "age_spread": "standard deviation of a logarithm",
    "open_spread": "standard deviation of a logarithm",
    "pause_spread": "standard deviation of a logarithm",
    "ln_sd": "standard deviation of a logarithm",
    "humidity_ratio": "grams of vapour per gram of dry air",
    "liquid_activity": "activity, 0 to 1",
    "biot": "Biot number",
    "growth": "ratio of neighbouring steps",
    "ahead": "direction, 1 or -1",
    "up": "factor of a coat, unit in the docstring",
    "stretch": "factor from drawn skin to planned area",
    "turns": "number of turns",
    "weight": "weight of a cell, 0 to 1",
    "factor": "factor",
    "slope": "constant of a cup's formula, in the units of the standard that gives it",
    "overlap_for_film": "overlap, 0 to 1",
    "layer_mask": "weight of each cell, 0 to 1",
    "open_progress": "share of the way to closing",
    "matt_progress": "share of the way to matt",
    "open_weight": "how many times co-solvent counts",
    "matt_weight": "how many times co-solvent counts",
    "cosolvent_kelvin": "heat of evaporation over the gas constant, as the law writes it",
    "water_rate": "as the law writes it; unit in the docstring of Flows",
    "cosolvent_rate": "as the law writes it; unit in the docstring of Flows",
    "weighing_tolerance": "relative error, 0 to 1",
    "severity": "weight, 0 to 1",
    "water_on_mix": "share, 0 to 1",
    # costs of the search, in minutes of work
    "cost": "minutes of work, or the scale of places",
    "bound_cost": "minutes of work",
    "own_cost": "minutes of work",
    "walk_cost": "minutes of work",
    "least_cost": "minutes of work",
    "own": "minutes of work",
    "forward": "minutes of work",
    "backward": "minutes of work",
    "total": "minutes of work, or money",
    "gain": "minutes of work",
    "minutes": "minutes, the unit people wait in; printed, never computed with",
    "minutes_of": "minutes, as above",
    # money: the user's own currency
    "booth": "money in the user's currency",
    "labour": "money in the user's currency",
    "materials": "money in the user's currency",
    "redo": "money in the user's currency",
    "number": "money in the user's currency",
    # any quantity: its unit is that of the field it stands in
    "value": "a figure of any kind; the name of the field that holds it has the unit",
    "low": "as value",
    "high": "as value",
    "values": "as value",
    "target": "as value, in the unit of the map",
    "worst": "as value, in the unit of the map",
    "worst_at": "point of the side, metres",
    "chance": "chance, 0 to 1",
    "before": "places of joins, metres, with their kind; or a figure of any kind",
    "seen": "a figure of any kind",
    "parse": "any figure, in the unit asked for",
    # places
    "line": "points of the side, metres",
    "x_at": "place along the side, metres",
    "shift_of": "length, metres",
    "distance_to_lines": "lengths of the side, metres",
    "under_body": "points of the side, metres",
    "develop": "points of the sheet, metres",
    # words that carry a unit before their last part
    "panel_c_at": "unit stands inside the name",
    "dry_um_of": "unit stands inside the name",
    "open_fraction_from_strokes": "fraction",
    "transfer_factor_from_matt": "factor",
    "need": "mL, as the function's name says",
    "film": "µm and coefficient of variation, see the docstring",
    "times": "seconds of the sheet's flash and cure, see the docstring",
    "cutoff": "likeness of two words, 0 to 1",
}
"""Names without a unit, and why."""


@pytest.mark.parametrize("name", modules())
def test_a_number_ends_in_its_unit(name):
    if any(name.startswith(module) for module in IN_ONE_UNIT):
        return
    silent = {word for word in _numbers(modules()[name]) if not _says_its_unit(word)}
    assert not silent, (
        f"src/laydown/{name}: {sorted(silent)} hold numbers without a unit in the name; end the name in one of "
        f"{', '.join(UNITS)}, or add it to PLAIN in this test with the reason"
    )


def test_the_list_of_plain_names_holds_nothing_that_is_gone():
    used = {word for tree in modules().values() for word in _numbers(tree)}
    assert not set(PLAIN) - used, f"take out of PLAIN: {sorted(set(PLAIN) - used)}"


def test_the_list_of_modules_in_one_unit_holds_nothing_that_is_gone():
    gone = [module for module in IN_ONE_UNIT if not any(name.startswith(module) for name in modules())]
    assert not gone, f"take out of IN_ONE_UNIT: {gone}"


def _numbers(tree):
    """Names of fields of public classes, and of parameters and results of public functions, that hold numbers."""
    for node in classes(tree):
        if not node.name.startswith("_"):
            yield from (item.target.id for item in fields(node) if _is_number(item.annotation))
    for called, node in public_functions(tree):
        yield from (one.arg for one in arguments(node) if one.annotation and _is_number(one.annotation))
        if node.returns is not None and re.fullmatch(
            r"float|Values|Floats|float \| None", ast.unparse(node.returns)
        ):
            yield called.rsplit(".", 1)[-1]


def _is_number(annotation):
    text = ast.unparse(annotation)
    if re.search(r"Callable|Mapping|dict|Ring|Point", text):
        return False
    return re.search(r"\b(float|Floats|Values|Figure|Spread)\b", text) is not None


def _says_its_unit(word):
    return (
        word in PLAIN
        or any(word.endswith(unit) or word == unit[1:] for unit in UNITS)
        or word.endswith(SHARES)
    )
