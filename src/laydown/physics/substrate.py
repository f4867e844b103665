"""What lies under the paint: density, heat capacity and conductivity of sheet materials."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Substrate:
    """A sheet material.

    Attributes
    ----------
    density_g_ml
        Density [g/mL].
    heat_capacity_j_g_k
        Specific heat capacity [J/(g K)].
    conductivity_w_m_k
        Thermal conductivity [W/(m K)].
    """

    density_g_ml: float
    heat_capacity_j_g_k: float
    conductivity_w_m_k: float


SUBSTRATES: dict[str, Substrate] = {
    "steel": Substrate(7.85, 0.460, 52.0),
    "aluminium": Substrate(2.70, 0.900, 160.0),
    "plastic": Substrate(0.95, 1.850, 0.22),
    "polyurethane": Substrate(1.15, 1.500, 0.25),
    "glass fibre": Substrate(1.80, 1.050, 0.35),
}
"""Sheet steel, aluminium sheet, polypropylene blend, polyurethane bumper, glass-fibre laminate.

Handbook values from memory; alloys and blends differ by some per cent.
"""
