"""What counts in one place on one day: its list of allergens, its label rules, and what each name brings in there."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache

from service.calculations.labels.labelling.naming import EUROPE, label_name, name_on_label
from service.calculations.labels.labelling.words import Carried, Read, WhyOpen, WordTable, carried_by, word_table
from service.rules.allergen import Allergen, AllergenList, Listing
from service.rules.book import RuleBook
from service.rules.label_rule import LabelRule
from service.rules.spelling import composed, tidy
from service.rules.substance import BY_WORD, Substance
from service.rules.vocabulary import AllergenName, Jurisdiction

PLACES_KEPT, NAMES_KEPT, SHEETS_KEPT = 16, 2048, 64
UNITED_STATES: Jurisdiction = "US"
SULPHITES: AllergenName = "sulphites"


@dataclass(frozen=True, slots=True)
class Facts:
    """What a name says in one place on one day."""

    name: str
    label: str
    """Its name on a label: of ice it is water."""
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
    meats: tuple[str, ...]
    """The words of it that are meat."""
    is_game: bool
    is_spice: bool
    is_additive: bool
    additive: Substance | None
    """The one additive that it is."""
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
    by_kind: frozenset[AllergenName]
    """Listed allergens of which the nut, the cereal, the fish or the crustacean has to be named."""
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
        label = label_name(name, read, self.jurisdiction) if known_as is None else name
        things = [chunk.substance for chunk in read.things if chunk.substance] + ([known_as] if known_as else [])
        carried = tuple(self._carried(name, read, known_as))
        why, words = _why(read, known_as)
        makings = [] if known_as else [chunk.substance for chunk in read.makings if chunk.substance]
        open_to = self.every_allergen if why not in (None, "may_carry") else _may_carry([*things, *makings])
        cures = frozenset(thing.cures for thing in things if thing.cures)
        is_additive = any(thing.additive for thing in things)
        return Facts(
            name=name,
            label=label,
            plain=tidy(label),
            text=name_on_label(name, read, carried, self) if self.emphasises and label is name else label,
            carried=carried,
            why=why,
            words=words,
            open_to=open_to - {one.allergen for one in carried if one.counts},
            usually=tuple(dict.fromkeys(allergen for thing in things for allergen in thing.usually)),
            cures=cures,
            doubtful=why not in (None, "may_carry"),
            meats=tuple(chunk.text for chunk in read.things if chunk.substance and chunk.substance.meat),
            is_game=any(thing.game for thing in things),
            is_spice=bool(things) and why is None and all(thing.spice for thing in things),
            is_additive=is_additive,
            additive=things[0] if is_additive and len(set(things)) == 1 else None,
            is_quiet=not (carried or why or cures or is_additive),
        )

    def _carried(self, name: str, read: Read, known_as: Substance | None) -> Iterator[Carried]:
        """What the words bring in, without what a claim in the same name denies: that is open."""
        denied = {allergen for one in read.claimed if one.substance for allergen in one.substance.carries}
        for chunk in read.things:
            if chunk.substance:
                yield from (
                    one
                    for one in carried_by(chunk, name, counts=self._counts(chunk.substance))
                    if one.allergen not in denied
                )
        if known_as is not None:
            says = "" if known_as.says == BY_WORD else known_as.says
            for allergen in known_as.carries:
                yield Carried(allergen, known_as.words[0], says, 0, 0, self._counts(known_as))

    def _counts(self, substance: Substance) -> bool:
        """Without a list of its own a place passes nothing by."""
        return not self.has_list or substance.counts(self.jurisdiction, self.on)


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
    if known_as is None and read.is_dish:
        return "several_foods", tuple(dict.fromkeys(one.text for one in things))
    makings = [chunk for chunk in read.makings if chunk.substance] if known_as is None else []
    if any(not chunk.substance.open_to for chunk in makings if chunk.substance):
        return "form_not_known", tuple(dict.fromkeys(chunk.text for chunk in makings))
    maybe = [chunk.text for chunk in [*things, *makings] if chunk.substance and chunk.substance.open_to]
    maybe += [known_as.words[0]] if known_as is not None and known_as.open_to else []
    return ("may_carry", tuple(dict.fromkeys(maybe))) if maybe else (None, ())


def _may_carry(things: list[Substance]) -> frozenset[AllergenName]:
    return frozenset(allergen for thing in things for allergen in thing.open_to)


@lru_cache(maxsize=PLACES_KEPT)
def place_of(book: RuleBook, jurisdiction: Jurisdiction, on: date, *, with_sulphites: bool = True) -> Place:
    """What counts in a place on a day: worked out once for each book, place and day."""
    allergens = tuple(_as_named(one, jurisdiction) for one in book.allergens.values())
    listed = {one.id: listing for one in allergens if (listing := one.listing(jurisdiction, on))}
    if not with_sulphites:
        listed.pop(SULPHITES, None)
    return Place(
        jurisdiction=jurisdiction,
        on=on,
        words=word_table(book),
        allergens=allergens,
        every_allergen=frozenset(one.id for one in allergens),
        listed=listed,
        has_list=bool(listed),
        rules=tuple(rule for rule in book.label_rules.values() if rule.in_force(jurisdiction, on)),
        by_kind=frozenset(id for id, listing in listed.items() if listing.by_kind),
    )


def _as_named(allergen: Allergen, jurisdiction: Jurisdiction) -> Allergen:
    """With the name that it has there."""
    if jurisdiction not in EUROPE or not allergen.name_in_europe:
        return allergen
    return allergen.model_copy(update={"name": allergen.name_in_europe})


def is_under_its_level(place: Place, sulphites_mg_per_kg: float | None) -> bool:
    """Whether so little was measured that the list of the place does not mean it."""
    listing = place.listed.get(SULPHITES)
    level = listing.above_mg_per_kg if listing else None
    return level is not None and sulphites_mg_per_kg is not None and sulphites_mg_per_kg <= level


@lru_cache(maxsize=SHEETS_KEPT)
def covered_by(place: Place, by_list: AllergenList, dated: date | None) -> frozenset[AllergenName]:
    """Of which allergens a specification by a list says whether they are in: by the law of the place, or else by every
    law that lists the allergen. One without a date, or of a day to come, excludes nothing."""
    if dated is None or dated > place.on:
        return frozenset()
    return frozenset(
        one.id
        for one in place.allergens
        if _spoke_of(one, by_list, dated)
        and all(
            by_list in each.covered_by for each in ([place.listed[one.id]] if one.id in place.listed else one.lists)
        )
    )


def _spoke_of(allergen: Allergen, by_list: AllergenList, day: date) -> bool:
    """Whether a list had an allergen on the day of a specification."""
    its_own = [listing for listing in allergen.lists if by_list in listing.places]
    return not its_own or any(listing.in_force(day) for listing in its_own)
