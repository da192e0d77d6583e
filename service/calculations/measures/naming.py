"""Which ingredient a caller names, and what is said of a name that is none."""

from service.calculations.curing.cure_names import cure_kind
from service.calculations.measures.refusing import no_spoon_of_cure
from service.calculations.measures.spoons import ingredient_of
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient


def ingredient_named(book: RuleBook, name: str) -> Ingredient:
    """The ingredient of this id. Raises Impossible (unknown_ingredient), with what to do where it reads like a cure."""
    if name not in book.ingredients and cure_kind(book, name):
        raise no_spoon_of_cure(name)
    return ingredient_of(book, name)
