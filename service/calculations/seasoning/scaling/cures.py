"""What carries nitrite or nitrate, or may: it is not scaled, by whatever name it stands in a recipe."""

import re
from unicodedata import category, normalize

from service.calculations.curing.checking.contents import CURE_NAME, ROCK_SALT
from service.calculations.seasoning.scaling.recipe import IngredientAtHand, Limit, RecipeLine, key_of
from service.calculations.seasoning.scaling.refusing import carries_nitrite, may_be_curing_salt
from service.rules.book import RuleBook

PINK_SALT = re.compile(
    r"pink[\s_-]*(salt|powder)|sel ros[eé]|\bsale? rosa|\brosa\w*[\s_-]*salz|(^|[\W_])pink$", re.IGNORECASE
)
"""Names that a tinted curing salt and a rock salt share (common practice, no source)."""
STRENGTH = re.compile(r"[0-9]")
"""A number in a name is a strength or a type: rock salt has neither."""
VEGETABLE = "celery"
"""The id of a curing salt that is, as a word, the fresh vegetable."""


def require_no_cure(lines: tuple[RecipeLine, ...], limits: tuple[Limit, ...], book: RuleBook) -> None:
    """Raises Impossible (carries_nitrite, may_be_curing_salt) and names every line."""
    stated = [(f"line {place}", line.ingredient) for place, line in enumerate(lines, 1)]
    stated += [("at_hand", limit.ingredient) for limit in limits if isinstance(limit, IngredientAtHand)]
    cures = [f'{where} ("{name}")' for where, name in stated if is_cure(name, book)]
    doubtful = [f'{where} ("{name}")' for where, name in stated if may_be_cure(name, book)]
    is_all = all(is_cure(line.ingredient, book) or may_be_cure(line.ingredient, book) for line in lines)
    if cures:
        raise carries_nitrite(cures, doubtful, is_all=is_all)
    if doubtful:
        raise may_be_curing_salt(doubtful, is_all=is_all)


def is_cure(name: str, book: RuleBook) -> bool:
    """Whether it is a curing salt, or anything else that brings nitrite or nitrate."""
    listed = book.ingredients.get(key_of(name))
    if listed is not None:
        return listed.kind == "curing_salt"
    plain = plain_name(name)
    if key_of(plain) in book.premixes and key_of(plain) != VEGETABLE:
        return True
    rest = PINK_SALT.sub(" ", plain)
    has_strength = rest != plain and not ROCK_SALT.search(plain) and STRENGTH.search(rest)
    return bool(CURE_NAME.search(rest) or has_strength)


def may_be_cure(name: str, book: RuleBook) -> bool:
    """Whether its name is that of a curing salt and of a rock salt."""
    plain = plain_name(name)
    if is_cure(name, book):
        return False
    return key_of(name) not in book.ingredients and bool(PINK_SALT.search(plain)) and not ROCK_SALT.search(plain)


def plain_name(name: str) -> str:
    """A name without what letters may hide behind: wide and small forms, marks that nobody sees."""
    return "".join(letter for letter in normalize("NFKC", name) if category(letter) != "Cf").strip()
