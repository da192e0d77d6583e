"""The amounts that reach what is wanted, before any rounding."""

from service.calculations.curing.amounts import Amounts, Recipe
from service.calculations.curing.ingoing import curing_salt_for_ppm_g
from service.calculations.curing.methods import Bath
from service.calculations.curing.pickle import Line, percent_line, solved_pickle_g


def exact_amounts(recipe: Recipe) -> Amounts:
    """The amounts that reach what is wanted, before any rounding. Raises Impossible.

    They may still be impossible to make: see makeable.py.
    """
    wanted, bath = recipe.wanted, recipe.bath
    salt, sugar = percent_line(recipe, wanted.salt_percent), percent_line(recipe, wanted.sugar_percent)
    carrier_g = _pickle_g(recipe, bath, salt, sugar) if bath else recipe.green_g
    uptake_fraction = bath.uptake_fraction(carrier_g) if bath else 1.0
    curing_salt_g = _curing_salt_g(recipe, carrier_g=carrier_g, uptake_fraction=uptake_fraction)
    return Amounts(
        meat_g=recipe.meat_g,
        green_g=recipe.green_g,
        water_g=recipe.water_g,
        stock_powder_g=recipe.stock_powder_g,
        dissolved_g=recipe.dissolved_g,
        other_g=recipe.other_g,
        curing_salt_g=curing_salt_g,
        salt_g=salt.at_g(carrier_g) - recipe.salt_inside_g(curing_salt_g) if wanted.salt_percent else 0.0,
        sugar_g=sugar.at_g(carrier_g) - recipe.sugar_inside_g(curing_salt_g) if wanted.sugar_percent else 0.0,
        accelerator_g=wanted.accelerator_fraction * carrier_g / uptake_fraction,
    )


def _curing_salt_g(recipe: Recipe, *, carrier_g: float, uptake_fraction: float) -> float:
    wanted = recipe.wanted
    if wanted.target_ppm is None:
        return percent_line(recipe, wanted.curing_salt_percent).at_g(carrier_g)
    return curing_salt_for_ppm_g(
        target_ppm=wanted.target_ppm,
        pickle_g=carrier_g,
        uptake_fraction=uptake_fraction,
        strength_fraction=recipe.cure.nitrite_fraction,
    )


def _pickle_g(recipe: Recipe, bath: Bath, salt: Line, sugar: Line) -> float:
    """The whole weight of a pickle whose parts depend on it: pickle = constant + share x pickle + k x pickle/uptake."""
    wanted, cure = recipe.wanted, recipe.cure
    cure_weight = (
        1 - (cure.salt_fraction if wanted.salt_percent else 0) - (cure.sugar_fraction if wanted.sugar_percent else 0)
    )  # what a gram of curing salt adds once it has displaced plain salt and sugar
    fixed = percent_line(recipe, wanted.curing_salt_percent)
    constant_g = (
        recipe.water_g + recipe.dissolved_g + recipe.stock_powder_g
        - (recipe.stock_salt_g if wanted.salt_percent else 0)
        + salt.constant_g + sugar.constant_g + cure_weight * fixed.constant_g
    )  # fmt: skip
    share = salt.per_pickle_fraction + sugar.per_pickle_fraction + cure_weight * fixed.per_pickle_fraction
    k = cure_weight * (wanted.target_ppm or 0.0) / 1e6 / cure.nitrite_fraction + wanted.accelerator_fraction
    return solved_pickle_g(bath, constant_g=constant_g, share_fraction=share, k_fraction=k)
