"""The published formulas of ingoing nitrite, and their inverses. Each works for any additive."""


def ingoing_ppm(*, additive_g: float, green_g: float) -> float:
    r"""What was put on or mixed in, per million of green weight.

    .. math:: ppm = additive / green \times 10^6

    Parameters
    ----------
    additive_g : float
        Nitrite, nitrate or accelerator that goes in [g]
    green_g : float
        Green weight: raw meat before anything is added; for bacon without its skin [g]

    Returns
    -------
    ppm : float
        Ingoing amount [ppm]

    Raises
    ------
    ZeroDivisionError
        When green_g is zero.

    Notes
    -----
    For dry cures (every reapplication counted) and comminuted meat. Water, ice, spice and casings are not in the
    denominator.

    Examples
    --------
    >>> ingoing_ppm(additive_g=0.25, green_g=1600)  # 1/4 oz to 100 lb
    156.25

    References
    ----------
    FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995, p. 15 and p. 24 (reported).
    """
    return additive_g * 1e6 / green_g


def ingoing_from_pickle_ppm(*, additive_g: float, pickle_g: float, uptake_fraction: float) -> float:
    r"""What a pickle brings into the meat, per million of green weight.

    .. math:: ppm = additive \times uptake / pickle \times 10^6

    Parameters
    ----------
    additive_g : float
        Additive in the whole pickle [g]
    pickle_g : float
        The whole pickle: water, ice, salt, sugar, curing salt and everything else in it [g]
    uptake_fraction : float
        Pickle that stays in per green weight: the pump, the stated pick-up, or their sum [fraction]

    Returns
    -------
    ppm : float
        Ingoing amount [ppm]

    Raises
    ------
    ZeroDivisionError
        When pickle_g is zero.

    Notes
    -----
    A pickle is weighed, never measured: the figure printed as 2 lb to 100 gal at 10 percent pump is 200 ppm only for
    a pickle of 10 lb per gallon.

    Examples
    --------
    >>> round(ingoing_from_pickle_ppm(additive_g=32 * 0.0588, pickle_g=1266, uptake_fraction=0.10), 4)
    148.6256

    References
    ----------
    FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995, p. 19 (pumped) and p. 22 (immersion,
    method one) (reported).
    """
    return additive_g * uptake_fraction * 1e6 / pickle_g


def ingoing_at_equilibrium_ppm(*, additive_g: float, green_g: float, pickle_g: float) -> float:
    r"""What meat and pickle hold once they are one system.

    .. math:: ppm = additive / (green + pickle) \times 10^6

    Parameters
    ----------
    additive_g : float
        Additive in the whole pickle [g]
    green_g : float
        Green weight [g]
    pickle_g : float
        The whole pickle [g]

    Returns
    -------
    ppm : float
        Amount at equilibrium [ppm]

    Raises
    ------
    ZeroDivisionError
        When green_g and pickle_g are both zero.

    Notes
    -----
    Holds for a piece that is left in until nothing moves any more; says nothing of how long that takes.

    Examples
    --------
    >>> round(ingoing_at_equilibrium_ppm(additive_g=0.0059565, green_g=8, pickle_g=26.51), 1)
    172.6

    References
    ----------
    FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995, p. 22 (immersion, method two) (reported).
    """
    return additive_g * 1e6 / (green_g + pickle_g)


