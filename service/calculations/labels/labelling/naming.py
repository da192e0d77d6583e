"""A name as it stands in the list of ingredients: additives by what they do, allergens so that they stand out."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from service.calculations.labels.labelling.words import Carried, Read
from service.rules.spelling import folded
from service.rules.substance import Additive
from service.rules.vocabulary import AllergenName

if TYPE_CHECKING:
    from service.calculations.labels.labelling.place import Place

NAMED_BY_KIND: frozenset[AllergenName] = frozenset(("tree_nuts", "gluten_cereals"))
"""Allergens of which the European list wants the nut or the cereal, not the group."""
EUROPE = frozenset(("EU", "DK", "GB", "GB-NI"))


def name_on_label(name: str, read: Read, carried: Iterable[Carried], place: "Place") -> str:
    """A name as the list of a place has it: as it was stated, or in Europe with what its rules add."""
    if place.jurisdiction not in EUROPE:
        return name
    listed = [one for one in carried if one.allergen in place.listed]
    text = _emphasised(name, listed)
    added = dict.fromkeys(said for one in listed if (said := missing_in(one, place)))
    text += f" ({', '.join(added)})" if added else ""
    additives = [chunk.substance.additive for chunk in read.things if chunk.substance and chunk.substance.additive]
    return _as_additive(text, additives[0], folded(name)) if len(additives) == 1 else text


def _emphasised(name: str, listed: list[Carried]) -> str:
    """With the words that bring an allergen in written in capitals."""
    pieces, end = [], 0
    for start, stop in sorted({(one.start, one.end) for one in listed}):
        pieces += [name[end:start], name[start:stop].upper()]
        end = stop
    return "".join([*pieces, name[end:]])


def missing_in(one: Carried, place: "Place") -> str:
    """The name of the allergen in capitals where the word does not hold it; empty where it does."""
    name = next(allergen.name for allergen in place.allergens if allergen.id == one.allergen)
    said = one.says if one.says and one.allergen in NAMED_BY_KIND else name
    return "" if set(folded(said).split()) <= set(folded(one.word).split()) else said.upper()


def _as_additive(text: str, additive: Additive, plain: str) -> str:
    """What it does, its name, its number: what the name says already is not said again."""
    number = additive.e_number
    with_number = text if number.replace(" ", "").lower() in plain.split() else f"{text} ({number})"
    said = set(folded(additive.category).split()) <= set(plain.split())
    return with_number if said else f"{additive.category}: {with_number}"
