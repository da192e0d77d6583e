"""What carries nitrite or nitrate, or may: it is not scaled, by whatever name it stands in a recipe."""

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal
from unicodedata import category, normalize

from service.calculations.curing.checking.contents import CURE_NAME
from service.calculations.seasoning.scaling.recipe import IngredientAtHand, Limit, SeasoningLine, key_of
from service.calculations.seasoning.scaling.refusing import carries_nitrite, may_be_curing_salt
from service.rules.book import RuleBook

PINK_SALT = re.compile(
    r"pink[\s_-]*(salt|powder)|sel ros[eé]|ros[eé][\s_-]*salt|\bsale? rosa|\brosa\w*[\s_-]*salz", re.IGNORECASE
)
"""Names that a tinted curing salt and a rock salt share (common practice, no source)."""
LOOSELY_PINK = re.compile(r"\bpink\b[\w\s-]*salt|\bpink\W*$", re.IGNORECASE)
"""The same with words between, or turned round."""
OTHER_PINK = re.compile(r"himalay|\b(rock|sea)\b", re.IGNORECASE)
"""A pink salt that says what it is."""
STRENGTH = re.compile(r"[0-9]")
"""A number in a name is a strength or a type: rock salt has neither."""
VEGETABLE = "celery"
"""The id of a curing salt that is, as a word, the fresh vegetable."""

Nature = Literal["cure", "doubtful", "harmless"]
NAMES_KEPT = 1024


def require_no_cure(lines: Sequence[SeasoningLine], limits: Sequence[Limit], book: RuleBook) -> None:
    """Raises Impossible (carries_nitrite, may_be_curing_salt) and names every line."""
    natures = [nature_of(line.ingredient, book) for line in lines]
    named = [limit.ingredient for limit in limits if isinstance(limit, IngredientAtHand)]
    told = [*natures, *(nature_of(name, book) for name in named)]
    if told.count("harmless") == len(told):
        return
    places = [*(f'line {place} ("{line.ingredient}")' for place, line in enumerate(lines, 1))]
    places += [f'at_hand ("{name}")' for name in named]
    cures = [place for place, nature in zip(places, told, strict=True) if nature == "cure"]
    doubtful = [place for place, nature in zip(places, told, strict=True) if nature == "doubtful"]
    others = len(limits) > len(named) or "harmless" in told[len(natures) :]
    is_all = "harmless" not in natures or not others
    if cures:
        raise carries_nitrite(cures, doubtful, is_all=is_all)
    raise may_be_curing_salt(doubtful, is_all=is_all)


def nature_of(name: str, book: RuleBook) -> Nature:
    """Whether it brings nitrite or nitrate, may do so, or does not. An id of the table is what it is."""
    listed = book.ingredients.get(key_of(name))
    if listed is not None:
        return "cure" if listed.kind == "curing_salt" else "harmless"
    key = key_of(plain_name(name))
    return "cure" if key in book.premixes and key != VEGETABLE else nature_by_name(name)


@lru_cache(maxsize=NAMES_KEPT)
def nature_by_name(name: str) -> Nature:
    """The same by the words of a name alone."""
    plain = plain_name(name)
    if CURE_NAME.search(PINK_SALT.sub(" ", plain)):
        return "cure"
    if OTHER_PINK.search(plain) or not (PINK_SALT.search(plain) or LOOSELY_PINK.search(plain)):
        return "harmless"
    return "cure" if STRENGTH.search(plain) else "doubtful"


def plain_name(name: str) -> str:
    """A name without what letters may hide behind: wide and small forms, marks that nobody sees."""
    return "".join(letter for letter in normalize("NFKC", name) if category(letter) != "Cf").strip()
