"""A recipe becomes grams: relative masses, scaling to a batch, density and solids of the mix.

Sources: mass and volume balance, volumes add; definition.
"""

import math
from collections.abc import Iterator, Sequence
from typing import cast

from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import DENSITY_HINT, RecipeLine

DENSITY_LOW_G_ML = 0.6
"""Thinnest density accepted [g/mL]; assumption. Below it a slip of units is likelier than such a liquid."""

DENSITY_HIGH_G_ML = 2.5
"""Highest density accepted [g/mL]; assumption."""

USUAL_DENSITY_LOW_G_ML = 0.75
"""Below it a density is accepted with a warning [g/mL]; assumption."""

USUAL_DENSITY_HIGH_G_ML = 1.6
"""Above it a density is accepted with a warning [g/mL]; assumption."""

SHARE_SLACK = 1e-6
"""How far the mass shares of one line may add up past 1, for rounded sheets; assumption."""


def recipe_problems(lines: Sequence[RecipeLine]) -> tuple[Problem, ...]:
    """Return every problem that keeps a recipe from becoming grams; empty for a sound one.

    Parameters
    ----------
    lines
        Recipe in pouring order.

    Returns
    -------
    Problems in the order of the lines: no line at all; a first line that is not the base colour in parts;
    an amount below 0 or not finite; a basis or reference left open; a density outside 0.6 to 2.5 g/mL or
    missing where a volume must become grams; mass shares outside 0 to 1 or adding up past 1; lines in
    per cent of the finished mix that do not stand last, differ in basis or leave no room.
    """
    if not lines:
        return (Problem("recipe", message("recipe.no-line"), message("recipe.start-with-the-base")),)
    faults: list[Problem] = []
    first = lines[0]
    if first.kind != "parts" or first.role != "base" or not first.amount > 0.0:
        hint = message("recipe.base-first")
        faults.append(Problem("recipe[1].role", message("recipe.first-line-is-not-the-base"), hint))
    for index, line in enumerate(lines):
        faults.extend(_line_faults(index + 1, line))
        faults.extend(_density_faults(lines, index))
    faults.extend(_final_faults(lines))
    return tuple(faults)


def _line_faults(number: int, line: RecipeLine) -> Iterator[Problem]:
    """Faults of one line by itself."""
    name = Name(line.name)
    if not (math.isfinite(line.amount) and line.amount >= 0.0):
        yield Problem(
            f"recipe[{number}].amount",
            message("recipe.amount-below-nothing", line=name),
            message("recipe.write-a-number"),
        )
    if line.basis is None:
        yield Problem(
            f"recipe[{number}].basis",
            message("recipe.no-basis", line=name),
            message("recipe.ask-for-the-basis"),
        )
    if line.kind == "percent" and line.of is None:
        yield Problem(
            f"recipe[{number}].of",
            message("recipe.percent-of-what", line=name),
            message("recipe.ask-for-the-reference"),
        )
    shares = (line.voc_mass_fraction, line.water_mass_fraction, line.exempt_mass_fraction)
    if any(share is not None and not 0.0 <= share <= 1.0 for share in shares):
        yield Problem(
            f"recipe[{number}].voc_mass_fraction",
            message("recipe.share-outside", line=name),
            message("recipe.how-shares-are-written"),
        )
    elif math.fsum(share or 0.0 for share in shares) > 1.0 + SHARE_SLACK:
        what = message("recipe.shares-above-the-whole", line=name)
        yield Problem(f"recipe[{number}].voc_mass_fraction", what, message("recipe.shares-add-up-to-one"))


def _density_faults(lines: Sequence[RecipeLine], index: int) -> Iterator[Problem]:
    """Faults of one line's density: outside the range, or missing where it is needed."""
    line = lines[index]
    density = line.density_g_ml
    if density is not None and not DENSITY_LOW_G_ML <= density <= DENSITY_HIGH_G_ML:
        what = message(
            "recipe.density-outside",
            line=Name(line.name),
            density_g_ml=density,
            low_g_ml=DENSITY_LOW_G_ML,
            high_g_ml=DENSITY_HIGH_G_ML,
        )
        yield Problem(f"recipe[{index + 1}].density_g_ml", what, DENSITY_HINT)
    if density is None and (line.basis == "volume" or _is_reference_by_volume(lines, index)):
        yield _missing_density(index, line)


def _is_reference_by_volume(lines: Sequence[RecipeLine], index: int) -> bool:
    """Tell whether a later percentage by volume counts this line."""
    return any(
        later.kind == "percent"
        and later.basis == "volume"
        and (later.of in {"before", "final"} or (later.of == "base" and lines[index].role == "base"))
        for later in lines[index + 1 :]
    )


def _final_faults(lines: Sequence[RecipeLine]) -> Iterator[Problem]:
    """Faults of the lines in per cent of the finished mix, taken together."""
    finals = [index for index, line in enumerate(lines) if line.kind == "percent" and line.of == "final"]
    if not finals:
        return
    number = finals[0] + 1
    if finals != list(range(finals[0], len(lines))):
        what = message("recipe.line-after-the-final-ones")
        yield Problem(f"recipe[{number}].of", what, message("recipe.final-ones-last"))
    if len({lines[index].basis for index in finals}) > 1:
        what = message("recipe.final-ones-differ-in-basis")
        yield Problem(f"recipe[{number}].of", what, message("recipe.one-basis-for-all"))
    if not math.fsum(lines[index].amount for index in finals) < 100.0:
        what = message("recipe.no-room-for-the-base")
        yield Problem(f"recipe[{number}].amount", what, message("recipe.together-below-a-hundred"))


