"""The weights that an ingoing amount may be divided by."""

from collections.abc import Callable
from functools import cache
from operator import attrgetter
from typing import NamedTuple

from service.calculations.curing.amounts import Amounts, Recipe
from service.calculations.curing.ingoing import ingoing_at_equilibrium_ppm, ingoing_from_pickle_ppm, ingoing_ppm
from service.calculations.curing.methods import Bath


class Bases(NamedTuple):
    """Parts per million of one gram of additive, for each basis. None where the method does not have the basis."""

    green_ppm: float
    skin_on_ppm: float
    batch_g: float
    """The weight under batch_ppm."""
    batch_ppm: float
    system_ppm: float | None
    pickle_ppm: float | None
    least_batch_ppm: float
    """On everything that goes in; batch_ppm does not credit a dry cure with what only lies on the meat."""

    @property
    def highest_ppm(self) -> float:
        """The highest reading of what is in the meat."""
        return max(self.green_ppm, self.system_ppm or 0.0)

    def one_gram_ppm(self, basis: str, *, least: bool = False) -> float | None:
        """Parts per million of one gram on a basis by the name that rules give it; None for an unknown one."""
        return on_basis(basis, least=least)(self)


BASIS_NAMES = {
    "green_weight": "green_ppm",
    "skin_free_green_weight": "green_ppm",
    "skin_on_green_weight": "skin_on_ppm",
    "whole_batch": "batch_ppm",
    "product_at_addition": "batch_ppm",
    "whole_system": "system_ppm",
    "pickle": "pickle_ppm",
    "any_reading": "highest_ppm",
}


OnBasis = Callable[[Bases], float | None]
"""Takes the parts per million of one gram on one basis."""


@cache
def on_basis(basis: str, *, least: bool = False) -> OnBasis:
    """How to take the parts per million of one gram on a basis by the name that rules give it.

    least: for a floor. A cover counted as a step of its own overstates what the vessel holds, and a pick-up may
    be stated too high, so a piece that lies in its pickle is credited with no more than the whole system has.
    """
    attribute = BASIS_NAMES.get(basis)
    if attribute is None:
        return _no_basis
    if not least:
        return attrgetter(attribute)
    stated: OnBasis = attrgetter("least_batch_ppm" if attribute == "batch_ppm" else attribute)

    def at_least(bases: Bases) -> float | None:
        one_g_ppm, system_ppm = stated(bases), bases.system_ppm
        return one_g_ppm if system_ppm is None or one_g_ppm is None else min(one_g_ppm, system_ppm)

    return at_least


def _no_basis(_bases: Bases) -> None:
    return None


def bases_of(recipe: Recipe, amounts: Amounts) -> Bases:
    """Every denominator at once, by the published formulas."""
    if recipe.bath is not None:
        return _in_pickle(recipe.bath, amounts)
    green_ppm = ingoing_ppm(additive_g=1, green_g=amounts.green_g)
    meat_ppm = ingoing_ppm(additive_g=1, green_g=amounts.meat_g)
    everything_ppm = ingoing_ppm(additive_g=1, green_g=amounts.meat_g + amounts.pickle_g + amounts.other_g)
    return Bases(
        green_ppm=green_ppm,
        skin_on_ppm=meat_ppm,
        batch_g=1e6 / (everything_ppm if recipe.comminuted else meat_ppm),
        batch_ppm=everything_ppm if recipe.comminuted else meat_ppm,
        system_ppm=None,
        pickle_ppm=None,
        least_batch_ppm=everything_ppm,
    )


def _in_pickle(bath: Bath, amounts: Amounts) -> Bases:
    meat_g, green_g, pickle_g = amounts.meat_g, amounts.green_g, amounts.pickle_g
    uptake = bath.uptake_fraction(pickle_g)
    green_ppm = ingoing_from_pickle_ppm(additive_g=1, pickle_g=pickle_g, uptake_fraction=uptake)
    system_ppm = ingoing_at_equilibrium_ppm(additive_g=1, green_g=green_g, pickle_g=pickle_g)
    batch_g = meat_g + (bath.taken_up_g or pickle_g)
    batch_ppm = (green_ppm * green_g if bath.taken_up_g else 1e6) / batch_g
    return Bases(
        green_ppm=green_ppm,
        skin_on_ppm=green_ppm * green_g / meat_g,
        batch_g=batch_g,
        batch_ppm=batch_ppm,
        system_ppm=system_ppm if bath.immersed else None,
        pickle_ppm=1e6 / pickle_g,
        least_batch_ppm=batch_ppm,
    )
