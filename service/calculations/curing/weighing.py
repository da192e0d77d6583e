"""The amounts as a kitchen scale can weigh them."""

from typing import NamedTuple

from service.calculations.curing.amounts import Amounts, Recipe, Steps
from service.calculations.curing.pickle import solved_pickle_g
from service.quantities.scale import Scale


class Weighed(NamedTuple):
    """What the scale will show, and the curing salt for that pickle before it was rounded down."""

    amounts: Amounts
    steps: Steps
    curing_salt_before_rounding_g: float


def weighed(recipe: Recipe, exact: Amounts, scale: Scale) -> Weighed:
    """The amounts as the scale shows them: salt and sugar to the nearest step, what has a ceiling down.

    The curing salt is worked out again for the pickle as weighed, so that rounding the others never lifts it.
    """
    salt, sugar = scale.steps_nearest(exact.salt_g), scale.steps_nearest(exact.sugar_g)
    salt_g, sugar_g = scale.shown_g(salt), scale.shown_g(sugar)
    accelerator = scale.steps_down(exact.accelerator_g)
    while True:
        shown_g = scale.shown_g(accelerator)
        others = exact.on_scale(curing_salt_g=0.0, salt_g=salt_g, sugar_g=sugar_g, accelerator_g=shown_g)
        curing_salt_g = _curing_salt_for_weighed_g(recipe, exact, others)
        curing_salt = scale.steps_down(curing_salt_g)
        cure_g = scale.shown_g(curing_salt)
        amounts = exact.on_scale(curing_salt_g=cure_g, salt_g=salt_g, sugar_g=sugar_g, accelerator_g=shown_g)
        if not accelerator or _accelerator_share(recipe, amounts) <= _accelerator_share(recipe, exact) * (1 + 1e-12):
            return Weighed(amounts, Steps(curing_salt, salt, sugar, accelerator), curing_salt_g)
        accelerator -= 1


def _curing_salt_for_weighed_g(recipe: Recipe, exact: Amounts, others: Amounts) -> float:
    """Curing salt that gives the exact reading in the pickle as weighed."""
    if recipe.bath is None:
        return exact.curing_salt_g
    bath, exact_g = recipe.bath, exact.pickle_g
    k = exact.curing_salt_g / exact_g * bath.uptake_fraction(exact_g)
    pickle_g = solved_pickle_g(bath, constant_g=others.pickle_g, share_fraction=0.0, k_fraction=k)
    return k * pickle_g / bath.uptake_fraction(pickle_g)


def _accelerator_share(recipe: Recipe, amounts: Amounts) -> float:
    if recipe.bath is None:
        return amounts.accelerator_g / amounts.green_g
    pickle_g = amounts.pickle_g
    return amounts.accelerator_g / pickle_g * recipe.bath.uptake_fraction(pickle_g)
