"""Which cut a caller names, and what is near a name that is none."""

import re
from string import ascii_uppercase
from typing import get_args

from service.calculations.near_ids import near_ids
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.cut import Cut, CutKind
from service.rules.vocabulary import Animal

REASONS = {"unknown_cut": "No cut has this id."}
"""The only way in which a cutting test is declined."""

KINDS: tuple[CutKind, ...] = get_args(CutKind)
"""A piece as it is bought is offered before what is made of it: what is cured already gets no cure."""
ANIMALS: dict[str, Animal] = {name: name for name in get_args(Animal)} | {
    "boar": "game", "deer": "game", "elk": "game", "venison": "game", "hog": "pork", "pig": "pork", "calf": "veal",
    "mutton": "lamb", "kid": "goat", "hen": "chicken", "pheasant": "other_bird", "quail": "other_bird",
}  # fmt: skip
"""What animals are called (common practice, no source)."""
TELLING_LITTLE = frozenset((*ANIMALS, "in", "on", "off", "of", "and", "the", "with"))
NUMBER = re.compile(r"(?<![a-z0-9])([0-9]{3,4})([a-z]?)(?![a-z0-9])")


def cut_named(book: RuleBook, id: str, animal: Animal | None = None) -> Cut:
    """The cut of this id. Raises Impossible (unknown_cut) with ids near it."""
    if id in book.cuts:
        return book.cuts[id]
    near, animals = ", ".join(near_cuts(book, id, animal)), animals_in(id, animal)
    listed = f"GET /v1/cuts?animal={animals[0]}" if len(animals) == 1 else "GET /v1/cuts"
    raise Impossible(
        code="unknown_cut",
        reason=f"No cut has the id {id}.",
        nearest=f"{near or 'none'}. {listed} lists all there are; leave cut out where none fits.",
    )


def animals_in(words: str, otherwise: Animal | None = None) -> tuple[Animal, ...]:
    """The animals that are named, each once; else the other one, where there is one."""
    named = [ANIMALS[word] for word in re.findall(r"[a-z]+", words.lower()) if word in ANIMALS]
    return tuple(dict.fromkeys(named)) or ((otherwise,) if otherwise else ())


def near_cuts(book: RuleBook, id: str, animal: Animal | None = None) -> tuple[str, ...]:
    """By item number, else by words of ids and names; where an animal is named or stated, none of another."""
    animals = animals_in(id, animal)
    cuts = sorted(book.cuts.values(), key=lambda one: KINDS.index(one.kind))
    cuts = [one for one in cuts if not animals or one.animal in animals]
    for digits, letter in NUMBER.findall(id.lower()):
        numbered = [one for one in cuts if (one.item_number or "").rstrip(ascii_uppercase) == digits]
        exact = [one for one in numbered if one.item_number == digits + letter.upper()]
        if numbered:
            return tuple(one.id for one in exact or numbered)
    names = {one.id: one.name for one in cuts}
    return near_ids(names, id, telling_little=TELLING_LITTLE, names=names)
