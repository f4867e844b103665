"""What can be wrong with a recipe before it becomes grams: every fault at once.

Sources: definition; usual densities: common practice, no source.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from laydown.schema.recipe import DENSITY_HINT, RecipeLine

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
