"""Which cut a caller names, and what is near a name that is none."""

from service.calculations.near_ids import near_ids
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.cut import Cut

REASONS = {"unknown_cut": "No cut has this id."}
"""The only way in which a cutting test is declined."""


def cut_named(book: RuleBook, id: str) -> Cut:
    """The cut of this id. Raises Impossible (unknown_cut) with ids near it."""
    if id in book.cuts:
        return book.cuts[id]
    near = ", ".join(near_ids(book.cuts, id))
    raise Impossible(
        code="unknown_cut",
        reason=f"No cut has the id {id}.",
        nearest=(f"{near}. " if near else "") + "GET /v1/cuts lists every one; leave cut out where none fits.",
    )
