"""What there is to scale a recipe to: meat, one of its ingredients, a vessel."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.brining.contents import HEADSPACE_PERCENT, RAW_MEAT_KG_PER_L, Vessel
from service.calculations.seasoning.scaling.recipe import Amount
from service.quantities.models import Name, Request
from service.quantities.quantity import Mass

MOST_LIMITS = 20


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
