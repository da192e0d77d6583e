"""Every line of a recipe in grams, with its band, its salt and the room it takes."""

import re
from functools import lru_cache
from typing import NamedTuple

from service.calculations.measures.sodium import salt_equivalent_fraction
from service.calculations.measures.spoons import Grams, grams_of, grams_of_pieces
from service.calculations.seasoning.scaling.recipe import Amount, Counted, SaltOnLabel, SeasoningLine, key_of
from service.calculations.seasoning.scaling.refusing import no_measure, unknown_measure
from service.quantities.quantity import WATER_G_PER_ML
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient

MG_PER_100G = 1e5
NO_SALT_OF_ITS_OWN = frozenset({"spice", "sugar", "liquid"})
"""Kinds that bring traces of sodium at most where the table has none for them (common practice, no source)."""
WATERY = frozenset({"water", "beer", "distilled-vinegar"})
"""Liquids in which salt dissolves. Syrups are none."""
PLAIN_SALT = re.compile(
    r"^((coarse|fine|plain|pure|sea|rock|cooking|kitchen|flake|flaky|himalayan|iodi[sz]ed|pink)-+)*salt$"
)
"""Names of salt that is salt and nothing else. A pink one comes here only where it says what it is."""


NOTHING = Grams(0.0, 0.0, 0.0)


class Litres(NamedTuple):
    """Room between two sides."""

    low_l: float
    typical_l: float
    high_l: float


class Line(NamedTuple):
    """One line of the recipe, weighed as well as its words allow."""

    place: int
    """1 for the first."""
    written: SeasoningLine
    key: str
    ingredient: Ingredient | None
    """Its row in the table; None for a name of the caller's own."""
    grams: Grams
    """As written, before it is scaled."""
    salt_fraction: float | None
    """Salt in it by weight, reckoned from sodium; None where that is not known."""
    by_measure: bool
    """Whether it is stated by spoon, cup or piece, so that its weight is a band."""

    @property
    def is_salt(self) -> bool:
        """Whether it is salt, not something that brings some."""
        if self.ingredient is not None:
            return self.ingredient.kind == "salt"
        return is_plain_salt(self.key)

    @property
    def salt(self) -> Grams | None:
        """Its salt in grams, before it is scaled."""
        share = self.salt_fraction
        return None if share is None else scaled(self.grams, share)

    @property
    def is_watery(self) -> bool:
        """Whether salt dissolves in it."""
        return self.key in WATERY

    @property
    def is_poured(self) -> bool:
        """Whether it is a liquid stated by its volume."""
        listed = self.ingredient
        is_liquid = listed is not None and (listed.kind == "liquid" or listed.form.startswith("liquid"))
        return is_liquid and self.by_measure

    @property
    def room(self) -> Litres:
        """The room it takes: a liquid by volume that volume, anything else as much as so much water."""
        amount, grams, g_per_l = self.written.amount, self.grams, 1000 * WATER_G_PER_ML
        if self.is_poured and not isinstance(amount, Counted):
            return Litres(amount.ml / 1000, amount.ml / 1000, amount.ml / 1000)
        return Litres(grams.low_g / g_per_l, grams.typical_g / g_per_l, grams.high_g / g_per_l)


def scaled(grams: Grams, by_ratio: float) -> Grams:
    """Every side of a band by the same factor."""
    return Grams(grams.low_g * by_ratio, grams.typical_g * by_ratio, grams.high_g * by_ratio)


@lru_cache(maxsize=1024)
def is_plain_salt(key: str) -> bool:
    """Whether a name of the caller's own says salt and nothing else."""
    return PLAIN_SALT.search(key) is not None


def lines_of(written: tuple[SeasoningLine, ...], book: RuleBook) -> tuple[Line, ...]:
    """The recipe in grams. Raises Impossible for a volume or a count that has no weight."""
    return tuple(_line(place, line, book) for place, line in enumerate(written, 1))


def _line(place: int, written: SeasoningLine, book: RuleBook) -> Line:
    name, amount = written.ingredient, written.amount
    key = key_of(name)
    listed = book.ingredients.get(key)
    by_measure = isinstance(amount, Counted) or amount.is_volume
    grams = weighed(amount, listed, name, f"Line {place}", book)
    return Line(place, written, key, listed, grams, _salt_fraction(written, key, listed), by_measure)


def weighed(amount: Amount, listed: Ingredient | None, name: str, where: str, book: RuleBook) -> Grams:
    """Grams of an amount. Raises Impossible where that kind of amount has no weight."""
    if isinstance(amount, Counted):
        if listed is None:
            raise unknown_measure(book, where, name, by_piece=True)
        if listed.piece is None:
            raise no_measure(listed, where, by_piece=True)
        return grams_of_pieces(listed, amount.count)
    if not amount.is_volume:
        mass_g = amount.g
        return Grams(mass_g, mass_g, mass_g)
    if listed is None:
        raise unknown_measure(book, where, name, by_piece=False)
    if not listed.readings:
        raise no_measure(listed, where, by_piece=False)
    return grams_of(listed, amount)


def _salt_fraction(written: SeasoningLine, key: str, listed: Ingredient | None) -> float | None:
    """By its label; salt is all salt; else by its published sodium, else what its kind has."""
    label = written.label
    if label is not None:
        if isinstance(label, SaltOnLabel):
            return label.salt_percent / 100
        return min(1.0, salt_equivalent_fraction(label.sodium_mg_per_100g / MG_PER_100G))
    if listed is None:
        return 1.0 if is_plain_salt(key) else None
    if listed.kind == "salt":
        return 1.0
    if listed.sodium is not None:
        return min(1.0, salt_equivalent_fraction(listed.sodium.fraction))
    return 0.0 if listed.kind in NO_SALT_OF_ITS_OWN else None
