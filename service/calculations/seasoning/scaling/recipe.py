"""A recipe as it is written, and what there is of it."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.brining.contents import HEADSPACE_PERCENT, RAW_MEAT_KG_PER_L, Vessel
from service.quantities.models import IfStated, Name, Request
from service.quantities.quantity import Mass, Measure

MOST_LINES, MOST_LIMITS = 60, 20

Count = Annotated[float, Field(ge=0.01, le=100_000)]
LabelPercent = Annotated[float, Field(ge=0, le=100)]
LabelSodium = Annotated[float, Field(ge=0, le=40_000)]


class Counted(Request):
    """So many of a thing: cloves, leaves, sticks, cubes."""

    count: Count
    """How many; half a stick is 0.5."""


Amount = Measure | Counted


class SaltOnLabel(Request):
    """The salt that a label states."""

    salt_percent: LabelPercent
    """Salt by weight, percent: 3.1, not 0.031."""


class SodiumOnLabel(Request):
    """The sodium that a label states."""

    sodium_mg_per_100g: LabelSodium
    """Milligrams of sodium in 100 g."""


class SeasoningLine(Request):
    """One line of the recipe: salt, spice, stock powder, water, beer. Never a curing salt."""

    ingredient: Name
    """Its id in GET /v1/ingredients, or your own name for it with a weight."""
    amount: Amount
    """By weight, by level volume or in pieces. What is not listed is stated by weight."""
    label: IfStated[SaltOnLabel | SodiumOnLabel] = None
    """Salt or sodium on its own label; it comes before what the table of ingredients has."""


class MeatAtHand(Request):
    """So much meat is there."""

    kind: Literal["meat"]
    """The kind of limit."""
    weight: Mass
    """How much."""


class IngredientAtHand(Request):
    """So much of one ingredient is there."""

    kind: Literal["limiting"]
    """The kind of limit."""
    ingredient: Name
    """The ingredient, called as the recipe calls it. All lines of it are taken together."""
    amount: Amount
    """All there is, by weight, by level volume or in pieces."""


class VesselAtHand(Request):
    """Meat and everything else has to go into this vessel."""

    kind: Literal["vessel"]
    """The kind of limit."""
    inside: Vessel
    """The vessel, by its volume or as measured inside."""
    headspace_percent: float = Field(ge=0, le=50, default=HEADSPACE_PERCENT)
    """Share of the vessel to be left empty."""
    meat_density_kg_per_l: float = Field(ge=0.85, le=1.3, default=RAW_MEAT_KG_PER_L)
    """Of the raw meat: lean about 1.06, a fat belly about 1.0."""


Limit = Annotated[MeatAtHand | IngredientAtHand | VesselAtHand, Field(discriminator="kind")]


def key_of(name: str) -> str:
    """What a name comes to: Kosher Salt and kosher_salt are kosher-salt."""
    return "-".join(name.lower().replace("_", " ").replace("-", " ").split())
