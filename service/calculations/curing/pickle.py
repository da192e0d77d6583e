"""The weight of a pickle whose parts depend on that weight."""

from typing import NamedTuple

from service.calculations.curing.amounts import Recipe
from service.calculations.curing.methods import Bath
from service.calculations.refusals import Impossible

NEWTON_STEPS = 60
NEWTON_ENOUGH = 1e-10
"""Relative change after which the next step, whose error is the square of it, would change nothing."""


class Line(NamedTuple):
    """A weight that may grow with the pickle: constant_g + per_pickle_fraction x pickle."""

    constant_g: float = 0.0
    per_pickle_fraction: float = 0.0

    def at_g(self, pickle_g: float) -> float:
        return self.constant_g + self.per_pickle_fraction * pickle_g


NOTHING = Line()


def percent_line(recipe: Recipe, percent: float | None) -> Line:
    """What a percentage asks for.

    Of the green weight for a dry or comminuted cure; of meat plus water for an immersion; for a pump, of the green
    weight, in the share of the pickle that stays in.
    """
    if percent is None:
        return NOTHING
    if recipe.bath is None:
        return Line(percent / 100 * recipe.meat_g)
    if recipe.bath.immersed:
        return Line(percent / 100 * (recipe.meat_g + recipe.water_g))
    return Line(per_pickle_fraction=percent / 100 * recipe.meat_g / recipe.bath.injected_g)


def solved_pickle_g(bath: Bath, *, constant_g: float, share_fraction: float, k_fraction: float) -> float:
    r"""How heavy a pickle is whose salt and curing salt are reckoned on the pickle itself.

    .. math:: pickle = constant + share \times pickle + k \times pickle / uptake(pickle)

    Parameters
    ----------
    bath : Bath
        The ways in which the pickle gets into the meat, which give uptake(pickle)
    constant_g : float
        Water and whatever else does not grow with the pickle [g]
    share_fraction : float
        What is asked for as a share of the pickle [fraction]
    k_fraction : float
        What is asked for per green weight, and reaches it through the uptake [fraction]

    Returns
    -------
    pickle_g : float
        Weight of the whole pickle [g]

    Raises
    ------
    Impossible
        When no water is left (share of 1 or more), or no weight of pickle suffices (the pole of the inverse formula).

    Notes
    -----
    Newton's method: exact in one step for a pump, a pick-up or a bath at equilibrium, in which the equation is linear.
    A pump followed by a cover at equilibrium takes three or four.

    Examples
    --------
    >>> from service.calculations.curing.methods import Bath
    >>> pumped = Bath(
    ...     green_g=1000, injected_g=100, pick_up_fraction=0.0, equilibrium=False, immersed=False
    ... )
    >>> round(solved_pickle_g(pumped, constant_g=975, share_fraction=0.0, k_fraction=0.0025), 6)  # 2.5 % is curing salt
    1000.0

    References
    ----------
    Derived here from the formulas of ingoing.py with the weight of the curing salt counted in the pickle.
    """
    if constant_g <= 0 or share_fraction >= 1:
        raise no_room_for_water()
    pickle_g = max(constant_g / (1 - share_fraction), bath.injected_g)
    uptake = bath.taken_up_fraction
    growth = 1 / uptake if uptake else 0.0
    for _ in range(NEWTON_STEPS):
        if bath.equilibrium:
            uptake = bath.uptake_fraction(pickle_g)
            growth = 1 / uptake - pickle_g * bath.uptake_fraction_per_g(pickle_g) / uptake**2
        slope = 1 - share_fraction - k_fraction * growth
        if slope <= 0:
            raise too_weak("No weight of pickle suffices: it would have to be mostly curing salt.")
        change_g = (pickle_g * (1 - share_fraction) - constant_g - k_fraction * pickle_g / uptake) / slope
        pickle_g -= change_g
        if abs(change_g) <= NEWTON_ENOUGH * pickle_g:
            break
    return pickle_g


def too_weak(reason: str) -> Impossible:
    return Impossible(
        code="curing_salt_too_weak",
        reason=reason,
        nearest="Use a stronger curing salt, a lower target or a larger pump.",
    )


def no_room_for_water() -> Impossible:
    return Impossible(
        code="no_room_for_water",
        reason="The salt, sugar and curing salt asked for leave no room for water in the pickle.",
        nearest="Ask for less salt and sugar, or pump more.",
    )
