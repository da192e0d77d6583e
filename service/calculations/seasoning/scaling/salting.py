"""The salt of a recipe: its own, what powders and sauces bring, and what is not known."""

from typing import NamedTuple

from service.calculations.measures.sodium import SODIUM, SODIUM_CHLORIDE
from service.calculations.measures.spoons import Grams
from service.calculations.seasoning.scaling.limiting import together
from service.calculations.seasoning.scaling.lines import Line, scaled

SODIUM_OF_SALT = SODIUM / SODIUM_CHLORIDE
"""Sodium in salt, or in what was reckoned as salt."""


BRINE_FRACTION = 0.25
"""Less water than this by the weight of the meat is mixed into it, not poured over it (own bound)."""
MOST_UNTOLD = 0.05
"""By so much of itself water that is not counted may weaken a brine before its strength is not told (own bound)."""


class Salting(NamedTuple):
    """Salt as written, before it is scaled."""

    own: Grams
    """Of lines that are salt."""
    brought: Grams
    """Of everything else whose salt is known."""
    every: Grams
    """All that is known."""
    unknown: tuple[Line, ...]
    """Lines of which nobody knows the salt."""
    water: Grams | None
    """Liquids in which salt dissolves; None where there are none."""
    wet: Grams
    """Everything else that may bring water: juices, sauces, syrups, and what is not known."""

    @property
    def is_known(self) -> bool:
        return not self.unknown

    @property
    def only_brought(self) -> bool:
        """Whether there is no salt but what powders and sauces bring: where all of it is known."""
        return self.is_known and self.own.high_g == 0 and self.brought.high_g > 0

    def is_brine(self, meat_g: float) -> bool:
        """Whether its water is poured over the meat, not mixed into it, and has salt in it."""
        return bool(self.every.high_g and self.water and self.water.typical_g >= BRINE_FRACTION * meat_g)

    @property
    def strength(self) -> Grams | None:
        """Percent of salt in the brine; None without water, and where what is wet may make it another brine.

        On the low side whatever may be water is water.
        """
        water, salt = self.water, self.every
        if water is None:
            return None
        least_percent = brine_strength_percent(salt.low_g, water_g=water.high_g + self.wet.high_g)
        if least_percent < (1 - MOST_UNTOLD) * brine_strength_percent(salt.low_g, water_g=water.high_g):
            return None
        return Grams(
            least_percent,
            brine_strength_percent(salt.typical_g, water_g=water.typical_g),
            brine_strength_percent(salt.high_g, water_g=water.low_g),
        )


def salting_of(lines: tuple[Line, ...]) -> Salting:
    """The salt of all lines."""
    salted = [line for line in lines if line.salt_fraction]
    own = [_salt(line) for line in salted if line.is_salt]
    brought = [_salt(line) for line in salted if not line.is_salt]
    unknown = tuple(line for line in lines if line.salt_fraction is None)
    water = [line.grams for line in lines if line.known.is_watery]
    wet = [line.grams for line in lines if line.known.is_wet]
    every = together([*own, *brought])
    return Salting(together(own), together(brought), every, unknown, together(water) if water else None, together(wet))


def _salt(line: Line) -> Grams:
    return scaled(line.grams, line.salt_fraction or 0.0)


def brine_strength_percent(salt_g: float, *, water_g: float) -> float:
    r"""Strength of the brine that salt makes with the watery liquids of a recipe.

    .. math:: w = 100 \, salt / (salt + water)

    Parameters
    ----------
    salt_g : float
        Salt, with what powders and sauces bring [g]
    water_g : float
        Water, beer, vinegar [g]

    Returns
    -------
    strength : float
        Salt by weight of both [percent]

    Raises
    ------
    ZeroDivisionError
        When there is neither.

    Notes
    -----
    Salt and water scale by one factor, so the strength does not change; taken before anything goes into the meat.

    Examples
    --------
    >>> round(brine_strength_percent(292.0, water_g=3785.4 * 0.9982), 2)  # a cup of table salt to a US gallon
    7.17

    References
    ----------
    Definition of percent by weight.
    """
    return 100 * salt_g / (salt_g + water_g)
