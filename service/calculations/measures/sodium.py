"""Sodium told as salt."""

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
