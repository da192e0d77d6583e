"""Whether a name of the caller's own brings nitrite or nitrate."""

import re
from functools import lru_cache
from typing import Literal

from service.calculations.curing.cure_names import BOOKS_KEPT, kind_of_name
from service.calculations.seasoning.scaling.recipe import key_of
from service.rules.book import RuleBook
from service.rules.cure_name import Cure
from service.rules.spelling import folded, without_marks

VEGETABLE = "celery"
"""The id of a curing salt that is, as a word, the fresh vegetable."""
NUMBER = re.compile(r"\bno\W*(?=\d)", re.IGNORECASE)
"""E no. 250 is a number, no claim."""

Nature = Literal[Cure, "claimed", "unread", "harmless"]
"""claimed: nitrite or nitrate is named, and said to be absent. unread: harmless by its name, and its label is asked
for."""


def nature_of(name: str, book: RuleBook) -> Nature:
    """What a name says that it brings. It is no id of the table of ingredients."""
    key = key_of(without_marks(name))
    if key in book.premixes and key != VEGETABLE:
        return "curing_salt"
    kind = kind_of_name(book, name)
    if kind == "doubtful" and any(map(str.isdigit, name)):
        return "curing_salt"
    if kind == "neat" and not _claims(book).isdisjoint(folded(NUMBER.sub(" ", name)).split()):
        return "claimed"
    return kind or "harmless"


@lru_cache(maxsize=BOOKS_KEPT)
def _claims(book: RuleBook) -> frozenset[str]:
    """The words that say that something is absent: free, without."""
    claims = (one for one in book.substances.values() if one.kind.startswith("claim"))
    return frozenset(folded(words) for one in claims for words in one.words)
