"""The amounts as a kitchen scale can weigh them."""

from typing import NamedTuple

from service.calculations.curing.amounts import Amounts, Display, Recipe
from service.calculations.curing.pickle import solved_pickle_g
from service.calculations.curing.readings import Readings
from service.quantities.scale import Scale


class Weighed(NamedTuple):
    """What the scale will show, and the curing salt for that pickle before it was rounded down."""

    amounts: Amounts
    display: Display
    curing_salt_before_rounding_g: float


def weighed(asked: Readings, scale: Scale) -> Weighed:
    """The amounts as the scale shows them: salt and sugar to the nearest step, what has a ceiling down.

    The curing salt is worked out again for the pickle as weighed, so that rounding the others never lifts it.
    """
    recipe, exact, unit_g = asked.recipe, asked.amounts, scale.unit_g
    salt, sugar = scale.nearest(exact.salt_g), scale.nearest(exact.sugar_g)
    salt_g, sugar_g = salt * unit_g, sugar * unit_g
    steps = scale.steps_down(exact.accelerator_g)
    while True:
        accelerator = scale.reading(steps)
        accelerator_g = accelerator * unit_g
        others_g = recipe.unrounded_g + salt_g + sugar_g + accelerator_g
        curing_salt_g = _curing_salt_for_weighed_g(asked, others_g)
        curing_salt = scale.down(curing_salt_g)
        amounts = exact.on_scale(
            curing_salt_g=curing_salt * unit_g, salt_g=salt_g, sugar_g=sugar_g, accelerator_g=accelerator_g
        )
        if not steps or _accelerator_share(recipe, amounts) <= _accelerator_share(recipe, exact) * (1 + 1e-12):
            return Weighed(amounts, Display(curing_salt, salt, sugar, accelerator, scale.unit), curing_salt_g)
        steps -= 1


def _curing_salt_for_weighed_g(asked: Readings, others_g: float) -> float:
    """Curing salt that gives the exact reading in the pickle as weighed."""
    bath, bases, exact_g = asked.recipe.bath, asked.bases, asked.amounts.curing_salt_g
    if bath is None:
        return exact_g
    k = exact_g / bases.pickle_g * bases.uptake_fraction
    pickle_g = solved_pickle_g(bath, constant_g=others_g, share_fraction=0.0, k_fraction=k)
    return k * pickle_g / bath.uptake_fraction(pickle_g)


def _accelerator_share(recipe: Recipe, amounts: Amounts) -> float:
    if recipe.bath is None:
        return amounts.accelerator_g / amounts.green_g
    pickle_g = amounts.pickle_g
    return amounts.accelerator_g / pickle_g * recipe.bath.uptake_fraction(pickle_g)
