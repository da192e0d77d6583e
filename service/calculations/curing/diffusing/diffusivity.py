"""How quickly salt moves in cold meat, and how far published measurements lie apart."""

from math import exp
from typing import NamedTuple

GAS_CONSTANT_J_PER_MOL_K = 8.314462618
"""SI, exact to the digits given."""
REFERENCE_K = 277.15
"""4 degC: where the three diffusivities below hold."""
ICE_K = 273.15
MM2_PER_D = 86_400e6
"""Square millimetres per day in one square metre per second."""


class Speed(NamedTuple):
    """One reading of the published diffusivities: at 4 degC, and how it changes with warmth."""

    at_4_c_m2_per_s: float
    activation_kj_per_mol: float


SLOW, TYPICAL, QUICK = Speed(1.5e-10, 35), Speed(2.5e-10, 25), Speed(4.0e-10, 18)
"""Salt in meat at 4 degC. The typical value is fitted inside published measurements, the others span most of them.

Pork loin in brine at 5 degC: 1.9e-10 (Food Engineering Series 2015, ch. 47); pork by magnetic resonance: 3 to 7e-10
(Hansen 2008, Meat Science 80:851); beef: 1.4 to 9.4e-10 (Polish Journal of Food and Nutrition Sciences 48(1):59, 1998).
Activation energy of nitrate in pork: 24.7 kJ/mol across the fibres (Gomez 2017, Journal of Food Engineering 214:69).
"""


def salt_diffusivity_mm2_per_d(speed: Speed, temperature_c: float) -> float:
    r"""Effective diffusivity of salt in the water of the meat.

    .. math:: D(T) = D_{4} \exp\left[-\frac{E_a}{R} \left(\frac{1}{T} - \frac{1}{277.15}\right)\right]

    Parameters
    ----------
    speed : Speed
        Which reading of the published values
    temperature_c : float
        Temperature of the meat [degC]

    Returns
    -------
    diffusivity : float
        Effective diffusivity [mm2/d]

    Raises
    ------
    ZeroDivisionError
        At absolute zero.

    Notes
    -----
    From -1 to 5 degC. Taken as the same in every direction and at every strength of salt; measurements on lean meat
    disagree about both. Fat, skin and gristle hold salt back far more.

    Examples
    --------
    >>> round(salt_diffusivity_mm2_per_d(TYPICAL, 4.0), 2)
    21.6
    >>> round(salt_diffusivity_mm2_per_d(TYPICAL, 0.0) / MM2_PER_D, 12)
    2.13e-10

    References
    ----------
    Arrhenius' law; values and their sources stand at SLOW, TYPICAL and QUICK above.
    """
    per_j_mol = 1 / (temperature_c + ICE_K) - 1 / REFERENCE_K
    change_ratio = exp(-1000 * speed.activation_kj_per_mol / GAS_CONSTANT_J_PER_MOL_K * per_j_mol)
    return speed.at_4_c_m2_per_s * MM2_PER_D * change_ratio
