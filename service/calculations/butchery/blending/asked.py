"""The request for a blend, and what of it is checked before anything is reckoned."""

from collections import Counter
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.butchery.blending.batch import SausageBatch
from service.calculations.butchery.blending.materials import AgeD, Material
from service.calculations.butchery.blending.wanted import Block, GroupRule, PercentBetween, Range
from service.calculations.refusals import Impossible
from service.quantities.models import Day, IfStated, Request
from service.quantities.quantity import Mass, Units
from service.rules.vocabulary import Animal

MOST_MATERIALS, MOST_RULES = 60, 40
MOST_PERCENT_IN_ALL = 101.0
"""Fat, protein, water and salt of one analysis add up to no more (own bound: a hundred, and the analyst's error)."""


class BlendRequest(Request):
    """Materials, what is wanted of the block, and what is to become of it."""

    on: IfStated[Day] = None
    """The day of making; left out, it is today in the kitchen's time zone. Rules are those of that day."""
    block: Block
    """How much meat block is made."""
    materials: Annotated[list[Material], Field(min_length=1, max_length=MOST_MATERIALS)]
    """What may go in."""
    fat: IfStated[Range] = None
    """Fat of the block."""
    protein: IfStated[Range] = None
    """Protein of the block. A material that does not state its protein is then left out."""
    moisture: IfStated[Range] = None
    """Water in the block, likewise."""
    oldest_d: IfStated[AgeD] = None
    """Days; a material that is older, or does not state its age, is left out."""
    animals: IfStated[Annotated[list[Animal], Field(min_length=1, max_length=11)]] = None
    """The animals that may go in; left out, all."""
    rules: Annotated[list[GroupRule], Field(default_factory=list, max_length=MOST_RULES)]
    """How materials stand to the block and to each other."""
    batch: IfStated[SausageBatch] = None
    """What the block becomes: salt, water, seasoning, cure, and the class of sausage whose limits it keeps."""
    scale_step: IfStated[Mass] = None
    """The smallest step of the scale that weighs the meat. Amounts are whole steps then."""
    units: Units = "metric"
    """Units for worked-out weights; arithmetic is in grams."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out how far each saving holds, the arithmetic and the sources."""


REASONS = {
    "same_name_twice": "Two materials have the same name.",
    "unknown_material": "A rule names a material that is not in the list.",
    "prices_missing": "Some materials have a price and others have none.",
    "several_currencies": "Prices are in several currencies.",
    "composition_adds_up_to_more": "Fat, protein, water and salt of a material come to more than all of it.",
    "empty_range": "A range ends below its beginning.",
    "rendered_more_than_lost": "More fat is to run out than is lost in cooking, or than there is.",
    "stock_not_stated": "What is to be used up does not say how much of it there is.",
}


def require_consistent(request: BlendRequest) -> None:
    """Raises Impossible where the request contradicts itself."""
    _require_names(request)
    _require_prices(request.materials)
    for material in request.materials:
        _require_composition(material)
    for name, wanted in (("fat", request.fat), ("protein", request.protein), ("moisture", request.moisture)):
        if isinstance(wanted, PercentBetween) and wanted.least_percent > wanted.most_percent:
            raise Impossible(
                code="empty_range",
                reason=f"{name.capitalize()} is to be at least {wanted.least_percent:g} and at most "
                f"{wanted.most_percent:g} percent.",
                nearest=f"Set {name}.least_percent to {wanted.most_percent:g} or less.",
            )
    _require_weights(request.block)
    _require_rendered(request.batch)


def _require_weights(block: Block) -> None:
    if block.kind != "any_weight" or not block.at_least or not block.at_most or block.at_least.g <= block.at_most.g:
        return
    least, most = block.at_least, block.at_most
    raise Impossible(
        code="empty_range",
        reason=f"The block is to weigh at least {least.value:g} {least.unit} and at most {most.value:g} {most.unit}.",
        nearest=f"Set block.at_least to {most.value:g} {most.unit} or less.",
    )


def _require_rendered(batch: SausageBatch | None) -> None:
    if batch is None or not batch.rendered_fat_percent or not batch.cook_yield_percent:
        return
    lost_percent = max(100 - batch.cook_yield_percent, 0.0)
    if batch.rendered_fat_percent > lost_percent:
        raise Impossible(
            code="rendered_more_than_lost",
            reason=f"{batch.rendered_fat_percent:g} percent of the batch are to run out as fat, and {lost_percent:g} "
            "percent are lost in all.",
            nearest=f"Set batch.rendered_fat_percent to {lost_percent:.10g}.",
        )


def _require_names(request: BlendRequest) -> None:
    counted = Counter(" ".join(material.name.split()) for material in request.materials)
    twice = [name for name, times in counted.items() if times > 1]
    if twice:
        raise Impossible(
            code="same_name_twice",
            reason=f"{twice[0]} is listed {counted[twice[0]]} times, but for spaces.",
            nearest="Give each material a name of its own, or add what is the same together.",
        )
    listed = [material.name for material in request.materials]
    unknown = [name for name in _named(request) if name not in listed]
    if unknown:
        raise Impossible(
            code="unknown_material",
            reason=f"{unknown[0]} is named, and is not among the materials.",
            nearest=f"Write the name as it is listed: {', '.join(listed[:5])}.",
        )


def _named(request: BlendRequest) -> list[str]:
    used_up = [request.block.material] if request.block.kind == "use_up" else []
    groups = [[*rule.materials, *(rule.of if rule.kind == "group_ratio" else ())] for rule in request.rules]
    return [*used_up, *(name for group in groups for name in group)]


def _require_prices(materials: list[Material]) -> None:
    without = [material.name for material in materials if material.price is None]
    currencies = sorted({material.price.currency for material in materials if material.price})
    if without and currencies:
        raise Impossible(
            code="prices_missing",
            reason=f"{without[0]} has no price, and others have.",
            nearest="State a price for every material, or for none.",
        )
    if len(currencies) > 1:
        raise Impossible(
            code="several_currencies",
            reason=f"Prices are in {' and '.join(currencies)}.",
            nearest=f"State all of them in {currencies[0]}.",
        )


def _require_composition(material: Material) -> None:
    parts = (material.fat_percent, material.protein_percent, material.moisture_percent, material.salt_percent)
    in_all = sum(part for part in parts if part)
    if in_all > MOST_PERCENT_IN_ALL:
        raise Impossible(
            code="composition_adds_up_to_more",
            reason=f"What {material.name} is stated to hold adds up to {in_all:g} percent.",
            nearest=f"Read its analysis again: at most {MOST_PERCENT_IN_ALL:g} percent in all.",
        )
