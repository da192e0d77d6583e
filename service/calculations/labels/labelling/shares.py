"""What share of the whole an ingredient is, and how much solution was added to the meat."""


def share_percent(part_g: float, *, whole_g: float) -> float:
    """Share of an ingredient in everything that goes in.

    share_percent = 100 * part_g / whole_g

    Parameters
    ----------
    part_g : float
        Weight of the ingredient as it goes in [g].
    whole_g : float
        Weight of everything that goes in [g].

    Returns
    -------
    float
        Its share [percent].

    Notes
    -----
    Shares are of what goes in, before anything is lost in cooking or drying.

    Examples
    --------
    >>> share_percent(20.0, whole_g=1000.0)
    2.0

    References
    ----------
    9 CFR 317.2(f)(1): order of predominance by weight of what goes in (common practice).
    """
    return 100.0 * part_g / whole_g


def added_solution_percent(solution_g: float, *, meat_g: float) -> float:
    """Solution that was added to raw meat, as its name has to say.

    added_solution_percent = 100 * solution_g / meat_g

    Parameters
    ----------
    solution_g : float
        Weight of everything in the solution [g].
    meat_g : float
        Weight of the raw meat without solution and anything else [g].

    Returns
    -------
    float
        Added solution [percent].

    Notes
    -----
    It is by the meat alone, not by the whole: 10 g in 100 g of meat are 10 percent, although the piece weighs 110 g.

    Examples
    --------
    >>> added_solution_percent(1.5, meat_g=10.0)
    15.0

    References
    ----------
    9 CFR 317.2(e)(2)(i): total weight of the solution ingredients divided by the weight of the raw meat without
    solution or any other added ingredients, multiplied by 100.
    """
    return 100.0 * solution_g / meat_g
