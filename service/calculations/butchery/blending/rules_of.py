"""The limits of a request, written as lines of numbers."""

from collections.abc import Iterator
from dataclasses import dataclass

from service.calculations.butchery.blending.asked import BlendRequest
from service.calculations.butchery.blending.limits import (
    InItsUnit,
    Limit,
    LimitBound,
    LimitCode,
    LimitUnit,
    PerMaterial,
    Scaled,
)
from service.calculations.butchery.blending.materials import Material
from service.calculations.butchery.blending.sorting import Sorted
from service.calculations.butchery.blending.wanted import GroupRule, Range
from service.calculations.refusals import Impossible
from service.quantities.quantity import Mass
from service.quantities.units import factor

PERCENT: Scaled = 0.01
EVEN_G = 1000.0
"""What a programme is scaled by where nothing in it has a weight."""


@dataclass(frozen=True, slots=True)
class Terms:
    """What every limit of one request is written in."""

    in_play: Sorted
    scale_g: float
    unit: LimitUnit
    """kg or lb: the unit in which limits on weight are told."""

    @property
    def many(self) -> int:
        return len(self.in_play.materials)

    @property
    def whole(self) -> PerMaterial:
        """The weight of the block."""
        return (1.0,) * self.many

    @property
    def one(self) -> Scaled:
        """What one of the unit of weights is."""
        return factor(self.unit) / self.scale_g

    def alone(self, number: int) -> PerMaterial:
        """The weight of one material."""
        return tuple([1.0 if each == number else 0.0 for each in range(self.many)])

    def together(self, names: list[str]) -> PerMaterial:
        """The weight of some materials."""
        return tuple([1.0 if material.name in names else 0.0 for material in self.in_play.materials])

    def weight(
        self, code: LimitCode, words: str, place: str, bound: LimitBound, of: PerMaterial, mass_g: float
    ) -> Limit:
        """A limit on a weight."""
        return Limit(code, words, place, bound, mass_g / factor(self.unit), self.unit, self.one, of)

    def share(
        self, code: LimitCode, words: str, place: str, bound: LimitBound, of: PerMaterial, value: InItsUnit
    ) -> Limit:
        """A limit on a share of the block."""
        return Limit(code, words, place, bound, value, "percent", PERCENT, of, self.whole)


def terms_of(request: BlendRequest, in_play: Sorted) -> Terms:
    """What the limits of a request are written in."""
    return Terms(in_play, _scale_g(request, in_play), "kg" if request.units == "metric" else "lb")


def _scale_g(request: BlendRequest, in_play: Sorted) -> float:
    block = request.block
    if block.kind == "whole_block":
        return block.weight.g
    if block.kind == "use_up":
        return _used_up(request, in_play)[1]
    stated = [mass.g for mass in (block.at_most, block.at_least) if mass]
    masses = [mass.g for each in in_play.materials for mass in (each.on_hand, each.least, each.most) if mass]
    return max(stated or masses or [EVEN_G])


def _used_up(request: BlendRequest, in_play: Sorted) -> tuple[int, float]:
    """The number of what is used up, and how much of it there is. Raises Impossible."""
    assert request.block.kind == "use_up"
    number = [material.name for material in in_play.materials].index(request.block.material)
    material = in_play.materials[number]
    if material.on_hand is None:
        raise Impossible(
            code="stock_not_stated",
            reason=f"{material.name} is to be used up, and does not say how much there is.",
            nearest=f"State materials[{in_play.numbers[number]}].on_hand.",
        )
    return number, material.on_hand.g


def limits_of(request: BlendRequest, terms: Terms) -> tuple[Limit, ...]:
    """Every limit that the request states, in the order in which it states them."""
    return (
        *_of_block(request, terms),
        *_of_composition(request, terms),
        *(limit for number in range(terms.many) for limit in _of_material(number, request, terms)),
        *(_of_group(rule, number, terms) for number, rule in enumerate(request.rules)),
    )


