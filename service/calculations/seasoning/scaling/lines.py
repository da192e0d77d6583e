"""Every line of a recipe in grams, with its band, its salt and the room it takes."""

from typing import NamedTuple

from service.calculations.measures.sodium import salt_equivalent_fraction
from service.calculations.measures.spoons import Grams, grams_of, grams_of_pieces
from service.calculations.seasoning.scaling.known import Known, known_of
from service.calculations.seasoning.scaling.recipe import Amount, Counted, SaltOnLabel, SeasoningLine
from service.calculations.seasoning.scaling.refusing import label_contradicts, no_measure, unknown_measure
from service.quantities.quantity import WATER_G_PER_ML
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient

MG_PER_100G = 1e5
NEARLY_ALL_SALT, HALF_SALT = 0.9, 0.5
"""What a label has to state for a name of one's own to be a salt, and for a salt to be one (own bounds)."""


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
    known: Known
    """What its name says."""
    grams: Grams
    """As written, before it is scaled."""
    salt_fraction: float | None
    """Salt in it by weight, reckoned from sodium; None where that is not known."""
    is_salt: bool
    """Whether it is salt, not something that brings some: by its name, else where its label says little else."""
    by_measure: bool
    """Whether it is stated by spoon, cup or piece, so that its weight is a band."""

    @property
    def key(self) -> str:
        return self.known.key

    @property
    def ingredient(self) -> Ingredient | None:
        """Its row in the table; None for a name of the caller's own."""
        return self.known.ingredient

    @property
    def salt(self) -> Grams | None:
        """Its salt in grams, before it is scaled."""
        share = self.salt_fraction
        return None if share is None else scaled(self.grams, share)

    @property
    def is_poured(self) -> bool:
        """Whether it is a liquid stated by its volume."""
        return self.by_measure and self.known.is_liquid

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


def lines_of(written: tuple[SeasoningLine, ...], book: RuleBook) -> tuple[Line, ...]:
    """The recipe in grams. Raises Impossible for a volume or a count without a weight, and a salt that is said none."""
    return tuple(_line(place, line, book) for place, line in enumerate(written, 1))


def _line(place: int, written: SeasoningLine, book: RuleBook) -> Line:
    name, amount = written.ingredient, written.amount
    known = known_of(name, book)
    by_measure = isinstance(amount, Counted) or amount.is_volume
    grams = weighed(amount, known.ingredient, name, f"Line {place}", book)
    share = known.salt_fraction if written.label is None else _labelled_fraction(written)
    if known.is_salt and (share or 0.0) <= HALF_SALT:
        raise label_contradicts(place, name)
    is_salt = known.is_salt or (known.ingredient is None and (share or 0.0) >= NEARLY_ALL_SALT)
    return Line(place, written, known, grams, share, is_salt, by_measure)


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


def _labelled_fraction(written: SeasoningLine) -> float:
    """Salt in it as its label states."""
    label = written.label
    if isinstance(label, SaltOnLabel):
        return label.salt_percent / 100
    sodium_fraction = (label.sodium_mg_per_100g if label else 0.0) / MG_PER_100G
    return min(1.0, salt_equivalent_fraction(sodium_fraction))
