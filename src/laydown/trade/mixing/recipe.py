"""A recipe becomes grams: relative masses, scaling to a batch, density and solids of the mix.

Sources: mass and volume balance, volumes add; definition.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import cast

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


@dataclass(frozen=True, slots=True)
class RecipeFault:
    """One fault of a recipe.

    Attributes
    ----------
    line
        Which line, counted from 1; 0 for the recipe as a whole.
    field
        Which field of the line.
    what
        What is wrong.
    hint
        How to mend it.
    """

    line: int
    field: str
    what: str
    hint: str


class RecipeError(ValueError):
    """A recipe that cannot become grams; carries every fault.

    Attributes
    ----------
    faults
        All faults found, in the order of the lines.
    """

    def __init__(self, faults: tuple[RecipeFault, ...]) -> None:
        super().__init__("; ".join(f"line {fault.line}: {fault.what} ({fault.hint})" for fault in faults))
        self.faults = faults


def recipe_faults(lines: Sequence[RecipeLine]) -> tuple[RecipeFault, ...]:
    """Return every fault that keeps a recipe from becoming grams; empty for a sound one.

    Parameters
    ----------
    lines
        Recipe in pouring order.

    Returns
    -------
    Faults in the order of the lines: no line at all; a first line that is not the base colour in parts;
    an amount below 0 or not finite; a basis or reference left open; a density outside 0.6 to 2.5 g/mL or
    missing where a volume must become grams; mass shares outside 0 to 1 or adding up past 1; lines in
    per cent of the finished mix that do not stand last, differ in basis or leave no room.
    """
    if not lines:
        return (RecipeFault(0, "recipe", "the recipe has no line", "start with the base colour"),)
    faults: list[RecipeFault] = []
    first = lines[0]
    if first.kind != "parts" or first.role != "base" or not first.amount > 0.0:
        hint = "put the base colour first, in parts above 0"
        faults.append(RecipeFault(1, "role", "the first line is not the base colour in parts", hint))
    for index, line in enumerate(lines):
        faults.extend(_line_faults(index + 1, line))
        faults.extend(_density_faults(lines, index))
    faults.extend(_final_faults(lines))
    return tuple(faults)


def _line_faults(number: int, line: RecipeLine) -> Iterator[RecipeFault]:
    """Faults of one line by itself."""
    if not (math.isfinite(line.amount) and line.amount >= 0.0):
        yield RecipeFault(number, "amount", f"the amount of {line.name} is not 0 or more", "write a number")
    if line.basis is None:
        yield RecipeFault(
            number, "basis", f"{line.name} is neither by volume nor by mass", "ask the sheet: volume or mass"
        )
    if line.kind == "percent" and line.of is None:
        yield RecipeFault(
            number,
            "of",
            f"{line.name}: percent of what?",
            "ask the sheet: of base, of all before, or of final",
        )
    shares = (line.voc_mass_fraction, line.water_mass_fraction, line.exempt_mass_fraction)
    if any(share is not None and not 0.0 <= share <= 1.0 for share in shares):
        yield RecipeFault(
            number, "voc_mass_fraction", f"a share of {line.name} is outside 0 to 1", "0.55 is 55 %"
        )
    elif math.fsum(share or 0.0 for share in shares) > 1.0 + SHARE_SLACK:
        what = f"solvent, water and exempt solvent of {line.name} are more than the whole"
        yield RecipeFault(number, "voc_mass_fraction", what, "shares of one mass add up to 1 at most")


def _density_faults(lines: Sequence[RecipeLine], index: int) -> Iterator[RecipeFault]:
    """Faults of one line's density: outside the range, or missing where it is needed."""
    line = lines[index]
    density = line.density_g_ml
    if density is not None and not DENSITY_LOW_G_ML <= density <= DENSITY_HIGH_G_ML:
        what = f"the density of {line.name}, {density:g} g/mL, is outside 0.6 to 2.5"
        yield RecipeFault(index + 1, "density_g_ml", what, DENSITY_HINT)
    if density is None and (line.basis == "volume" or _is_reference_by_volume(lines, index)):
        what = f"the density of {line.name} is missing and a volume must become grams"
        yield RecipeFault(index + 1, "density_g_ml", what, DENSITY_HINT)


