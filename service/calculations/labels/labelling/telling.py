"""What is told of allergens: each with its verdict and the way it came in, and the statement they make."""

from functools import lru_cache
from typing import Literal

from service.calculations.labels.labelling.composition import QUIET, By, Contents, Found, InLine, Opened
from service.calculations.labels.labelling.place import Place
from service.calculations.labels.labelling.recipe import LabelledLine
from service.calculations.labels.labelling.words import WhyOpen
from service.quantities.models import Answer, made
from service.rules.allergen import Allergen
from service.rules.vocabulary import AllergenName

Presence = Literal["contains", "does_not_contain", "cannot_tell"]
Listed = Literal["yes", "no", "not_known"]
Composed = Literal["known", "stated", "declared", "cannot_tell"]

NOT_FOUND_KEPT = 256

WHY = {
    "unknown_word": "Nothing is known of this name: state its parts, or what its specification declares.",
    "generic_word": "The name does not say what is in it: state its parts, or what its specification declares.",
    "claim_in_name": "A claim in a name proves nothing: state its parts, or what its specification declares.",
    "may_carry": "One maker's brings these in and another's does not: state what its specification declares.",
    "rest_not_stated": "The parts do not come to the whole: state the rest.",
    "cereal_not_named": "The specification declares cereals with gluten and does not say which: ask for the cereal.",
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
    text: str | None
    """The statement in words; null where it cannot be told, or where there is nothing to name. In Europe it stands only
    where there is no list of ingredients."""


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


def allergens_told(place: Place, contents: Contents, sulphites_mg_per_kg: float | None) -> tuple[AllergenTold, ...]:
    """Every allergen that any law here lists, whether or not the law of the place does."""
    ways: dict[AllergenName, dict[Found, None]] = {}
    for found in contents.found:
        ways.setdefault(found.allergen, {})[found] = None
    if sulphites_mg_per_kg is not None and _is_above(place, sulphites_mg_per_kg):
        ways.setdefault("sulphites", {})[Found("sulphites", (), "", "", "measurement")] = None
    open_to = {allergen for one in contents.opened for allergen in one.open_to}
    return tuple(
        _told(one, place, tuple(ways.get(one.id, ())), one.id in open_to, sulphites_mg_per_kg)
        for one in place.allergens
    )


def _told(
    allergen: Allergen, place: Place, ways: tuple[Found, ...], is_open: bool, sulphites_mg_per_kg: float | None
) -> AllergenTold:
    listed = listed_there(allergen.id, place, sulphites_mg_per_kg)
    if not ways:
        return _not_found(allergen.id, allergen.name, "cannot_tell" if is_open else "does_not_contain", listed)
    return made(
        AllergenTold,
        allergen=allergen.id,
        name=allergen.name,
        verdict="contains",
        listed=listed,
        to_be_named=_to_be_named("contains", listed),
        came_from=tuple(made(AllergenSource, path=one.path, word=one.word, by=one.by) for one in ways),
    )


@lru_cache(maxsize=NOT_FOUND_KEPT)
def _not_found(allergen: AllergenName, name: str, verdict: Presence, listed: Listed) -> AllergenTold:
    """There are few ways to say so, and most allergens are said so of most recipes."""
    return made(
        AllergenTold, allergen=allergen, name=name, verdict=verdict, listed=listed,
        to_be_named=_to_be_named(verdict, listed), came_from=(),
    )  # fmt: skip


def listed_there(allergen: AllergenName, place: Place, sulphites_mg_per_kg: float | None) -> Listed:
    """Whether the law of the place wants it named; under the level of its list it does not."""
    if not place.has_list:
        return "not_known"
    listing = place.listed.get(allergen)
    if listing is None:
        return "no"
    is_under = (
        listing.above_mg_per_kg is not None
        and sulphites_mg_per_kg is not None
        and sulphites_mg_per_kg <= listing.above_mg_per_kg
    )
    return "no" if is_under else "yes"


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


def statement_of_allergens(place: Place, contents: Contents, told: tuple[AllergenTold, ...]) -> AllergenStatement:
    """Complete only where nothing listed stays open; under an unknown list it is never complete."""
    named = {one.allergen: one.name for one in told if one.verdict == "contains" and one.to_be_named != "no"}
    listed = frozenset(one.allergen for one in told if one.listed == "yes")
    found = tuple(_with_kinds(allergen, name, contents.found) for allergen, name in named.items())
    if not place.has_list or any(one.open_to & listed for one in contents.opened):
        return made(AllergenStatement, verdict="cannot_tell", found=found, text=None)
    if not found:
        return made(AllergenStatement, verdict="does_not_contain", found=(), text=None)
    return made(AllergenStatement, verdict="contains", found=found, text=f"Contains: {', '.join(found)}.")


def _with_kinds(allergen: AllergenName, name: str, found: list[Found]) -> str:
    """The allergen, with the nut, the cereal, the fish or the crustacean where a word names it."""
    if allergen == "wheat":
        return name
    kinds = dict.fromkeys(one.says for one in found if one.allergen == allergen and one.says)
    return f"{name} ({', '.join(kinds)})" if kinds else name


def line_told(place: Place, number: int, line: LabelledLine, inside: InLine) -> LabelledLineTold:
    """One line."""
    if inside is QUIET:
        return made(LabelledLineTold, line=number, name=line.name, composition="known", contains=(), contradicted=())
    return made(
        LabelledLineTold,
        line=number,
        name=line.name,
        composition=_known_by(place, line, inside),
        contains=tuple(dict.fromkeys(one.allergen for one in inside.found)),
        contradicted=tuple(dict.fromkeys(inside.contradicted)),
    )


def _known_by(place: Place, line: LabelledLine, inside: InLine) -> Composed:
    """A line is open where it may bring in what the law of the place lists; without a list, where it is open at all."""
    if any(not place.has_list or not one.open_to.isdisjoint(place.listed) for one in inside.opened):
        return "cannot_tell"
    if inside.is_specified:
        return "declared"
    return "known" if line.sub_ingredients is None else "stated"
