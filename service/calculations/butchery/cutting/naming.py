"""Which cut a caller names, and what is near a name that is none."""

from collections.abc import Iterator
from typing import get_args

from service.calculations.near_ids import near_ids
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.cut import Cut
from service.rules.vocabulary import Animal

REASONS = {"unknown_cut": "No cut has this id."}
"""The only way in which a cutting test is declined."""

ANIMALS: frozenset[str] = frozenset(get_args(Animal))


def cut_named(book: RuleBook, id: str) -> Cut:
    """The cut of this id. Raises Impossible (unknown_cut) with ids near it."""
    if id in book.cuts:
        return book.cuts[id]
    near = ", ".join(dict.fromkeys(_near(book, id)))
    raise Impossible(
        code="unknown_cut",
        reason=f"No cut has the id {id}.",
        nearest=(f"{near}. " if near else "") + "GET /v1/cuts lists every one; leave cut out where none fits.",
    )


def _near(book: RuleBook, id: str) -> Iterator[str]:
    """By item number, else by words; where an animal is named, none of another."""
    numbered = [one.id for one in book.cuts.values() if one.item_number == id.strip().upper()]
    yield from numbered
    if not numbered:
        named = ANIMALS & set(id.lower().replace("-", " ").split())
        ids = [one.id for one in book.cuts.values() if not named or one.animal in named]
        yield from near_ids(ids, id, telling_little=named) or near_ids(ids, id)