def _is_reference_by_volume(lines: Sequence[RecipeLine], index: int) -> bool:
    """Tell whether a later percentage by volume counts this line."""
    return any(
        later.kind == "percent"
        and later.basis == "volume"
        and (later.of in {"before", "final"} or (later.of == "base" and lines[index].role == "base"))
        for later in lines[index + 1 :]
    )


def _final_faults(lines: Sequence[RecipeLine]) -> Iterator[RecipeFault]:
    """Faults of the lines in per cent of the finished mix, taken together."""
    finals = [index for index, line in enumerate(lines) if line.kind == "percent" and line.of == "final"]
    if not finals:
        return
    number = finals[0] + 1
    if finals != list(range(finals[0], len(lines))):
        what = "a line follows one that is in per cent of the finished mix"
        yield RecipeFault(number, "of", what, "put lines in per cent of the finished mix last")
    if len({lines[index].basis for index in finals}) > 1:
        what = "lines in per cent of the finished mix differ in basis"
        yield RecipeFault(number, "of", what, "write them all by volume or all by mass")
    if not math.fsum(lines[index].amount for index in finals) < 100.0:
        what = "lines in per cent of the finished mix leave no room for the base"
        yield RecipeFault(number, "amount", what, "together they stay below 100")


def unusual_densities(lines: Sequence[RecipeLine]) -> tuple[int, ...]:
    """Return the lines, counted from 1, whose density is accepted but rare: outside 0.75 to 1.6 g/mL."""
    return tuple(
        index + 1
        for index, line in enumerate(lines)
        if line.density_g_ml is not None
        and not USUAL_DENSITY_LOW_G_ML <= line.density_g_ml <= USUAL_DENSITY_HIGH_G_ML
    )


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
    RecipeError
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
    Definition; volumes add (ideal mixing), as the formula constants of ASTM D5201-05, 1.3 assume.
    """
    faults = recipe_faults(lines)
    if faults:
        raise RecipeError(faults)
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


def _missing_density(index: int, line: RecipeLine) -> RecipeFault:
    return RecipeFault(
        index + 1,
        "density_g_ml",
        f"the density of {line.name} is missing and a volume must become grams",
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
    RecipeError
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
    RecipeError
        If a line with mass has no density.
    """
    faults = tuple(
        _missing_density(index, line)
        for index, (line, mass) in enumerate(zip(lines, masses_g, strict=True))
        if mass > 0.0 and line.density_g_ml is None
    )
    if faults:
        raise RecipeError(faults)
    return math.fsum(mass / _density(line) for line, mass in zip(lines, masses_g, strict=True) if mass > 0.0)


def mix_density_g_ml(lines: Sequence[RecipeLine]) -> float:
    """Return the density of the finished mix [g/mL]: sum of masses over sum of volumes."""
    masses = relative_masses(lines)
    return math.fsum(masses) / mix_volume_ml(lines, masses)


def mix_solids_volume_fraction(lines: Sequence[RecipeLine]) -> float | None:
    """Return the share of the finished mix that stays as dry film, by volume; None if a line is silent.

    Parameters
    ----------
    lines
        Lines of a sound recipe.
    """
    masses = relative_masses(lines)
    volume_ml = mix_volume_ml(lines, masses)
    solids = 0.0
    for line, mass in zip(lines, masses, strict=True):
        if line.solids_volume_fraction is None:
            return None
        if mass > 0.0:
            solids += mass / _density(line) * line.solids_volume_fraction
    return solids / volume_ml


def density_from_weighing_g_ml(mass_g: float, volume_ml: float = 100.0) -> float:
    """Return the density of a liquid from a weighed volume [g/mL].

    Parameters
    ----------
    mass_g
        Grams on the scale, cup taken off, greater than 0 [g].
    volume_ml
        What was measured out, greater than 0 [mL].
    """
    if not (mass_g > 0.0 and volume_ml > 0.0):
        raise ValueError("mass_g and volume_ml must be above 0")
    return mass_g / volume_ml
