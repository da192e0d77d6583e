"""The list of ingredients: the same thing once, by weight, with what the caller chose of the law's liberties."""

from collections.abc import Iterable, Sequence
from math import fsum
from typing import NamedTuple

from service.calculations.labels.labelling.composition import parts_of
from service.calculations.labels.labelling.place import Facts, Place
from service.calculations.labels.labelling.recipe import LabelledLine, Node
from service.calculations.labels.labelling.refusing import meats_not_joined
from service.calculations.labels.labelling.shares import share_percent
from service.rules.spelling import folded
from service.rules.vocabulary import AllergenName

SPICES = "spices"
PERCENT_DECIMALS = 9
"""Shares that agree to so many decimals are equal: beyond that is the noise of adding up."""


class Entry(NamedTuple):
    """One ingredient of the list."""

    name: str
    plain: str
    text: str
    weight_g: float
    percent: float
    lines: tuple[int, ...]
    is_meat: bool
    in_solution: bool


class Gathered:
    """Lines that are one ingredient, while they are added up."""

    __slots__ = ("in_solution", "is_meat", "lines", "name", "plain", "text", "weights_g")

    def __init__(self, name: str, plain: str, text: str) -> None:
        self.name, self.plain, self.text = name, plain, text
        self.weights_g: list[float] = []
        self.lines: list[int] = []
        self.is_meat = self.in_solution = False

    def entry(self, whole_g: float) -> Entry:
        """Added up."""
        weight_g = self.weights_g[0] if len(self.weights_g) == 1 else fsum(self.weights_g)
        return Entry(
            name=self.name,
            plain=self.plain,
            text=self.text,
            weight_g=weight_g,
            percent=round(share_percent(weight_g, whole_g=whole_g), PERCENT_DECIMALS),
            lines=tuple(self.lines),
            is_meat=self.is_meat,
            in_solution=self.in_solution,
        )


def entries_of(place: Place, lines: Sequence[LabelledLine], *, spices: bool) -> tuple[Entry, ...]:
    """Every ingredient once, heaviest first; where two are equal, in the order of the lines."""
    gathered = _gathered(place, lines, spices=spices)
    whole_g = fsum(weight_g for one in gathered for weight_g in one.weights_g)
    entries = [one.entry(whole_g) for one in gathered]
    return tuple(sorted(entries, key=_heaviest_first))


def _heaviest_first(entry: Entry) -> float:
    return -entry.percent


def _gathered(place: Place, lines: Sequence[LabelledLine], *, spices: bool) -> Iterable[Gathered]:
    found: dict[tuple[str, str], Gathered] = {}
    for number, line in enumerate(lines, 1):
        facts = place.facts(line.name, line.ingredient)
        is_bare = line.sub_ingredients is None and line.specification is None
        if spices and is_bare and _goes_under_spices(facts, place):
            name, plain, text = SPICES, SPICES, SPICES
        else:
            name, plain, text = facts.name, facts.plain, facts.text if is_bare else text_of(line, facts, place)
        key = (plain, "" if is_bare else text.casefold())
        one = found.get(key)
        if one is None:
            one = found[key] = Gathered(name, plain, text)
        one.weights_g.append(line.weight.g)
        one.lines.append(number)
        one.is_meat = one.is_meat or line.animal is not None
        one.in_solution = one.in_solution or line.in_solution
    return found.values()


def _goes_under_spices(facts: Facts, place: Place) -> bool:
    """Whether the one word may stand for it: a spice that brings in nothing that has to be named."""
    return facts.is_spice and not any(one.allergen in place.listed for one in facts.carried)


def text_of(node: Node, facts: Facts, place: Place) -> str:
    """An ingredient as the list has it: what it consists of in parentheses, and what its specification adds."""
    parts, specification = parts_of(node), node.specification
    text = facts.text
    if parts is not None:
        text += f" ({', '.join(text_of(part, place.facts(part.name), place) for part in parts)})"
    if specification is not None:
        text += _declared(specification.allergens, text, place)
    return text


def _declared(allergens: Sequence[AllergenName], text: str, place: Place) -> str:
    """Listed allergens that a specification declares and that the text does not name."""
    names = [one.name for one in place.allergens if one.id in allergens and one.id in place.listed]
    said = set(folded(text).split())
    missing = [name.upper() if place.emphasises else name for name in names if not set(folded(name).split()) <= said]
    return f" (contains {', '.join(missing)})" if missing else ""


def joined(entries: tuple[Entry, ...], least_percent: tuple[float, float]) -> tuple[Entry, Entry]:
    """The two meats that may change places, as stated. Raises Impossible where they are too small."""
    meats = [one for one in entries if one.is_meat]
    if len(meats) < 2:
        raise meats_not_joined("Fewer than two lines state an animal.")
    first, second = meats[:2]
    block_g = fsum(one.weight_g for one in meats)
    each, both = (_share(part_g, whole_g=block_g) for part_g in (second.weight_g, first.weight_g + second.weight_g))
    least_each, least_both = least_percent
    if each < least_each or both < least_both:
        raise meats_not_joined(
            f"{first.name} and {second.name} are {both:.4g} percent of the meat and the lesser {each:.4g}: "
            f"each has to be {least_each:g}, both {least_both:g}."
        )
    return (first, second) if first.lines < second.lines else (second, first)


def _share(part_g: float, *, whole_g: float) -> float:
    return round(share_percent(part_g, whole_g=whole_g), PERCENT_DECIMALS)


def statement_of(entries: tuple[Entry, ...], *, threshold: str | None, meats: tuple[Entry, Entry] | None) -> str:
    """The list of ingredients as one text."""
    listed = entries if meats is None else _with_meats_joined(entries, meats)
    limit_percent = 0.0 if threshold is None else float(threshold)
    main = [one.text for one in listed if one.percent > limit_percent]
    tail = [one.text for one in listed if one.percent <= limit_percent]
    clause = [f"Contains {threshold}% or less of: {', '.join(tail)}"] if tail else []
    return "Ingredients: " + ". ".join([*([", ".join(main)] if main else []), *clause]) + "."


def _with_meats_joined(entries: tuple[Entry, ...], meats: tuple[Entry, Entry]) -> tuple[Entry, ...]:
    first, second = meats
    pair = first._replace(text=f"{first.text} and {second.text}", percent=max(first.percent, second.percent))
    ahead = next(one for one in entries if one in meats)
    return tuple(pair if one is ahead else one for one in entries if one is ahead or one not in meats)
