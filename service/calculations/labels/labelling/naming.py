"""A name as it stands in the list of ingredients: additives by what they do, allergens so that they stand out."""

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from service.calculations.labels.labelling.words import Carried, Read
from service.rules.spelling import folded
from service.rules.substance import Additive
from service.rules.vocabulary import Jurisdiction

if TYPE_CHECKING:
    from service.calculations.labels.labelling.place import Place

E_NUMBER = re.compile(r"e[1-9][0-9]{2,3}[a-f]?")
EUROPE = frozenset(("EU", "DK", "GB", "GB-NI"))


def label_name(name: str, read: Read, jurisdiction: Jurisdiction) -> str:
    """The name that a label has for it: water for ice, and outside Europe the name of an additive for its number."""
    if len(read.things) == 1 and not read.unknown and read.things[0].substance and read.things[0].substance.on_label:
        return read.things[0].substance.on_label
    if jurisdiction in EUROPE:
        return name
    pieces, end = [], 0
    for chunk in read.things:
        if chunk.substance and chunk.substance.additive and E_NUMBER.fullmatch(chunk.text):
            pieces += [name[end : chunk.words[0].start], chunk.substance.words[0]]
            end = chunk.words[-1].end
    return "".join([*pieces, name[end:]]) if pieces else name


def name_on_label(name: str, read: Read, carried: Iterable[Carried], place: "Place") -> str:
    """A name as the list of Europe has it: with allergens that stand out, and additives by what they do."""
    listed = [one for one in carried if one.counts and one.allergen in place.listed]
    text = _emphasised(name, listed)
    added = added_words(carried, place)
    text += f" ({', '.join(added)})" if added else ""
    additives = [chunk.substance.additive for chunk in read.things if chunk.substance and chunk.substance.additive]
    return _as_additive(text, additives[0], folded(name)) if len(additives) == 1 else text


def added_words(carried: Iterable[Carried], place: "Place") -> tuple[str, ...]:
    """What the list of Europe has to say beside a name: listed allergens that the name does not say."""
    listed = [one for one in carried if one.counts and one.allergen in place.listed]
    return tuple(dict.fromkeys(said for one in listed if (said := _added(one, listed, place))))


def _added(one: Carried, listed: list[Carried], place: "Place") -> str:
    """What the list has to add: all of it for what an id says and no word of the name."""
    if one.end:
        return missing_in(one, place)
    is_in_the_name = any(other.end and other.allergen == one.allergen for other in listed)
    return "" if is_in_the_name else _said(one, place).upper()


def _emphasised(name: str, listed: list[Carried]) -> str:
    """With the words that bring an allergen in written in capitals."""
    pieces, end = [], 0
    for start, stop in sorted({(one.start, one.end) for one in listed}):
        pieces += [name[end:start], name[start:stop].upper()]
        end = stop
    return "".join([*pieces, name[end:]])


def missing_in(one: Carried, place: "Place") -> str:
    """The name of the allergen in capitals where the word does not hold it; empty where it does."""
    said = _said(one, place)
    return "" if set(folded(said).split()) <= set(folded(one.word).split()) else said.upper()


def _said(one: Carried, place: "Place") -> str:
    """The kind where the law of the place wants it, or else the allergen."""
    name = next(allergen.name for allergen in place.allergens if allergen.id == one.allergen)
    return one.says if one.says and one.allergen in place.by_kind else name


def _as_additive(text: str, additive: Additive, plain: str) -> str:
    """What it does, its name, its number: what the name says already is not said again."""
    number = additive.e_number
    with_number = text if number.replace(" ", "").lower() in plain.split() else f"{text} ({number})"
    said = set(folded(additive.category).split()) <= set(plain.split())
    return with_number if said else f"{additive.category}: {with_number}"
