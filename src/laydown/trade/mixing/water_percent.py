"""A percentage the sheet leaves open: the house convention, and every reading with its grams.

Sources: meanings of "x percent" found on data sheets; definition.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Basis, PercentOf, RecipeLine
from laydown.trade.mixing.recipe import scale

HOUSE_PERCENT_OF: PercentOf = "base"
"""What a percentage is taken of where the sheet is silent: the base colour before any addition.

Common practice, no source.
"""


@dataclass(frozen=True, slots=True)
class PercentReading:
    """One possible reading of a percentage that the sheet leaves open.

    Attributes
    ----------
    of, basis
        The reading.
    house
        Whether it is the house convention, which a plan goes on with until somebody has asked.
    masses_g
        Grams of every line under this reading [g]; ``None`` where a density is missing for it.
    """

    of: PercentOf
    basis: Basis
    house: bool
    masses_g: tuple[float, ...] | None


def ratio_basis(lines: Sequence[RecipeLine]) -> Basis:
    """Return the basis of the sheet's ratio line: that of the first line in parts.

    Parameters
    ----------
    lines
        Lines of the recipe.

    Raises
    ------
    InputError
        If no line in parts states a basis.
    """
    for line in lines:
        if line.kind == "parts" and line.basis is not None:
            return line.basis
    raise InputError(
        "",
        (
            Problem(
                "recipe[1].basis",
                message("recipe.ratio-without-basis"),
                message("recipe.write-volume-or-mass"),
            ),
        ),
    )


def in_house_convention(lines: Sequence[RecipeLine]) -> tuple[RecipeLine, ...]:
    """Return the recipe with every open percentage read by the house convention.

    Parameters
    ----------
    lines
        Recipe in pouring order.

    Returns
    -------
    The same lines; a percentage that does not say of what is read as percent of the base colour before
    any addition, and one without a basis takes that of the ratio line.

    Raises
    ------
    InputError
        If no line in parts states a basis.

    Sources
    -------
    Common practice, no source.
    """
    basis = ratio_basis(lines)
    return tuple(
        replace(line, of=line.of or HOUSE_PERCENT_OF, basis=line.basis or basis)
        if line.kind == "percent"
        else line
        for line in lines
    )


def readings_of_percent(
    lines: Sequence[RecipeLine],
    index: int,
    *,
    volume_ml: float | None = None,
    mass_g: float | None = None,
) -> tuple[PercentReading, ...]:
    """Return every reading of one unclear percentage, with the grams each of them leads to.

    Parameters
    ----------
    lines
        Recipe in pouring order; other unclear percentages are held at the house convention.
    index
        Which line is in doubt, from 0; it must be a percentage.
    volume_ml, mass_g
        Size of the batch [mL] or [g]; exactly one, greater than 0.

    Returns
    -------
    One reading for each combination of reference and basis that the sheet has not ruled out, the house
    convention first.

    Raises
    ------
    ValueError
        If the line is not a percentage or the size of the batch is wrong.
    InputError
        If the recipe has a fault beside the open percentage.

    Notes
    -----
    Nothing is chosen here: the plan shows the spread and asks.
    """
    doubt = lines[index]
    if doubt.kind != "percent":
        raise ValueError("index must name a line in per cent")
    held = in_house_convention(lines)
    house = held[index]
    references: tuple[PercentOf, ...] = ("base", "before", "final") if doubt.of is None else (doubt.of,)
    bases: tuple[Basis, ...] = ("volume", "mass") if doubt.basis is None else (doubt.basis,)
    readings = []
    for of in references:
        for basis in bases:
            tried = (*held[:index], replace(doubt, of=of, basis=basis), *held[index + 1 :])
            readings.append(
                PercentReading(
                    of,
                    basis,
                    house=(of, basis) == (house.of, house.basis),
                    masses_g=_scaled_or_none(tried, volume_ml, mass_g),
                )
            )
    return tuple(sorted(readings, key=lambda reading: not reading.house))


def _scaled_or_none(
    lines: Sequence[RecipeLine], volume_ml: float | None, mass_g: float | None
) -> tuple[float, ...] | None:
    """Grams under one reading, or None where only a density or the order of lines stands in its way."""
    try:
        return scale(lines, volume_ml=volume_ml, mass_g=mass_g)
    except InputError as error:
        if all(one.where.endswith((".density_g_ml", ".of")) for one in error.problems):
            return None
        raise