def relative_masses(lines: Sequence[RecipeLine]) -> tuple[float, ...]:
    """Return the mass of each line, all to one arbitrary scale.

    Parameters
    ----------
    lines
        Recipe in pouring order. Every percentage states its basis and its reference.

    Returns
    -------
    Masses in pouring order; only their ratios mean something.

    Raises
    ------
    InputError
        If the recipe has faults; all of them at once. A missing density is a fault only where a volume
        must be turned into a mass or back: it is never taken as 1.

    Notes
    -----
    With a the amount, rho the density and R the volume or mass of the reference::

        m = a rho            parts by volume                          (1)
        m = a                parts by mass                            (2)
        m = a / 100 R rho    percent by volume of R                   (3)
        m = a / 100 R        percent by mass of R                     (4)

    R is the base colour so far, all poured so far, or the finished mix. Lines in per cent of the finished
    mix stand last and share one basis, so R = (all before them) / (1 - sum a / 100).

    Sources
    -------
    Volumes add (ideal mixing), as the formula constants of ASTM D5201-05, 1.3 assume.
    """
    problems = recipe_problems(lines)
    if problems:
        raise InputError("", problems)
    final_share = sum(line.amount for line in lines if line.kind == "percent" and line.of == "final") / 100.0
    masses: list[float] = []
    before_final: list[float] | None = None
    for line in lines:
        if line.kind == "parts":
            masses.append(line.amount * _per_basis(line))
            continue
        if line.of == "final":
            before_final = before_final if before_final is not None else list(masses)
            reference = _reference(lines, before_final, line) / (1.0 - final_share)
        else:
            reference = _reference(lines, masses, line)
        masses.append(line.amount / 100.0 * reference * _per_basis(line))
    return tuple(masses)


def _per_basis(line: RecipeLine) -> float:
    """Mass of one unit of the line's own basis."""
    return _density(line) if line.basis == "volume" else 1.0


def _density(line: RecipeLine) -> float:
    """Density of a line; every caller has looked for missing ones before."""
    return cast("float", line.density_g_ml)


def _missing_density(index: int, line: RecipeLine) -> Problem:
    return Problem(
        f"recipe[{index + 1}].density_g_ml",
        message("recipe.density-missing", line=Name(line.name)),
        DENSITY_HINT,
    )


def _reference(lines: Sequence[RecipeLine], masses: Sequence[float], line: RecipeLine) -> float:
    """Volume or mass that a percentage refers to, from what is poured so far."""
    counted = [
        (mass, poured)
        for mass, poured in zip(masses, lines, strict=False)
        if line.of != "base" or poured.role == "base"
    ]
    if line.basis == "volume":
        return math.fsum(mass / _density(poured) for mass, poured in counted)
    return math.fsum(mass for mass, _ in counted)


def scale(
    lines: Sequence[RecipeLine], *, volume_ml: float | None = None, mass_g: float | None = None
) -> tuple[float, ...]:
    """Return the grams of each line for a wanted volume or mass of finished mix.

    Parameters
    ----------
    lines
        Recipe in pouring order.
    volume_ml, mass_g
        What is wanted [mL] or [g]; exactly one of them, finite and greater than 0.

    Returns
    -------
    Grams of each line, in pouring order [g].

    Raises
    ------
    ValueError
        If not exactly one size is given, or it is not a finite number above 0.
    InputError
        If the recipe has faults, or a volume is wanted and a density is missing.

    Notes
    -----
    Grams are exact; volumes are "about": blends of water and alcohol ethers shrink by up to 1 to 2 %
    (from memory), which the ideal mixing used here leaves out.
    """
    if (volume_ml is None) == (mass_g is None):
        raise ValueError("give exactly one of volume_ml and mass_g")
    wanted = volume_ml if volume_ml is not None else mass_g
    if wanted is None or not (math.isfinite(wanted) and wanted > 0.0):
        raise ValueError("volume_ml or mass_g must be a finite number above 0")
    masses = relative_masses(lines)
    whole = mix_volume_ml(lines, masses) if volume_ml is not None else math.fsum(masses)
    return tuple(mass * wanted / whole for mass in masses)


def mix_volume_ml(lines: Sequence[RecipeLine], masses_g: Sequence[float]) -> float:
    """Return the volume of a mix [mL] if volumes add.

    Parameters
    ----------
    lines, masses_g
        Recipe and the grams of each line [g].

    Raises
    ------
    InputError
        If a line with mass has no density.
    """
    faults = tuple(
        _missing_density(index, line)
        for index, (line, mass) in enumerate(zip(lines, masses_g, strict=True))
        if mass > 0.0 and line.density_g_ml is None
    )
    if faults:
        raise InputError("", faults)
    return math.fsum(mass / _density(line) for line, mass in zip(lines, masses_g, strict=True) if mass > 0.0)


def mix_density_g_ml(lines: Sequence[RecipeLine]) -> float:
    """Return the density of the finished mix [g/mL]: sum of masses over sum of volumes."""
    masses = relative_masses(lines)
    return math.fsum(masses) / mix_volume_ml(lines, masses)
