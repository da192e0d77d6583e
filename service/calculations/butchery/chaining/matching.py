"""Whether the cut that is named can be the product that the law is asked for."""

import re
from typing import NamedTuple, get_args

from service.calculations.butchery.chaining.asking import Standard
from service.calculations.curing.products import CornedBeef, Product, Sausage
from service.calculations.refusals import Impossible
from service.rules.cut import Cut, PartOf
from service.rules.vocabulary import BIRDS, Animal

CORNED_APART: tuple[PartOf, ...] = ("brisket", "tongue")
"""Parts of beef with a standard of their own (9 CFR 319.101 and 319.103, read)."""
COUNTRY_CURED: tuple[PartOf, ...] = ("ham", "shoulder")
"""Parts that a country ham or shoulder is made from (9 CFR 319.106(a), read; 319.104 tells butts apart, read)."""
PARTS: tuple[PartOf, ...] = get_args(PartOf)


class Meat(NamedTuple):
    """What is known of the meat, from the cut that is named, else from the product of the standard."""

    cut: str | None
    animal: Animal | None
    part: str | None


def meat_of(cut: Cut | None, standard: Standard | None) -> Meat:
    """The meat; None for what nothing says."""
    if cut:
        return Meat(cut.id, cut.animal, cut.part_of)
    product = standard.product if standard else None
    if product is None:
        return Meat(None, None, None)
    return Meat(None, _animal(product), product.cut if isinstance(product, CornedBeef) else None)


def _animal(product: Product) -> Animal | None:
    if isinstance(product, CornedBeef):
        return "beef"
    if product.kind == "bacon":
        return "pork"
    species = product.species
    return None if species == "mixed" or species == "poultry" else "other_bird" if species == "other" else species


def require_match(standard: Standard | None, known: Cut | None) -> None:
    """Raises Impossible where the standard is that of another piece of meat."""
    if standard is None:
        return
    product = standard.product
    if standard.sold_as == "country_ham" and not (product.kind == "whole_muscle" and product.species == "pork"):
        raise _another("A country ham is a whole muscle of pork, and the product stated is not.")
    if standard.sold_as == "country_ham" and not _may_be_ham(product, known):
        raise _another(
            "A country ham is made from a ham or a shoulder of pork (9 CFR 319.106(a)), and another is named."
        )
    if known and not _may_be(product, known):
        raise _another(f"{known.name.capitalize()} is not the piece that the standard is asked for ({_told(product)}).")


def _may_be_ham(product: Product, cut: Cut | None) -> bool:
    """By the cut, and by the parts of a pig that the caller's own name for it holds."""
    if cut and cut.part_of not in COUNTRY_CURED:
        return False
    words = {word.removesuffix("s") for word in re.findall(r"[a-z]+", (product.cut or "").lower())}  # type: ignore[union-attr]
    named = words.intersection(PARTS)
    return not named or not named.isdisjoint(COUNTRY_CURED)


def _may_be(product: Product, cut: Cut) -> bool:
    if isinstance(product, CornedBeef):
        return cut.animal == "beef" and _corned_apart(cut.part_of) == _corned_apart(product.cut)
    if product.kind == "bacon":
        return cut.animal == "pork"
    if isinstance(product, Sausage):
        return product.species == "mixed" or product.species == ("poultry" if cut.animal in BIRDS else cut.animal)
    return cut.animal == ("other_bird" if product.species == "other" else product.species)


def _corned_apart(part: str | None) -> str | None:
    return part if part in CORNED_APART else None


def _told(product: Product) -> str:
    of = product.cut if isinstance(product, CornedBeef) else "pork" if product.kind == "bacon" else product.species
    return f"{product.kind.replace('_', ' ')}, {of}"


def _another(reason: str) -> Impossible:
    return Impossible(
        code="cut_of_another_product",
        reason=reason,
        nearest="State the product that this cut becomes, with sold_as of that product or without; or leave the "
        "standard out, and only weights are worked out.",
    )
