"""A recipe as it is made: its lines with what they consist of, the product, and the label in use."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities.models import PRINTABLE, Day, IfStated, Name, Request
from service.quantities.quantity import Mass
from service.rules.allergen import AllergenList
from service.rules.vocabulary import AllergenName, Animal, LabelItem

MOST_LINES, MOST_PARTS, MOST_ON_LABEL = 80, 30, 120
Threshold = Literal["2", "1.5", "1", "0.5"]
Percent = Annotated[float, Field(ge=0.0001, le=100)]
OnLabel = Annotated[str, Field(pattern=PRINTABLE.replace("80", "1000"), min_length=1, max_length=1000)]
"""An ingredient on a label, with everything in parentheses after it."""
Allergens = Annotated[list[AllergenName], Field(max_length=15)]


class AllergenSpecification(Request):
    """What a supplier's specification says of allergens."""

    by: Name
    """Who says so: supplier, document, date."""
    by_list: AllergenList
    """The list that it goes by. One by the nine of the United States says nothing of celery."""
    dated: IfStated[Day] = None
    """The day of the document. Left out, or after the day that is asked about, it excludes nothing."""
    allergens: Allergens
    """What it declares; an empty list says that it declares none of its list."""


class LabelledLeaf(Request):
    """One ingredient of an ingredient, as on the supplier's label."""

    name: Name
    """As it is written there."""
    percent: IfStated[Percent] = None
    """Its share of what it is a part of."""
    specification: IfStated[AllergenSpecification] = None
    """What its supplier's specification says of allergens."""


class LabelledPartOfPart(LabelledLeaf):
    """The same, with what it consists of."""

    sub_ingredients: IfStated[Annotated[list[LabelledLeaf], Field(min_length=1, max_length=MOST_PARTS)]] = None
    """All that it consists of, in the order of the supplier's label."""


class LabelledPart(LabelledLeaf):
    """The same, with what it consists of, one step deeper."""

    sub_ingredients: IfStated[Annotated[list[LabelledPartOfPart], Field(min_length=1, max_length=MOST_PARTS)]] = None
    """All that it consists of, in the order of the supplier's label."""


class LabelledLine(Request):
    """One line of the recipe."""

    name: Name
    """As it goes on the label."""
    weight: Mass
    """As it goes in. Water and ice are lines of their own."""
    animal: IfStated[Animal] = None
    """For meat: what it is of."""
    in_solution: bool = False
    """Whether it goes in with a solution that is pumped into the meat or that the meat lies in."""
    ingredient: IfStated[Name] = None
    """Its id in GET /v1/ingredients, where it is one of them."""
    sub_ingredients: IfStated[Annotated[list[LabelledPart], Field(min_length=1, max_length=MOST_PARTS)]] = None
    """All that it consists of, in the order of the supplier's label; left out, it is known by its name or not at
    all."""
    specification: IfStated[AllergenSpecification] = None
    """What its supplier's specification says of allergens."""


class LabelledProduct(Request):
    """What is made of it."""

    name: Name
    """The name that is to stand on the label."""
    kind: IfStated[Literal["sausage", "whole_piece", "other"]] = None
    """sausage: chopped or ground, of one animal or of several."""
    state: IfStated[Literal["raw", "heated_not_ready", "ready_to_eat"]] = None
    """ready_to_eat: it may be eaten as it is. Raw cured bacon and uncooked corned beef are raw."""
    kept: IfStated[Literal["refrigerated", "frozen", "shelf_stable"]] = None
    """How it is to be kept."""
    standard: IfStated[Literal["none", "with_nitrite", "without_nitrite"]] = None
    """Whether there is a standard of identity for it, and whether that standard permits or asks for nitrite."""


class LabelClause(Request):
    """The clause at the end of a list in the United States."""

    percent: Threshold
    """Its threshold."""
    ingredients: Annotated[list[OnLabel], Field(min_length=1, max_length=MOST_ON_LABEL)]
    """The ingredients in it."""


class LabelInUse(Request):
    """The label that is on the product now."""

    version: Name
    """Which one it is."""
    ingredients: Annotated[list[OnLabel], Field(max_length=MOST_ON_LABEL)]
    """Its ingredients, in its order, each with what stands in parentheses after it, and without those of a clause."""
    clause: IfStated[LabelClause] = None
    """The clause "Contains 2% or less of" at the end; left out, the label has none. United States only."""
    allergens: Allergens
    """The allergens that it names, by the list of the place: wheat in the United States, gluten_cereals in Europe."""
    kinds: IfStated[Annotated[list[Name], Field(max_length=MOST_ON_LABEL)]] = None
    """The nuts, cereals, fish and crustaceans that it names, each by its kind; left out, they are not compared."""
    items: Annotated[list[LabelItem], Field(max_length=13)]
    """What else stands on it, each by its word."""


Node = LabelledLine | LabelledLeaf
