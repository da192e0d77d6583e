"""Stages that have no share, and what may be stated in its place."""

from collections.abc import Sequence

from service.calculations.butchery.chaining.asking import CookStage, CureStage
from service.calculations.butchery.chaining.defaults import method_of
from service.calculations.butchery.chaining.links import STARTS, Link, taken_share
from service.calculations.butchery.chaining.matching import Meat
from service.calculations.butchery.chaining.refusing import no_pick_up, nothing_published
from service.calculations.butchery.chaining.wording import plain, told_of
from service.rules.book import RuleBook
from service.rules.cut import ShareReading


def require_all(links: Sequence[Link], meat: Meat, book: RuleBook) -> None:
    """Every stage has a share, or was weighed. Raises Impossible."""
    lacking = [link for link in links if link.share is None and link.weighed_g is None]
    cures = [link.number for link in lacking if isinstance(link.stage, CureStage)]
    if cures:
        raise no_pick_up(cures, [link.number for link in lacking])
    if lacking:
        missing = [f"{told_of(link.stage)} (stage {link.number}) of the {plain(link.of)} weight" for link in lacking]
        numbers = [link.number for link in lacking]
        raise nothing_published(missing, _published(meat, book), numbers, _otherwise(lacking, links, meat, book))


def _otherwise(lacking: list[Link], links: Sequence[Link], meat: Meat, book: RuleBook) -> str:
    """Where only the first stage lacks a share, and would have one if the piece came in as something else."""
    first = lacking[0]
    if len(lacking) > 1 or first.number > 1 or not isinstance(first.stage, CookStage):
        return ""
    later = [link.stage for link in links[1:]]
    ways = [begins for begins, of in STARTS.items() if taken_share(first.stage, of, meat, book, later=later)]
    return f" Or state bought_as {' or '.join(ways)}, where that is what comes in." if ways else ""


def _published(meat: Meat, book: RuleBook) -> str:
    if meat.cut is None:
        return (
            "No cut is named; without one a trim of beef brisket, smoking it straight after that, and slicing of any "
            "cooked meat are known."
        )
    told = [
        f"{method_of(one)}, {_span(one)} percent of the {plain(one.of)} weight"
        for one in book.cuts[meat.cut].yields
        if one.usable
    ]
    return f"Of {book.cuts[meat.cut].name} there is: {'; '.join(told) or 'no yield that may be planned with'}."


def _span(one: ShareReading) -> str:
    low, high = f"{one.low_percent:g}", f"{one.high_percent:g}"
    return low if low == high else f"{low} to {high}"
