"""What is told of allergens: each with its verdict and the way it came in, and the statement they make."""

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal

from service.calculations.labels.labelling.composition import QUIET, By, Contents, Found, InLine, Opened
from service.calculations.labels.labelling.place import PLACES_KEPT, Place
from service.calculations.labels.labelling.recipe import LabelledLine
from service.calculations.labels.labelling.words import WhyOpen
from service.quantities.models import Answer, made
from service.rules.allergen import Allergen
from service.rules.vocabulary import AllergenName

Presence = Literal["contains", "does_not_contain", "cannot_tell"]
Listed = Literal["yes", "no", "not_known"]
Composed = Literal["known", "stated", "declared", "cannot_tell"]

LINES_KEPT = 2048
HAS_KINDS: frozenset[AllergenName] = frozenset(("tree_nuts", "fish", "crustaceans", "gluten_cereals"))
"""Allergens that a statement names with their kinds."""

WHY = {
    "unknown_word": "Nothing is known of this name: state its parts, or what its specification declares.",
    "generic_word": "The name does not say what is in it: state its parts, or what its specification declares.",
    "claim_in_name": "A claim in a name proves nothing: state its parts, or what its specification declares.",
    "form_not_known": "In this form it may hold more than its name says: state its parts, or what is declared.",
    "several_foods": "Several foods in one name are a dish or a mix: state its parts, or what is declared.",
    "may_carry": "One maker's brings these in and another's does not: state what its specification declares.",
    "rest_not_stated": "The parts do not come to the whole: state the rest.",
    "kind_not_named": "The law wants the nut, the cereal, the fish or the crustacean by its kind: ask which it is.",
}
"""What each reason for not telling means, and what settles it."""


class AllergenSource(Answer):
    """Where an allergen came from."""

    path: tuple[str, ...]
    """From the line of the recipe down to the ingredient; empty for a measurement."""
    word: str
    """The word that brings it in; empty where a specification or a measurement says so."""
    by: By
    """What says so: a word of a name, a supplier's specification, or what was measured."""
    counts: bool
    """Whether the list of the place means it: it does not mean every nut, nor fully refined oils."""


class AllergenTold(Answer):
    """One allergen: whether it is in what was stated."""

    allergen: AllergenName
    """Its id."""
    name: str
    """In words."""
    verdict: Presence
    """contains, does_not_contain, or cannot_tell. Only of the ingredients that were stated, never of traces."""
    listed: Listed
    """Whether the law of the place wants it named on that day; not_known where no list of the place is held."""
    to_be_named: Literal["yes", "no", "cannot_tell"]
    """Whether the label has to name it."""
    came_from: tuple[AllergenSource, ...]
    """Every way in which it came in."""


class OpenIngredient(Answer):
    """An ingredient that keeps the statement from being told."""

    path: tuple[str, ...]
    """From the line of the recipe down to it."""
    code: WhyOpen
    """Stable code of the reason."""
    words: tuple[str, ...]
    """The words that leave it open, as they are compared."""
    may_bring_in: tuple[AllergenName, ...]
    """Allergens that it may bring in: none of them is excluded."""
    usually_brings_in: tuple[AllergenName, ...]
    """What things of this name usually bring in: ask for these first."""
    message: str
    """What to find out."""


class AllergenStatement(Answer):
    """What the allergens come to under the law of the place."""

    verdict: Presence
    """cannot_tell as soon as one ingredient may bring in a listed allergen; whatever was found is still named."""
    found: tuple[str, ...]
    """Listed allergens that are in, as a statement names them; under an unknown list every allergen that is in."""
    not_listed: tuple[str, ...]
    """What was found and is not on the list of the place: people react to it all the same."""
    text: str | None
    """The statement in words; null where it cannot be told, where there is nothing to name, and in Europe beside a list
    of ingredients, which names them."""


