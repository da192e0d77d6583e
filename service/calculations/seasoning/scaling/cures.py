"""What carries nitrite or nitrate, or may: it is not scaled, by whatever name it stands in a recipe."""

from collections.abc import Sequence

from service.calculations.seasoning.scaling.at_hand import IngredientAtHand, Limit
from service.calculations.seasoning.scaling.known import known_of
from service.calculations.seasoning.scaling.natures import Nature
from service.calculations.seasoning.scaling.recipe import SeasoningLine
from service.calculations.seasoning.scaling.refusing import carries_nitrite, may_be_curing_salt
from service.rules.book import RuleBook

PASSING: frozenset[Nature] = frozenset({"harmless", "unread"})


def require_no_cure(lines: Sequence[SeasoningLine], limits: Sequence[Limit], book: RuleBook) -> None:
    """Raises Impossible (carries_nitrite, may_be_curing_salt) and names every line."""
    natures = [known_of(line.ingredient, book).nature for line in lines]
    named = [limit.ingredient for limit in limits if isinstance(limit, IngredientAtHand)]
    told = [*natures, *(known_of(name, book).nature for name in named)]
    if PASSING.issuperset(told):
        return
    places = [*(f'line {place} ("{line.ingredient}")' for place, line in enumerate(lines, 1))]
    places += [f'at_hand ("{name}")' for name in named]
    found = [(place, nature) for place, nature in zip(places, told, strict=True) if nature not in PASSING]
    doubtful = [place for place, nature in found if nature == "doubtful"]
    others = len(limits) > len(named) or not PASSING.isdisjoint(told[len(natures) :])
    is_all = PASSING.isdisjoint(natures) or not others
    if len(doubtful) == len(found):
        raise may_be_curing_salt(doubtful, is_all=is_all)
    cures = [place for place, nature in found if nature != "doubtful"]
    raise carries_nitrite(cures, doubtful, {nature for _, nature in found}, is_all=is_all)