def _of_block(request: BlendRequest, terms: Terms) -> Iterator[Limit]:
    block, words = request.block, "weight of the block"
    if block.kind == "whole_block":
        yield terms.weight("block_weight", words, "block.weight", "exactly", terms.whole, block.weight.g)
    elif block.kind == "any_weight":
        if block.at_least:
            yield terms.weight("block_weight", words, "block.at_least", "at_least", terms.whole, block.at_least.g)
        if block.at_most:
            yield terms.weight("block_weight", words, "block.at_most", "at_most", terms.whole, block.at_most.g)


def _of_composition(request: BlendRequest, terms: Terms) -> Iterator[Limit]:
    materials = terms.in_play.materials
    asked: tuple[tuple[LimitCode, Range | None, PerMaterial], ...] = (
        ("fat", request.fat, tuple([each.fat_percent / 100 for each in materials])),
        ("protein", request.protein, tuple([(each.protein_percent or 0.0) / 100 for each in materials])),
        ("moisture", request.moisture, tuple([(each.moisture_percent or 0.0) / 100 for each in materials])),
    )
    for code, wanted, of in asked:
        if wanted is None:
            continue
        words = f"{'water' if code == 'moisture' else code} of the block"
        if wanted.kind == "between":
            yield terms.share(code, words, f"{code}.least_percent", "at_least", of, wanted.least_percent)
            yield terms.share(code, words, f"{code}.most_percent", "at_most", of, wanted.most_percent)
        else:
            yield terms.share(code, words, f"{code}.percent", wanted.kind, of, wanted.percent)


def _of_material(number: int, request: BlendRequest, terms: Terms) -> Iterator[Limit]:
    material = terms.in_play.materials[number]
    place, used_up = f"materials[{terms.in_play.numbers[number]}]", _is_used_up(material, request)
    weights: tuple[tuple[LimitCode, LimitBound, Mass | None, str], ...] = (
        ("least", "at_least", material.least, "least"),
        ("most", "at_most", material.most, "most"),
    )
    alone = terms.alone(number)
    if material.on_hand is not None:
        code: LimitCode = "use_up" if used_up else "on_hand"
        words = f"{material.name} that is used up" if used_up else f"{material.name} on hand"
        bound: LimitBound = "exactly" if used_up else "at_most"
        yield _in_column(terms.weight(code, words, f"{place}.on_hand", bound, alone, material.on_hand.g), number)
    for code, bound, mass, field in weights:
        if mass:
            words = f"{field} of {material.name}"
            yield _in_column(terms.weight(code, words, f"{place}.{field}", bound, alone, mass.g), number)
    if material.least_share_percent:
        words, field = f"share of {material.name}", f"{place}.least_share_percent"
        yield terms.share("least_share", words, field, "at_least", alone, material.least_share_percent)
    if material.most_share_percent is not None:
        words, field = f"share of {material.name}", f"{place}.most_share_percent"
        yield terms.share("most_share", words, field, "at_most", alone, material.most_share_percent)


def _is_used_up(material: Material, request: BlendRequest) -> bool:
    return request.block.kind == "use_up" and request.block.material == material.name


def _in_column(limit: Limit, number: int) -> Limit:
    return Limit(
        limit.code, limit.words, limit.place, limit.bound, limit.value, limit.unit, limit.one, limit.of, column=number
    )


def _of_group(rule: GroupRule, number: int, terms: Terms) -> Limit:
    place, of, names = f"rules[{number}]", terms.together(rule.materials), " and ".join(rule.materials)
    if rule.kind == "group_share":
        return terms.share("group_share", f"share of {names}", f"{place}.percent", rule.bound, of, rule.percent)
    if rule.kind == "group_weight":
        return terms.weight("group_weight", f"weight of {names}", f"{place}.weight", rule.bound, of, rule.weight.g)
    words, others = f"{names} to {' and '.join(rule.of)}", terms.together(rule.of)
    return Limit("group_ratio", words, f"{place}.times", rule.bound, rule.times, "ratio", 1.0, of, others)