def ingoing_within_stay_ppm(*, pumped_ppm: float, system_ppm: float, share_fraction: float) -> float:
    r"""The most that a piece can have taken up from its pickle by the end of a stay.

    .. math:: ppm = pumped + share \times (system - pumped)

    Parameters
    ----------
    pumped_ppm : float
        Ingoing amount of the pump before; 0 without one [ppm]
    system_ppm : float
        Meat and pickle as one, at equilibrium [ppm]
    share_fraction : float
        How much of the way there the piece can have gone [fraction]

    Returns
    -------
    ppm : float
        The most by then [ppm]

    Raises
    ------
    Nothing.

    Notes
    -----
    A minimum is credited with no more than this, whatever pick-up is stated. A pump is taken to be spread evenly when
    the cover begins.

    Examples
    --------
    >>> ingoing_within_stay_ppm(pumped_ppm=0, system_ppm=270, share_fraction=0.1)
    27.0

    References
    ----------
    Relaxation from an even start to a common end, which is linear: Crank, The Mathematics of Diffusion, 2nd ed. 1975,
    section 4.3.5 (from memory).
    """
    return pumped_ppm + share_fraction * (system_ppm - pumped_ppm)


def ingoing_after_stay_ppm(
    *, pumped_ppm: float, taken_up_ppm: float, system_ppm: float, share_fraction: float
) -> float:
    r"""What a piece can hold when it is taken out of its pickle, before both have become one.

    .. math:: ppm = \min(system, \max(taken, pumped + share \times (system - pumped)))

    Parameters
    ----------
    pumped_ppm : float
        Ingoing amount of the pump before; 0 without one [ppm]
    taken_up_ppm : float
        Ingoing amount of pump and pick-up, as they are stated [ppm]
    system_ppm : float
        Meat and pickle as one, at equilibrium [ppm]
    share_fraction : float
        How much of the way there the piece can have gone [fraction]

    Returns
    -------
    ppm : float
        The most by then: never under what is stated to be taken up, never over the whole system [ppm]

    Raises
    ------
    Nothing.

    Notes
    -----
    Held against a ceiling alone. A pump is taken to be spread evenly when the cover begins. Pick-up and exchange are
    not added: diffusivities are measured on all that a piece takes up.

    Examples
    --------
    >>> ingoing_after_stay_ppm(pumped_ppm=0, taken_up_ppm=120, system_ppm=300, share_fraction=0.5)
    150.0
    >>> ingoing_after_stay_ppm(pumped_ppm=80, taken_up_ppm=120, system_ppm=300, share_fraction=0.5)
    190.0

    References
    ----------
    Relaxation from an even start to a common end, which is linear: Crank, The Mathematics of Diffusion, 2nd ed. 1975,
    section 4.3.5 (from memory). The bounds on both sides are this project's own (decision 0011).
    """
    moved_ppm = ingoing_within_stay_ppm(pumped_ppm=pumped_ppm, system_ppm=system_ppm, share_fraction=share_fraction)
    return min(system_ppm, max(taken_up_ppm, moved_ppm))


def curing_salt_for_ppm_g(
    *, target_ppm: float, pickle_g: float, uptake_fraction: float, strength_fraction: float
) -> float:
    r"""How much curing salt a finished pickle must hold.

    .. math:: cure = target \times pickle / (10^6 \times strength \times uptake)

    Parameters
    ----------
    target_ppm : float
        Ingoing nitrite to reach [ppm]
    pickle_g : float
        The whole pickle, curing salt included; for a dry or comminuted cure the green weight [g]
    uptake_fraction : float
        Pickle that stays in per green weight; 1 for a dry or comminuted cure [fraction]
    strength_fraction : float
        Nitrite in the curing salt [fraction]

    Returns
    -------
    cure : float
        Curing salt [g]

    Raises
    ------
    ZeroDivisionError
        When the strength or the uptake is zero.

    Notes
    -----
    Inverse of ingoing_from_pickle_ppm. The pickle's own weight contains the answer: see pickle.py.

    Examples
    --------
    >>> round(curing_salt_for_ppm_g(target_ppm=120, pickle_g=45359.237, uptake_fraction=0.2, strength_fraction=1), 4)
    27.2155

    References
    ----------
    Derived from FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995, p. 19 (reported): 100 lb of
    pickle, 20 percent pump, 120 ppm: 0.06 lb of nitrite.
    """
    return target_ppm * pickle_g / (1e6 * strength_fraction * uptake_fraction)
