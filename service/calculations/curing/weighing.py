"""The amounts as a kitchen scale can weigh them."""

from dataclasses import dataclass, replace

from service.calculations.curing.amounts import Amounts, Recipe, Steps
from service.calculations.curing.pickle import solved_pickle_g
from service.quantities.scale import Scale


@dataclass(frozen=True, slots=True)
class Weighed:
    """What the scale will show, and the curing salt for that pickle before it was rounded down."""

    amounts: Amounts
    steps: Steps
    curing_salt_before_rounding_g: float


def weighed(recipe: Recipe, exact: Amounts, scale: Scale) -> Weighed:
    """The amounts as the scale shows them: salt and sugar to the nearest step, what has a ceiling down.

    The curing salt is worked out again for the pickle as weighed, so that rounding the others never lifts it.
    """
    salt, sugar = scale.steps_nearest(exact.salt_g), scale.steps_nearest(exact.sugar_g)
    accelerator = scale.steps_down(exact.accelerator_g)
    while True:
        others = _with(exact, scale, Steps(0, salt, sugar, accelerator))
        curing_salt_g = _curing_salt_for_weighed_g(recipe, exact, others)
        steps = Steps(scale.steps_down(curing_salt_g), salt, sugar, accelerator)
        amounts = _with(exact, scale, steps)
        if _accelerator_share(recipe, amounts) <= _accelerator_share(recipe, exact) * (1 + 1e-12):
            return Weighed(amounts, steps, curing_salt_g)
        accelerator -= 1


def _with(exact: Amounts, scale: Scale, steps: Steps) -> Amounts:
    return replace(
        exact,
        curing_salt_g=scale.shown_g(steps.curing_salt),
        salt_g=scale.shown_g(steps.salt),
        sugar_g=scale.shown_g(steps.sugar),
        accelerator_g=scale.shown_g(steps.accelerator),
    )


def _curing_salt_for_weighed_g(recipe: Recipe, exact: Amounts, others: Amounts) -> float:
    """Curing salt that gives the exact reading in the pickle as weighed."""
    if recipe.bath is None:
        return exact.curing_salt_g
    k = exact.curing_salt_g / exact.pickle_g * recipe.bath.uptake_fraction(exact.pickle_g)
    pickle_g = solved_pickle_g(recipe.bath, constant_g=others.pickle_g, share_fraction=0.0, k_fraction=k)
    return k * pickle_g / recipe.bath.uptake_fraction(pickle_g)


def _accelerator_share(recipe: Recipe, amounts: Amounts) -> float:
    if recipe.bath is None:
        return amounts.accelerator_g / amounts.green_g
    return amounts.accelerator_g / amounts.pickle_g * recipe.bath.uptake_fraction(amounts.pickle_g)
