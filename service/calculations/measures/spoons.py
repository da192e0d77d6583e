"""From level measures and pieces to grams, with a band that spans every figure that was published."""

from dataclasses import dataclass
from typing import NamedTuple

from service.calculations.curing.salts import CuringSalt
from service.calculations.measures.refusing import (
    needs_label,
    no_piece,
    no_volume,
    no_volume_of_kind,
    unknown_ingredient,
)
from service.quantities.quantity import MASS_SYMBOLS, Mass, Measure, Volume
from service.quantities.units import factor
from service.rules.book import RuleBook
from service.rules.ingredient import (
    TEASPOONS_PER_CUP,
    TEASPOONS_PER_TABLESPOON,
    Ingredient,
    IngredientKind,
)
from service.rules.rule import Premix

Number = int | float
"""How many pieces."""

TEASPOONS = {
    "tsp": 1, "tbsp": TEASPOONS_PER_TABLESPOON, "fl_oz": 2 * TEASPOONS_PER_TABLESPOON, "cup": TEASPOONS_PER_CUP,
    "pt": 2 * TEASPOONS_PER_CUP, "qt": 4 * TEASPOONS_PER_CUP, "gal": 16 * TEASPOONS_PER_CUP,
}  # fmt: skip
"""US customary measures in teaspoons, exact by definition."""

SPOON_OF = {"tbsp": "tablespoon", "fl_oz": "tablespoon"} | dict.fromkeys(("cup", "pt", "qt", "gal", "l"), "cup")
"""Which published figure a measure is taken from first; every other measure from the teaspoon."""


@dataclass(frozen=True, slots=True)
class Band:
    """The lightest and the heaviest that it may be, where no single weight can be named."""

    low_g: float
    high_g: float


class Grams(NamedTuple):
    """A weight with its band: low and high are equal where it was weighed."""

    low_g: float
    typical_g: float
    high_g: float

    @property
    def band(self) -> Band:
        return Band(self.low_g, self.high_g)


def ingredient_of(book: RuleBook, id: str) -> Ingredient:
    """The ingredient of this id. Raises Impossible (unknown_ingredient)."""
    if id not in book.ingredients:
        raise unknown_ingredient(book, id)
    return book.ingredients[id]


def grams_of(ingredient: Ingredient, measure: Measure | Mass | Volume) -> Grams:
    """What a measure of an ingredient weighs. A weight is exact; a volume has its typical weight and its band.

    Raises Impossible (no_volume_figure, curing_salt_needs_label).
    """
    if measure.unit in MASS_SYMBOLS:
        mass_g = measure.value * factor(measure.unit)
        return Grams(mass_g, mass_g, mass_g)
    if ingredient.kind == "curing_salt":
        raise needs_label(ingredient)
    teaspoon_band_g = ingredient.teaspoon_band_g
    if teaspoon_band_g is None:
        raise no_volume(ingredient)
    teaspoons = teaspoons_in(measure)
    typical_g = teaspoons * ingredient.readings[0].typical_teaspoon_g[SPOON_OF.get(measure.unit, "teaspoon")]
    low_g, high_g = teaspoon_band_g
    return Grams(min(teaspoons * low_g, typical_g), typical_g, max(teaspoons * high_g, typical_g))


def grams_of_pieces(ingredient: Ingredient, count: Number) -> Grams:
    """What so many cloves, leaves or cubes weigh. Raises Impossible (no_piece_figure)."""
    piece = ingredient.piece
    if piece is None:
        raise no_piece(ingredient)
    return Grams(count * piece.low_g, count * piece.g, count * piece.high_g)


def band_of_kind(book: RuleBook, kind: IngredientKind, measure: Measure | Mass | Volume) -> Band:
    """What a measure of salt of unknown crystal, or of sugar of unknown type, may weigh: all of that kind together.

    Raises Impossible (no_volume_figure) where no ingredient of the kind has a figure.
    """
    if measure.unit in MASS_SYMBOLS:
        mass_g = measure.value * factor(measure.unit)
        return Band(mass_g, mass_g)
    bands_g = [
        band_g for one in book.ingredients.values() if one.kind == kind and (band_g := one.teaspoon_band_g) is not None
    ]
    if not bands_g:
        raise no_volume_of_kind(kind)
    return _spanned(bands_g, measure)


def band_of_curing_salt(book: RuleBook, curing_salt: CuringSalt, measure: Measure | Mass | Volume) -> Band:
    """What a measure of a curing salt may weigh: all spoons known of its strength, or of any where none is known.

    There is no typical weight: curing salt is weighed, and a spoon of it only estimated afterwards.
    """
    if measure.unit in MASS_SYMBOLS:
        mass_g = measure.value * factor(measure.unit)
        return Band(mass_g, mass_g)
    alike = [premix for premix in book.premixes.values() if _is_like(premix, curing_salt)]
    known = [premix.teaspoon_g for premix in alike if premix.teaspoon_g]
    every = [premix.teaspoon_g for premix in book.premixes.values() if premix.teaspoon_g]
    return _spanned([(low_g, high_g) for low_g, _, high_g in known or every], measure)


def is_spoon_known(book: RuleBook, curing_salt: CuringSalt) -> bool:
    """Whether spoons of a curing salt of this strength were weighed."""
    return any(premix.teaspoon_g and _is_like(premix, curing_salt) for premix in book.premixes.values())


def teaspoons_in(measure: Measure | Volume | Mass) -> Number:
    """How many level US teaspoons a volume is."""
    if measure.unit in TEASPOONS:
        return measure.value * TEASPOONS[measure.unit]
    return measure.value * factor(measure.unit) / factor("tsp")


def _spanned(bands_g: list[tuple[float, float]], measure: Measure | Mass | Volume) -> Band:
    teaspoons = teaspoons_in(measure)
    return Band(
        teaspoons * min(low_g for low_g, _ in bands_g),
        teaspoons * max(high_g for _, high_g in bands_g),
    )


def _is_like(premix: Premix, curing_salt: CuringSalt) -> bool:
    """The same nitrite at the same strength, with nitrate or without, as the label has it."""
    low_percent, high_percent = premix.nitrite_percent
    return (
        premix.nitrite_as == curing_salt.nitrite.salt
        and low_percent <= curing_salt.nitrite.percent <= high_percent
        and bool(premix.nitrate_percent) == (curing_salt.nitrate is not None)
    )
