"""A word of an ingredient list as it is written down: what it means, what it brings in, what it leaves open."""

from datetime import date
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from service.rules.rule import Row
from service.rules.vocabulary import AdditiveCategory, AllergenName, Evidence, Jurisdiction

SubstanceKind = Literal["substance", "mix", "form", "making", "claim_before", "claim_after"]
"""substance: one thing, known by its name. mix: its name does not say what is in it. form: ground, fresh: says nothing
of what it is. making: powder, dried: says nothing beside what is known in it. claim_before, claim_after: a claim about
the word before it ("free") or after it ("without")."""

Phrase = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9 ]{0,48}$")]
"""Words as they are compared, apart from plurals and spellings: lower case, no accents, no hyphens."""

BY_WORD = "by word"
ADDITIVE_MAKINGS = ("powder", "dried")


class Additive(Row):
    """How the European rules want an additive named."""

    category: AdditiveCategory
    """What it does."""
    e_number: str = Field(pattern=r"^E [1-9][0-9]{2,3}[a-f]?$")
    """Its number."""


class Substance(Row):
    """Words that mean the same as far as allergens go."""

    id: str = Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)
    """Stable id."""
    kind: SubstanceKind
    """What the words are."""
    words: tuple[Phrase, ...] = Field(min_length=1)
    """The words."""
    carries: tuple[AllergenName, ...] = ()
    """Allergens that it is made of."""
    says: str = ""
    """The nut, cereal, fish or crustacean to be named; "by word" where each of the words is its name."""
    open_to: tuple[AllergenName, ...] = ()
    """Allergens that one maker's has and another's has not; of a making with none of them, all."""
    usually: tuple[AllergenName, ...] = ()
    """What to ask for first."""
    forms: tuple[str, ...] = ()
    """Ids of the makings in which it is known; in any other it may hold more than its name says."""
    beside: tuple[str, ...] = ()
    """Ids of what it may stand beside in one name and be one food still: cheddar cheese, pork lard."""
    places: tuple[Jurisdiction, ...] = ()
    """Where it counts as carrying them; empty means everywhere."""
    until: date | None = None
    """First day on which it no longer counted; null while it does."""
    additive: Additive | None = None
    """How the European rules name it; null where it is no additive."""
    cures: Literal["nitrite", "natural_source"] | None = None
    """Whether it brings in nitrite or nitrate, as a salt or from a plant."""
    meat: bool = False
    """Of an animal whose meat is handled as meat."""
    game: bool = False
    """Of game, whatever animal is stated."""
    on_label: str = ""
    """The name that a label has for it, where that is another."""
    spice: bool = False
    """May stand under the one word "spices" in the United States."""
    ingredients: tuple[str, ...] = ()
    """Ids of GET /v1/ingredients that are this."""
    source: str = Field(min_length=5)
    """Where it is printed."""
    evidence: Evidence
    """How that is known."""

    @model_validator(mode="after")
    def _a_form_brings_nothing(self) -> Self:
        is_thing = self.kind in ("substance", "mix")
        if not is_thing and (
            self.carries or self.usually or self.forms or self.beside or (self.open_to and self.kind != "making")
        ):
            raise ValueError("only a substance or a mix brings anything in")
        if self.kind == "mix" and self.open_to:
            raise ValueError("a mix is open to every allergen")
        return self

    def known_in(self, making: str) -> bool:
        """Whether it holds nothing more in a making. An additive is sold as a powder."""
        return making in self.forms or (self.additive is not None and making in ADDITIVE_MAKINGS)

    def is_one_food_with(self, other: "Substance") -> bool:
        """Whether both in one name are one food. An additive may stand there by its name and its number."""
        return other.id in self.beside or self.id in other.beside or (self is other and self.additive is not None)

    def counts(self, place: Jurisdiction, on: date) -> bool:
        """Whether what it carries counts in a place on a day."""
        return (not self.places or place in self.places) and (self.until is None or on < self.until)
