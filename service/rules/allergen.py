"""An allergen as it is written down: which law lists it, from which day, and what a specification says of it."""

from datetime import date
from typing import Literal, Self

from pydantic import Field, model_validator

from service.rules.rule import Row
from service.rules.vocabulary import AllergenName, Evidence, Jurisdiction

AllergenList = Literal["US", "EU"]
"""The lists that suppliers' specifications go by: the nine of the United States, the fourteen of the Union."""


class Listing(Row):
    """One law that lists it."""

    places: tuple[Jurisdiction, ...] = Field(min_length=1)
    """Where."""
    since: date
    """First day on which it had to be named there."""
    until: date | None = None
    """First day on which it no longer had to be; null while it stands."""
    named: str = Field(min_length=3, max_length=120)
    """What the list calls it."""
    by_kind: bool = False
    """Whether the nut, the cereal, the fish or the crustacean has to be named, not the group."""
    above_mg_per_kg: float | None = Field(default=None, ge=0, le=1000)
    """Listed above so much in the food as it is eaten; null where any amount counts."""
    covered_by: tuple[AllergenList, ...] = Field(min_length=1)
    """Specifications by these lists say whether it is in."""
    citation: str = Field(min_length=5)
    """Where the list is printed."""
    evidence: Evidence
    """How that is known."""
    note: str = ""
    """What else should be known about it."""

    def in_force(self, on: date) -> bool:
        return self.since <= on and (self.until is None or on < self.until)


class Allergen(Row):
    """One allergen, with every law here that lists it."""

    id: AllergenName
    """Stable id."""
    name: str = Field(min_length=3, max_length=40)
    """In words, as a statement names it."""
    name_in_europe: str = Field(default="", max_length=40)
    """The same in Europe, where that is another."""
    part_of: AllergenName | None = None
    """The wider allergen that it belongs to; null where there is none."""
    lists: tuple[Listing, ...] = Field(min_length=1)
    """The laws that list it."""

    @model_validator(mode="after")
    def _lists_each_place_once(self) -> Self:
        places = [place for listing in self.lists for place in listing.places]
        if len(places) != len(set(places)):
            raise ValueError("a place lists an allergen once")
        return self

    def listing(self, place: Jurisdiction, on: date) -> Listing | None:
        """How the law of a place lists it on a day; None where it does not."""
        return next((one for one in self.lists if place in one.places and one.in_force(on)), None)
