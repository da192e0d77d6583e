"""Which ingredient a caller names, and what is said of a name that is none."""

from service.calculations.curing.cure_names import cure_kind
from service.calculations.measures.refusing import no_spoon_of_cure
from service.calculations.measures.spoons import ingredient_of
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient


def ingredient_named(book: RuleBook, name: str) -> Ingredient:
    """The ingredient of this id. Raises Impossible (unknown_ingredient), with what to do where it reads like a cure."""
    kind = None if name in book.ingredients else cure_kind(book, name)
    if kind is not None:
        raise no_spoon_of_cure(name, kind)
    return ingredient_of(book, name)