class LabelledLineTold(Answer):
    """What is known of one line."""

    line: int
    """Its number, from 1."""
    name: str
    """Its name."""
    composition: Composed
    """known by its name, stated with what it consists of, declared by a specification, or cannot_tell."""
    contains: tuple[AllergenName, ...]
    """Allergens that it brings in."""
    contradicted: tuple[AllergenName, ...]
    """Allergens that its words bring in and that its specification leaves out: ask the supplier."""
    not_among_parts: tuple[AllergenName, ...]
    """Allergens that things of its name usually bring in, and that none of its stated parts does: ask once more."""


def allergens_told(place: Place, contents: Contents, sulphites_mg_per_kg: float | None) -> tuple[AllergenTold, ...]:
    """Every allergen that any law here lists, whether or not the law of the place does."""
    ways: dict[AllergenName, dict[Found, None]] = {}
    for found in contents.found:
        ways.setdefault(found.allergen, {})[found] = None
    if sulphites_mg_per_kg is not None and _is_above(place, sulphites_mg_per_kg):
        ways.setdefault("sulphites", {})[Found("sulphites", (), "", "", "measurement")] = None
    open_to = {allergen for one in contents.opened for allergen in one.open_to}
    return tuple(
        _found(one, place, tuple(ways[one.id]), one.id in open_to) if one.id in ways else nothing[one.id in open_to]
        for one, nothing in zip(place.allergens, _nothing_found(place), strict=True)
    )


@lru_cache(maxsize=PLACES_KEPT)
def _nothing_found(place: Place) -> tuple[tuple[AllergenTold, AllergenTold], ...]:
    """Of each allergen: that it is not in, and that it cannot be told. Most allergens are said so of most recipes."""
    return tuple(
        (_not_found(one, "does_not_contain", place), _not_found(one, "cannot_tell", place)) for one in place.allergens
    )


def _not_found(allergen: Allergen, verdict: Presence, place: Place) -> AllergenTold:
    listed = listed_there(allergen.id, place)
    return made(
        AllergenTold, allergen=allergen.id, name=allergen.name, verdict=verdict, listed=listed,
        to_be_named=_to_be_named(verdict, listed), came_from=(),
    )  # fmt: skip


def _found(allergen: Allergen, place: Place, ways: tuple[Found, ...], is_open: bool) -> AllergenTold:
    listed = listed_there(allergen.id, place)
    if any(one.counts for one in ways):
        to_be_named = _to_be_named("contains", listed)
    else:
        to_be_named = _to_be_named("cannot_tell" if is_open else "does_not_contain", listed)
    return made(
        AllergenTold,
        allergen=allergen.id,
        name=allergen.name,
        verdict="contains",
        listed=listed,
        to_be_named=to_be_named,
        came_from=tuple(
            made(AllergenSource, path=one.path, word=one.word, by=one.by, counts=one.counts) for one in ways
        ),
    )


def listed_there(allergen: AllergenName, place: Place) -> Listed:
    """Whether the law of the place wants it named."""
    if not place.has_list:
        return "not_known"
    return "yes" if allergen in place.listed else "no"


def _is_above(place: Place, sulphites_mg_per_kg: float) -> bool:
    """Whether so much is more than any list lets pass; where the place has no level, the level of the others."""
    levels = [one.above_mg_per_kg for row in place.allergens if row.id == "sulphites" for one in row.lists]
    return any(level is not None and sulphites_mg_per_kg > level for level in levels)


def _to_be_named(verdict: Presence, listed: Listed) -> Literal["yes", "no", "cannot_tell"]:
    if listed == "no" or (listed == "yes" and verdict == "does_not_contain"):
        return "no"
    return "yes" if listed == "yes" and verdict == "contains" else "cannot_tell"


def open_told(opened: Opened, place: Place) -> OpenIngredient:
    """One ingredient that stays open."""
    return made(
        OpenIngredient,
        path=opened.path,
        code=opened.why,
        words=opened.words,
        may_bring_in=tuple(one.id for one in place.allergens if one.id in opened.open_to),
        usually_brings_in=tuple(one for one in opened.usually if one in opened.open_to),
        message=WHY[opened.why],
    )


