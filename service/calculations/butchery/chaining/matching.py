"""Whether the cut that is named can be the product that the law is asked for."""

from service.calculations.butchery.animals import BIRDS
from service.calculations.butchery.chaining.asking import Standard
from service.calculations.curing.products import CornedBeef, Product, Sausage
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.cut import Cut

PARTS_IN_LAW = ("brisket", "tongue")
"""Parts that a standard of identity of corned beef names, as the names of cuts say them."""


def require_match(standard: Standard | None, cut: str | None, book: RuleBook) -> None:
    """Raises Impossible where the standard is that of another piece of meat."""
    if standard is None:
        return
    product = standard.product
    if standard.sold_as == "country_ham" and not (product.kind == "whole_muscle" and product.species == "pork"):
        raise _another("A country ham is a whole muscle of pork, and the product stated is not.")
    known = book.cuts[cut] if cut else None
    if known and not _may_be(product, known):
        raise _another(f"{known.name.capitalize()} is not the piece that the standard is asked for ({_told(product)}).")


def _may_be(product: Product, cut: Cut) -> bool:
    if isinstance(product, CornedBeef):
        return cut.animal == "beef" and _part_in_law(cut.name) == _part_in_law(product.cut)
    if product.kind == "bacon":
        return cut.animal == "pork"
    if isinstance(product, Sausage):
        return product.species == "mixed" or product.species == ("poultry" if cut.animal in BIRDS else cut.animal)
    return cut.animal == ("other_bird" if product.species == "other" else product.species)


def _part_in_law(name: str) -> str | None:
    return next((part for part in PARTS_IN_LAW if part in name), None)


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
