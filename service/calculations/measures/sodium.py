"""Sodium told as salt."""

from service.calculations.measures.spoons import Grams
from service.quantities.bands import WeightBand, present_band
from service.quantities.quantity import Units
from service.rules.ingredient import Ingredient

SODIUM_CHLORIDE = 58.44
SODIUM = 22.99
"""Molar masses, g/mol (from memory)."""


def salt_equivalent_fraction(sodium_fraction: float) -> float:
    r"""Salt that holds the sodium of an ingredient, as food labels reckon it.

    .. math:: salt = sodium \times M_{NaCl} / M_{Na}

    Parameters
    ----------
    sodium_fraction : float
        Sodium by weight of the ingredient [fraction]

    Returns
    -------
    salt : float
        Sodium chloride with the same sodium, by weight of the ingredient [fraction]

    Notes
    -----
    From 0 to 0.3934, which is pure salt. An upper bound of the salt where part of the sodium belongs to
    flavour enhancers.

    Examples
    --------
    >>> round(salt_equivalent_fraction(0.2275), 3)
    0.578

    References
    ----------
    Molar masses 58.44 and 22.99 g/mol, from memory; label practice reckons sodium x 2.54.
    """
    return sodium_fraction * SODIUM_CHLORIDE / SODIUM


def salt_in(ingredient: Ingredient, weight: Grams, units: Units) -> WeightBand | None:
    """Salt with the sodium of so much of an ingredient; never more than it weighs, None where none is known."""
    if ingredient.sodium is None:
        return None
    share = min(1.0, salt_equivalent_fraction(ingredient.sodium.fraction))
    return present_band(
        weight.low_g * share, typical_g=weight.typical_g * share, high_g=weight.high_g * share, units=units
    )
