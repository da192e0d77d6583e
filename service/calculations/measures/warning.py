"""Which cautions belong to a kitchen measure: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.curing.warning import FLOOR_RULE, LEFT_RULE
from service.calculations.measures.ingoing import PpmBand, as_sodium_nitrite
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient

WITHOUT_ALLERGENS = ("salt", "sugar", "curing_salt")
"""Kinds that are one substance; anything else may bring an allergen in (common practice, no source)."""
WATER = "water"


def cautions_of_ingredients(ingredients: tuple[Ingredient, ...], *, by_volume: bool) -> Iterator[str]:
    """For a volume or pieces of ingredients."""
    if by_volume and any(one.kind == "salt" for one in ingredients):
        yield "weigh-not-spoon"
    if by_volume and any(one.id == WATER for one in ingredients):
        yield "weigh-ice"
    if any(one.kind not in WITHOUT_ALLERGENS and one.id != WATER for one in ingredients):
        yield "allergens"
    yield "local-code"


def cautions_of_curing_salt(nitrite: PpmBand, book: RuleBook) -> Iterator[str]:
    """For a spoon of curing salt: what to do, and what either end of the band would mean."""
    yield from ("weigh-not-spoon", "nitrite-toxic", "strength-from-label", "nitrite-emergency")
    sodium_nitrite = as_sodium_nitrite(nitrite)
    floor, left = book.rule(FLOOR_RULE).values[-1], book.rule(LEFT_RULE).values[-1]
    if sodium_nitrite.low_ppm < (floor.design_floor or 0.0):
        yield "too-little-is-dangerous"
    if sodium_nitrite.high_ppm > (left.value or 0.0):
        yield "more-than-may-remain"
    yield from ("raw-meat-hygiene", "local-code")
