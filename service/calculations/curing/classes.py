"""What a product, cured in one way, is to the law."""

from typing import NamedTuple

from service.calculations.curing.products import Finish, Product, Storage
from service.rules.vocabulary import Fact

FINISH_FACTS: dict[str | None, tuple[Fact, ...]] = {
    None: (),
    "fresh": ("meat_preparation",),
    "matured": ("not_heat_treated", "slow_cured"),
    "cooked": ("heat_treated", "cooked"),
    "sterilised": ("sterilised", "cooked", "canned", "canned_cured"),
}

OTHER_ANIMALS = ("lamb", "goat", "game")
"""Animals whose cuts are neither pork nor beef nor poultry, which is what some rules are written for."""

METHOD_CLASSES: dict[str, tuple[Fact, ...]] = {
    "dry": ("dry_cured",),
    "comminuted": ("comminuted",),
    "immersion": ("wet_cured",),
    "injected": ("wet_cured",),
    "injected_then_covered": ("wet_cured",),
}

BACON_CLASSES: dict[str, tuple[Fact, ...]] = {
    "dry": ("bacon_dry",),
    "comminuted": ("comminuted", "bacon_dry"),
    "immersion": ("bacon_immersed",),
    "injected": ("bacon_pumped",),
    "injected_then_covered": ("bacon_pumped", "bacon_immersed"),
}

CORNED_CLASSES: dict[str, Fact] = {
    "brisket": "corned_brisket", "round": "corned_other_cut", "tongue": "cured_tongue_us", "other": "corned_other_cut",
}  # fmt: skip


class ProductKind(NamedTuple):
    """What the law asks to know of a product, in words of closed lists."""

    kind: str
    part: str
    """Its animal or bird; of bacon its skin, of corned beef its cut."""
    finish: Finish | None
    storage: Storage
    for_infants: bool


def kind_of(product: Product) -> ProductKind:
    """The words that the law asks of a product."""
    if product.kind == "bacon":
        part: str = product.skin
    else:
        part = product.cut if product.kind == "corned_beef" else product.species
    return ProductKind(product.kind, part, product.finish, product.storage, product.for_infants)


def product_facts(product: Product, method: str) -> tuple[Fact, ...]:
    """What the product, cured by this method, is to the law."""
    return facts_of(kind_of(product), method)


def facts_of(product: ProductKind, method: str) -> tuple[Fact, ...]:
    """What such a product, cured by this method, is to the law.

    A product that two classes fit (a sausage cured dry) belongs to both, so that the stricter limit decides.
    """
    facts: tuple[Fact, ...] = (*FINISH_FACTS[product.finish], product.storage)
    if product.for_infants:
        facts = (*facts, "infant_food")
    if product.kind == "whole_muscle" and product.part in OTHER_ANIMALS and method != "comminuted":
        facts = (*facts, "other_animal")
    if product.kind == "bacon":
        return (*facts, *BACON_CLASSES[method], "skin_on" if product.part == "on" else "skin_off")
    if product.kind == "corned_beef":
        canned: tuple[Fact, ...] = ("corned_beef_canned_us",) if product.finish == "sterilised" else ()
        facts = (*facts, CORNED_CLASSES[product.part], *canned)
    if product.kind == "sausage":
        facts = (*facts, "comminuted")
    return (*facts, *METHOD_CLASSES[method])
