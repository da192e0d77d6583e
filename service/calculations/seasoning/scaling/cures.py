"""What carries nitrite or nitrate, or may: it is not scaled, by whatever name it stands in a recipe."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

from service.calculations.curing.cure_names import NAMES_KEPT, cure_kind
from service.calculations.seasoning.scaling.recipe import IngredientAtHand, Limit, SeasoningLine, key_of
from service.calculations.seasoning.scaling.refusing import carries_nitrite, may_be_curing_salt
from service.rules.book import RuleBook
from service.rules.cure_name import Cure
from service.rules.spelling import without_marks

VEGETABLE = "celery"
"""The id of a curing salt that is, as a word, the fresh vegetable."""

Nature = Literal[Cure, "harmless"]


def require_no_cure(lines: Sequence[SeasoningLine], limits: Sequence[Limit], book: RuleBook) -> None:
    """Raises Impossible (carries_nitrite, may_be_curing_salt) and names every line."""
    natures = [nature_of(line.ingredient, book) for line in lines]
    named = [limit.ingredient for limit in limits if isinstance(limit, IngredientAtHand)]
    told = [*natures, *(nature_of(name, book) for name in named)]
    if told.count("harmless") == len(told):
        return
    places = [*(f'line {place} ("{line.ingredient}")' for place, line in enumerate(lines, 1))]
    places += [f'at_hand ("{name}")' for name in named]
    found = [(place, nature) for place, nature in zip(places, told, strict=True) if nature != "harmless"]
    doubtful = [place for place, nature in found if nature == "doubtful"]
    others = len(limits) > len(named) or "harmless" in told[len(natures) :]
    is_all = "harmless" not in natures or not others
    if len(doubtful) == len(found):
        raise may_be_curing_salt(doubtful, is_all=is_all)
    cures = [place for place, nature in found if nature != "doubtful"]
    raise carries_nitrite(cures, doubtful, {nature for _, nature in found}, is_all=is_all)


@lru_cache(maxsize=NAMES_KEPT)
def nature_of(name: str, book: RuleBook) -> Nature:
    """Whether it brings nitrite or nitrate, may do so, or does not. An id of the table is what it is."""
    listed = book.ingredients.get(key_of(name))
    if listed is not None:
        return "curing_salt" if listed.kind == "curing_salt" else "harmless"
    key = key_of(without_marks(name))
    if key in book.premixes and key != VEGETABLE:
        return "curing_salt"
    kind = cure_kind(book, name)
    if kind == "doubtful" and any(map(str.isdigit, name)):
        return "curing_salt"
    return kind or "harmless"
