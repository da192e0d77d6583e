"""The list of ingredients: the same thing once, by weight, with what the caller chose of the law's liberties."""

from collections.abc import Iterable, Iterator, Sequence
from math import fsum
from typing import NamedTuple

from service.calculations.labels.labelling.composition import parts_of
from service.calculations.labels.labelling.naming import missing_in
from service.calculations.labels.labelling.place import Facts, Place
from service.calculations.labels.labelling.recipe import LabelledLeaf, LabelledLine, Node
from service.calculations.labels.labelling.refusing import meats_not_joined
from service.calculations.labels.labelling.shares import share_percent
from service.rules.allergen import Allergen
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
    parts: Sequence[Node] | None
    """What it consists of, as stated."""
    node: Node
    """The first of its lines."""
    facts: Facts


class Gathered:
    """Lines that are one ingredient, while they are added up."""

    __slots__ = ("facts", "in_solution", "is_meat", "lines", "name", "node", "parts", "plain", "text", "weights_g")

    def __init__(self, name: str, plain: str, text: str, node: LabelledLine, facts: Facts) -> None:
        self.name, self.plain, self.text = name, plain, text
        self.node, self.facts, self.parts = node, facts, node.sub_ingredients
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
            parts=self.parts,
            node=self.node,
            facts=self.facts,
        )


def entries_of(
    place: Place, lines: Sequence[LabelledLine], facts: Sequence[Facts], *, spices: bool
) -> tuple[Entry, ...]:
    """Every ingredient once, heaviest first; where two are equal, in the order of the lines."""
    gathered = _gathered(place, lines, facts, spices=spices)
    whole_g = fsum(weight_g for one in gathered for weight_g in one.weights_g)
    entries = [one.entry(whole_g) for one in gathered]
    return tuple(sorted(entries, key=_heaviest_first))


def _heaviest_first(entry: Entry) -> float:
    return -entry.percent


def _gathered(
    place: Place, lines: Sequence[LabelledLine], known: Sequence[Facts], *, spices: bool
) -> Iterable[Gathered]:
    found: dict[tuple[str, str], Gathered] = {}
    for number, (line, facts) in enumerate(zip(lines, known, strict=True), 1):
        is_bare = line.sub_ingredients is None and line.specification is None
        if spices and is_bare and _goes_under_spices(facts, place):
            name, plain, text = SPICES, SPICES, SPICES
        else:
            name, plain, text = facts.label, facts.plain, facts.text if is_bare else text_of(line, facts, place)
        key = (plain, text.casefold())
        one = found.get(key)
        if one is None:
            one = found[key] = Gathered(name, plain, text, line, facts)
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
        text += f" ({', '.join(text_of(part, place.facts(part.name), place) for part in by_share(parts))})"
    if specification is not None:
        declared = declared_words(node, facts, place)
        text += f" (contains {', '.join(declared)})" if declared else ""
    return text


def by_share(parts: Sequence[Node]) -> Sequence[Node]:
    """Parts in descending order where every share is known, as stated where one is not."""
    shares = [part.percent for part in parts if isinstance(part, LabelledLeaf) and part.percent]
    if len(shares) < len(parts):
        return parts
    return [part for _, part in sorted(zip(shares, parts, strict=True), key=lambda pair: -pair[0])]


def declared_words(node: Node, facts: Facts, place: Place) -> list[str]:
    """Listed allergens that a specification declares and that no word in it names."""
    if node.specification is None:
        return []
    allergens, said = node.specification.allergens, set(_said_by_words(node, facts, place))
    names = [one.name for one in place.allergens if one.id in allergens and _is_named(one, allergens, said, place)]
    return [name.upper() if place.emphasises else name for name in names]


def _is_named(allergen: Allergen, declared: Sequence[AllergenName], said: set[AllergenName], place: Place) -> bool:
    """Wheat for the cereals with gluten, where it is declared and the law wants the cereal."""
    whole = allergen.part_of
    if allergen.id in place.listed:
        has_its_part = any(one.part_of == allergen.id and one.id in declared for one in place.allergens)
        return allergen.id not in said and not has_its_part
    return whole in place.listed and allergen.id not in said


def _said_by_words(node: Node, facts: Facts, place: Place) -> Iterator[AllergenName]:
    """The allergens that stand in the list by their own names."""
    for one in facts.carried:
        if one.counts and (place.emphasises or not missing_in(one, place)):
            yield one.allergen
    for part in parts_of(node) or ():
        yield from _said_by_words(part, place.facts(part.name), place)


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


def statement_of(
    entries: tuple[Entry, ...],
    *,
    threshold: str | None,
    meats: tuple[Entry, Entry] | None,
    unplaced: tuple[str, ...] = (),
) -> str:
    """The list of ingredients as one text, with what is in and in none of them for certain."""
    listed = entries if meats is None else _with_meats_joined(entries, meats)
    limit_percent = 0.0 if threshold is None else float(threshold)
    main = [one.text for one in listed if one.percent > limit_percent]
    tail = [one.text for one in listed if one.percent <= limit_percent]
    clause = [f"Contains {threshold}% or less of: {', '.join(tail)}"] if tail else []
    rest = [f"Contains {', '.join(unplaced)}"] if unplaced else []
    return "Ingredients: " + ". ".join([*([", ".join(main)] if main else []), *clause, *rest]) + "."


def _with_meats_joined(entries: tuple[Entry, ...], meats: tuple[Entry, Entry]) -> tuple[Entry, ...]:
    first, second = meats
    pair = first._replace(text=f"{first.text} and {second.text}", percent=max(first.percent, second.percent))
    ahead = next(one for one in entries if one in meats)
    return tuple(pair if one is ahead else one for one in entries if one is ahead or one not in meats)