def statement_of_allergens(
    place: Place, contents: Contents, told: tuple[AllergenTold, ...], *, is_listed: bool
) -> AllergenStatement:
    """Complete only where nothing listed stays open; under an unknown list it is never complete."""
    inside = [one for one in told if one.verdict == "contains"]
    named = [one for one in inside if is_to_be_named(one)]
    found = tuple(_with_kinds(one, contents.found, counts=True) for one in named)
    not_listed = tuple(_not_listed(place, contents.found, inside, named)) if inside and place.has_list else ()
    if not place.has_list or any(not one.open_to.isdisjoint(place.listed) for one in contents.opened):
        return made(AllergenStatement, verdict="cannot_tell", found=found, not_listed=not_listed, text=None)
    if not found:
        return made(AllergenStatement, verdict="does_not_contain", found=(), not_listed=not_listed, text=None)
    text = None if place.emphasises and is_listed else f"Contains: {', '.join(found)}."
    return made(AllergenStatement, verdict="contains", found=found, not_listed=not_listed, text=text)


def is_to_be_named(one: AllergenTold) -> bool:
    """Whether it is in, and the law of the place wants it named, or may."""
    return one.verdict == "contains" and one.to_be_named != "no" and any(way.counts for way in one.came_from)


def _not_listed(
    place: Place, found: list[Found], inside: list[AllergenTold], named: list[AllergenTold]
) -> Iterator[str]:
    """What is in and is not meant by the list; wheat and the cereals with gluten are told by either name."""
    ids = {one.allergen for one in named}
    for one in inside:
        if _is_told_by_its_whole(one, place, ids):
            continue
        if one.allergen not in place.listed:
            kinds = {each.says for each in found if each.allergen == one.allergen}
            if not kinds or not kinds <= ids:
                yield _with_kinds(one, found, counts=True)
        elif not all(way.counts for way in one.came_from):
            yield _with_kinds(one, found, counts=False)


def _is_told_by_its_whole(one: AllergenTold, place: Place, named: set[AllergenName]) -> bool:
    return any(row.id == one.allergen and row.part_of in named for row in place.allergens)


def _with_kinds(one: AllergenTold, found: list[Found], *, counts: bool) -> str:
    """The allergen, with the nut, the cereal, the fish or the crustacean where a word names it."""
    if one.allergen not in HAS_KINDS:
        return one.name
    kinds = kinds_of(one.allergen, found, counts=counts)
    return f"{one.name} ({', '.join(kinds)})" if kinds else one.name


def kinds_of(allergen: AllergenName, found: list[Found], *, counts: bool) -> tuple[str, ...]:
    """The kinds of an allergen that words and specifications name."""
    return tuple(
        dict.fromkeys(one.says for one in found if one.allergen == allergen and one.says and one.counts == counts)
    )


def line_told(place: Place, number: int, line: LabelledLine, inside: InLine) -> LabelledLineTold:
    """One line."""
    if inside is QUIET:
        return _quiet_line(number, line.name)
    return made(
        LabelledLineTold,
        line=number,
        name=line.name,
        composition=_known_by(place, line, inside),
        contains=tuple(dict.fromkeys(one.allergen for one in inside.found)),
        contradicted=tuple(dict.fromkeys(inside.contradicted)),
        not_among_parts=tuple(dict.fromkeys(inside.unusual)),
    )


@lru_cache(maxsize=LINES_KEPT)
def _quiet_line(number: int, name: str) -> LabelledLineTold:
    """Meat, salt and spices stand in every recipe."""
    return made(
        LabelledLineTold, line=number, name=name, composition="known", contains=(), contradicted=(),
        not_among_parts=(),
    )  # fmt: skip


def _known_by(place: Place, line: LabelledLine, inside: InLine) -> Composed:
    """A line is open where it may bring in what the law of the place lists; without a list, where it is open at all."""
    if any(not place.has_list or not one.open_to.isdisjoint(place.listed) for one in inside.opened):
        return "cannot_tell"
    if inside.is_specified:
        return "declared"
    return "known" if line.sub_ingredients is None else "stated"
