"""A recipe as it is written."""

from typing import Annotated

from pydantic import Field

from service.quantities.models import IfStated, Name, Request
from service.quantities.quantity import Measure

MOST_LINES = 60

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


def key_of(name: str) -> str:
    """What a name comes to: Kosher Salt and kosher_salt are kosher-salt."""
    return "-".join(name.lower().replace("_", " ").replace("-", " ").split())
