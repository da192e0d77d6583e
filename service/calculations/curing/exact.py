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
    cure = percent_line(recipe, wanted.curing_salt_percent)
    carrier_g = _pickle_g(recipe, bath, salt=salt, sugar=sugar, cure=cure) if bath else recipe.green_g
    uptake_fraction = bath.uptake_fraction(carrier_g) if bath else 1.0
    curing_salt_g = (
        cure.at_g(carrier_g)
        if wanted.target_ppm is None
        else curing_salt_for_ppm_g(
            target_ppm=wanted.target_ppm,
            pickle_g=carrier_g,
            uptake_fraction=uptake_fraction,
            strength_fraction=recipe.shares.nitrite_fraction,
        )
    )
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
        accelerator_g=wanted.accelerator_fraction * carrier_g / uptake_fraction if wanted.accelerator else 0.0,
    )


def _pickle_g(recipe: Recipe, bath: Bath, *, salt: Line, sugar: Line, cure: Line) -> float:
    """The whole weight of a pickle whose parts depend on it: pickle = constant + share x pickle + k x pickle/uptake."""
    wanted, shares = recipe.wanted, recipe.shares
    cure_weight = (
        1 - (shares.salt_fraction if wanted.salt_percent else 0)
        - (shares.sugar_fraction if wanted.sugar_percent else 0)
    )  # what a gram of curing salt adds once it has displaced plain salt and sugar  # fmt: skip
    constant_g = (
        recipe.water_g + recipe.dissolved_g + recipe.stock_powder_g
        - (recipe.stock_salt_g if wanted.salt_percent else 0)
        + salt.constant_g + sugar.constant_g + cure_weight * cure.constant_g
    )  # fmt: skip
    share = salt.per_pickle_fraction + sugar.per_pickle_fraction + cure_weight * cure.per_pickle_fraction
    k = cure_weight * (wanted.target_ppm or 0.0) / 1e6 / shares.nitrite_fraction + wanted.accelerator_fraction
    return solved_pickle_g(bath, constant_g=constant_g, share_fraction=share, k_fraction=k)
