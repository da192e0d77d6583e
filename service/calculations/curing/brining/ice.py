"""How much heat ice takes up."""

from service.calculations.curing.brining.heat import brine_heat_kj_per_kg

FUSION_KJ_PER_KG = 333.55
"""Heat that a kilogram of ice takes up as it melts at 0 degC (CRC Handbook of Chemistry and Physics, from memory)."""


def ice_heat_kj_per_kg(temperature_c: float) -> float:
    r"""Heat of ice above that of water at 25 degC.

    .. math:: h = h_{water}(0) - 333.55 + 2.0623 t + 0.0030385 t^2

    Parameters
    ----------
    temperature_c : float
        Temperature of the ice [degC]

    Returns
    -------
    heat : float
        Heat of a kilogram, always negative [kJ/kg]

    Notes
    -----
    Range: -40 to 0 degC. Dry ice cubes: water that clings to them cools next to nothing.

    Examples
    --------
    >>> round(ice_heat_kj_per_kg(0), 1)
    -438.4

    References
    ----------
    Heat of fusion: CRC Handbook of Chemistry and Physics, from memory. Heat capacity of ice: Choi and Okos, 1986
    (reported).
    """
    return (
        brine_heat_kj_per_kg(0.0, temperature_c=0.0)
        - FUSION_KJ_PER_KG
        + temperature_c * (2.0623 + 0.0030385 * temperature_c)
    )
