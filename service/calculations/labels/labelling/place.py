"""What counts in one place on one day: its list of allergens, its label rules, and what each name brings in there."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache

from service.calculations.labels.labelling.naming import EUROPE, name_on_label
from service.calculations.labels.labelling.words import Carried, Read, WhyOpen, WordTable, carried_by, word_table
from service.rules.allergen import Allergen, AllergenList, Listing
from service.rules.book import RuleBook
from service.rules.label_rule import LabelRule
from service.rules.spelling import composed, tidy
from service.rules.substance import Substance
from service.rules.vocabulary import AllergenName, Jurisdiction

PLACES_KEPT, NAMES_KEPT = 16, 2048
UNITED_STATES: Jurisdiction = "US"


@dataclass(frozen=True, slots=True)
class Facts:
    """What a name says in one place on one day."""

    name: str
    plain: str
    text: str
    """As it stands in the list of ingredients."""
    carried: tuple[Carried, ...]
    why: WhyOpen | None
    """Why it cannot be told what is in it; None where it can."""
    words: tuple[str, ...]
    """The words that leave it open."""
    open_to: frozenset[AllergenName]
    usually: tuple[AllergenName, ...]
    cures: frozenset[str]
    doubtful: bool
    """Whether more may be in it than its words say."""
    is_spice: bool
    is_additive: bool
    is_quiet: bool
    """Known, and brings nothing in that anybody asks after."""


@dataclass(frozen=True, eq=False, slots=True)
class Place:
    """One place on one day."""

    jurisdiction: Jurisdiction
    on: date
    words: WordTable
    allergens: tuple[Allergen, ...]
    every_allergen: frozenset[AllergenName]
    listed: dict[AllergenName, Listing]
    """The allergens that its law lists on that day."""
    has_list: bool
    rules: tuple[LabelRule, ...]
    covered: dict[AllergenList, frozenset[AllergenName]]
    """Of which allergens a specification by a list says whether they are in."""
    _facts: dict[tuple[str, str | None], Facts] = field(default_factory=dict, repr=False)

    @property
    def emphasises(self) -> bool:
        """Whether its law wants allergens to stand out in the list."""
        return self.jurisdiction in EUROPE

    def facts(self, name: str, ingredient: str | None = None) -> Facts:
        """What a name says, with the id of an ingredient where it was stated. Raises KeyError for an unknown id."""
        known = self._facts.get((name, ingredient))
        if known is None:
            if len(self._facts) >= NAMES_KEPT:
                self._facts.clear()
            known = self._facts[name, ingredient] = self._looked_up(name, ingredient)
        return known

    def _looked_up(self, name: str, ingredient: str | None) -> Facts:
        name = composed(name)
        read = self.words.read(name)
        known_as = self.words.ingredients[ingredient] if ingredient else None
        things = [chunk.substance for chunk in read.things if chunk.substance] + ([known_as] if known_as else [])
        carried = tuple(self._carried(name, read, known_as))
        why, words = _why(read, known_as)
        open_to = self.every_allergen if why not in (None, "may_carry") else _may_carry(things)
        cures = frozenset(thing.cures for thing in things if thing.cures)
        is_additive = any(thing.additive for thing in things)
        return Facts(
            name=name,
            plain=tidy(name),
            text=name_on_label(name, read, carried, self),
            carried=carried,
            why=why,
            words=words,
            open_to=open_to - {one.allergen for one in carried},
            usually=tuple(dict.fromkeys(allergen for thing in things for allergen in thing.usually)),
            cures=cures,
            doubtful=why not in (None, "may_carry"),
            is_spice=bool(things) and why is None and all(thing.spice for thing in things),
            is_additive=is_additive,
            is_quiet=not (carried or why or cures or is_additive),
        )

    def _carried(self, name: str, read: Read, known_as: Substance | None) -> Iterator[Carried]:
        """What the words bring in, without what a claim in the same name denies: that is open."""
        denied = {allergen for one in read.claimed if one.substance for allergen in one.substance.carries}
        for chunk in read.things:
            if chunk.substance and chunk.substance.counts(self.jurisdiction, self.on):
                yield from (one for one in carried_by(chunk, name) if one.allergen not in denied)
        if known_as is not None and known_as.counts(self.jurisdiction, self.on):
            for allergen in known_as.carries:
                yield Carried(allergen, known_as.words[0], "", 0, 0)


def _why(read: Read, known_as: Substance | None) -> tuple[WhyOpen | None, tuple[str, ...]]:
    """Why it is open what a name stands for, and the words that leave it open. A stated id says what it is."""
    things = [chunk for chunk in read.things if chunk.substance]
    mixes = [chunk.text for chunk in things if chunk.substance and chunk.substance.kind == "mix"]
    if known_as is not None and known_as.kind == "mix":
        mixes.append(known_as.words[0])
    if read.claims:
        return "claim_in_name", tuple(one.text for one in read.claimed)
    if mixes:
        return "generic_word", tuple(dict.fromkeys(mixes))
    if known_as is None and (read.unknown or not things):
        return "unknown_word", read.unknown
    maybe = [chunk.text for chunk in things if chunk.substance and chunk.substance.open_to]
    maybe += [known_as.words[0]] if known_as is not None and known_as.open_to else []
    return ("may_carry", tuple(dict.fromkeys(maybe))) if maybe else (None, ())


def _may_carry(things: list[Substance]) -> frozenset[AllergenName]:
    return frozenset(allergen for thing in things for allergen in thing.open_to)


@lru_cache(maxsize=PLACES_KEPT)
def place_of(book: RuleBook, jurisdiction: Jurisdiction, on: date) -> Place:
    """What counts in a place on a day: worked out once for each book, place and day."""
    allergens = tuple(book.allergens.values())
    listed = {one.id: listing for one in allergens if (listing := one.listing(jurisdiction, on))}
    return Place(
        jurisdiction=jurisdiction,
        on=on,
        words=word_table(book),
        allergens=allergens,
        every_allergen=frozenset(one.id for one in allergens),
        listed=listed,
        has_list=bool(listed),
        rules=tuple(rule for rule in book.label_rules.values() if rule.in_force(jurisdiction, on)),
        covered={by_list: _covered(by_list, allergens, listed, on) for by_list in ("US", "EU")},
    )


def _covered(
    by_list: AllergenList, allergens: tuple[Allergen, ...], listed: dict[AllergenName, Listing], on: date
) -> frozenset[AllergenName]:
    """What a specification speaks of: by the law of the place, or else by every law that lists the allergen."""
    return frozenset(
        one.id
        for one in allergens
        if not _is_still_to_come(one, by_list, on)
        and all(by_list in listing.covered_by for listing in ([listed[one.id]] if one.id in listed else one.lists))
    )


def _is_still_to_come(allergen: Allergen, by_list: AllergenList, on: date) -> bool:
    """A specification of before the day on which its list took an allergen up says nothing of it."""
    its_own = [listing for listing in allergen.lists if by_list in listing.places]
    return bool(its_own) and not any(listing.in_force(on) for listing in its_own)
