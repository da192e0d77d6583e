"""What a product, cured in one way, is to the law."""

from service.calculations.curing.products import Bacon, CornedBeef, Product, Sausage, WholeMuscle
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


def product_facts(product: Product, method: str) -> tuple[Fact, ...]:
    """What the product, cured by this method, is to the law.

    A product that two classes fit (a sausage cured dry) belongs to both, so that the stricter limit decides.
    """
    facts: tuple[Fact, ...] = (*FINISH_FACTS[product.finish], product.storage)
    if product.for_infants:
        facts = (*facts, "infant_food")
    if isinstance(product, WholeMuscle) and product.species in OTHER_ANIMALS and method != "comminuted":
        facts = (*facts, "other_animal")
    if isinstance(product, Bacon):
        return (*facts, *BACON_CLASSES[method], "skin_on" if product.skin == "on" else "skin_off")
    if isinstance(product, CornedBeef):
        canned: tuple[Fact, ...] = ("corned_beef_canned_us",) if product.finish == "sterilised" else ()
        facts = (*facts, CORNED_CLASSES[product.cut], *canned)
    if isinstance(product, Sausage):
        facts = (*facts, "comminuted")
    return (*facts, *METHOD_CLASSES[method])
