"""What is known of an ingredient by its name: its row in the table, else what the words of the name say."""

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from service.calculations.curing.cure_names import BOOKS_KEPT, NAMES_KEPT
from service.calculations.labels.labelling.words import word_table
from service.calculations.measures.refusing import FORMS
from service.calculations.measures.sodium import salt_equivalent_fraction
from service.calculations.measures.warning import WITHOUT_ALLERGENS
from service.calculations.seasoning.scaling.natures import Nature, nature_of
from service.calculations.seasoning.scaling.recipe import key_of
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient
from service.rules.spelling import composed, folded, without_marks
from service.rules.substance import Substance

NO_SALT_OF_ITS_OWN = frozenset({"spice", "sugar", "liquid"})
"""Kinds that bring traces of sodium at most where the table has none for them (common practice, no source)."""
WATER = "water"
WATERY = frozenset({WATER, "beer", "distilled-vinegar"})
"""Liquids in which salt dissolves. Syrups are none."""
WET_FORMS = ("liquid", "paste")
PLAIN_SALT = """
salt salz speisesalz kochsalz tafelsalz meersalz steinsalz sel sal sale zout zeezout keukenzout suola sol so sare tuz
muoi garam соль сіль сол 塩 食塩 盐 食盐 鹽 食鹽 소금 천일염 αλατι ملح מלח नमक เกลือ
"""
BESIDE_SALT = """
coarse fine plain pure sea rock cooking kitchen table flake flaky himalayan iodized smoked fin gros fein feines
grob grobes de du mer marin la cuisine mar marina marino comun gorda gruesa fina fino grosso grossa cucina
fleur flor fiore fior di flower of gris grey gray морская
поваренная каменная крупная мелкая кухонна
"""
"""Salt in several languages, and what may stand beside it (common practice, no source)."""
PINK = "pink"
OF_PINK_SALT = frozenset({"himalayan", "rock", "steinsalz"})
"""A pink salt is known where it says what it is."""


class Known(NamedTuple):
    """What a name says of what it names."""

    key: str
    ingredient: Ingredient | None
    """Its row in the table; None for a name of the caller's own."""
    is_salt: bool
    """Whether it is salt, not something that brings some."""
    salt_fraction: float | None
    """Salt in it without a label, reckoned from sodium; None where that is not known."""
    is_watery: bool
    """Whether salt dissolves in it."""
    is_wet: bool
    """Whether it may bring water that is not counted."""
    is_liquid: bool
    """Whether its row is that of a liquid."""
    is_of_table: bool
    """Whether its salt is the one figure that was published for something that every maker makes otherwise."""
    is_read: bool
    """Whether its name says what it is. Of anything else the label may say more."""
    may_carry_allergens: bool
    nature: Nature
    """Whether it brings nitrite or nitrate."""


def _words_of(name: str) -> frozenset[str]:
    return frozenset(folded(without_marks(name)).split())


def _each_folded(words: str) -> frozenset[str]:
    return frozenset().union(*map(_words_of, words.split()))


SALT_WORDS = _each_folded(PLAIN_SALT)
OF_SALT = SALT_WORDS | _each_folded(BESIDE_SALT)


def known_of(name: str, book: RuleBook) -> Known:
    """What is known of an ingredient."""
    return _rows_known(book).get(key_of(name)) or _of_name(name, book)


@lru_cache(maxsize=BOOKS_KEPT)
def _rows_known(book: RuleBook) -> dict[str, Known]:
    """What is known of every row: no name of a caller pushes it out."""
    return {id: _of_row(id, row) for id, row in book.ingredients.items()}


def _of_row(key: str, listed: Ingredient) -> Known:
    return Known(
        key,
        listed,
        is_salt=listed.kind == "salt",
        salt_fraction=_salt_fraction(listed),
        is_watery=key in WATERY,
        is_wet=key not in WATERY and (listed.kind == "liquid" or listed.form.startswith(WET_FORMS)),
        is_liquid=listed.kind == "liquid" or listed.form.startswith("liquid"),
        is_of_table=listed.kind == "seasoning" and bool(_salt_fraction(listed)),
        is_read=True,
        may_carry_allergens=listed.kind not in WITHOUT_ALLERGENS and key != WATER,
        nature="curing_salt" if listed.kind == "curing_salt" else "harmless",
    )


def _salt_fraction(listed: Ingredient) -> float | None:
    """Salt is all salt; else by its published sodium, else what its kind has."""
    if listed.kind == "salt":
        return 1.0
    if listed.sodium is not None:
        return min(1.0, salt_equivalent_fraction(listed.sodium.fraction))
    return 0.0 if listed.kind in NO_SALT_OF_ITS_OWN else None


@lru_cache(maxsize=NAMES_KEPT)
def _of_name(name: str, book: RuleBook) -> Known:
    """By the words of a name: salt in some language, part of listed names, a spice or water as labels know it."""
    words, nature = _words_of(name), nature_of(name, book)
    is_salt, rows = _is_plain_salt(words), _rows_named(words, book)
    substances = _substances(name, book)
    is_water = _all_of(WATER in (one.id, one.on_label) for one in substances) or _all_of(
        row.id in WATERY for row in rows
    )
    is_spice = _all_of(one.spice for one in substances)
    has_none = is_water or (all(_salt_fraction(row) == 0 for row in rows) if rows else is_spice)
    is_syrup = any(row.kind == "liquid" for row in rows)
    return Known(
        key_of(name),
        None,
        is_salt=is_salt,
        salt_fraction=1.0 if is_salt else 0.0 if has_none else None,
        is_watery=is_water,
        is_wet=not (is_salt or is_water) and (is_syrup or not has_none),
        is_liquid=False,
        is_of_table=False,
        is_read=is_salt or (bool(substances) and words.isdisjoint(SALT_WORDS) and nature == "harmless"),
        may_carry_allergens=not is_salt and not is_water,
        nature=nature,
    )


def _is_plain_salt(words: frozenset[str]) -> bool:
    """Whether a name says salt and nothing else."""
    if PINK in words and words.isdisjoint(OF_PINK_SALT):
        return False
    return not words.isdisjoint(SALT_WORDS) and words - {PINK} <= OF_SALT


def _rows_named(words: frozenset[str], book: RuleBook) -> list[Ingredient]:
    """The rows whose id has all of these words: black pepper is whole or ground."""
    if not words or words <= FORMS:
        return []
    return [row for of_id, row in _rows_by_words(book) if words <= of_id]


@lru_cache(maxsize=BOOKS_KEPT)
def _rows_by_words(book: RuleBook) -> tuple[tuple[frozenset[str], Ingredient], ...]:
    """Every row with the words of its id."""
    return tuple((_words_of(id), row) for id, row in book.ingredients.items())


def _substances(name: str, book: RuleBook) -> list[Substance]:
    """The things that a name consists of, by the words of labels; none where a word or a form of it is not plain."""
    read = word_table(book).read(composed(name))
    found = [chunk.substance for chunk in read.things if chunk.substance]
    is_said = not (read.unknown or read.claims or read.makings)
    return found if is_said and all(one.kind == "substance" and not one.cures for one in found) else []


def _all_of(holds: Iterable[bool]) -> bool:
    """Whether it holds for each, and there is one."""
    every = list(holds)
    return bool(every) and all(every)
