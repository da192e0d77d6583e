"""What may go into a block: trims, cuts, fat, as they are stated."""

from typing import Annotated

from pydantic import Field

from service.quantities.models import IfStated, Name, Request
from service.quantities.money import Price
from service.quantities.quantity import Mass
from service.quantities.units import MassUnit, factor
from service.rules.vocabulary import Animal

Percent = Annotated[float, Field(ge=0, le=100)]
"""Percent by weight, 0 to 100: 25, not 0.25."""
SaltInside = Annotated[float, Field(ge=0, le=30)]
AgeD = Annotated[float, Field(ge=0, le=3650)]
"""Days, 0 to 3650."""
StockAmount = Annotated[float, Field(ge=0, le=1e6)]


class OnHand(Request):
    """What there is of it; 0 where there is none."""

    value: StockAmount
    """How much, in the unit beside it."""
    unit: MassUnit
    """g, kg, oz (avoirdupois) or lb (avoirdupois)."""

    @property
    def g(self) -> float:
        return self.value * factor(self.unit)


class Material(Request):
    """One trim, cut or fat. Its fat comes from a label or an analysis, never from its name: 95 percent lean by eye is
    not 5 percent fat."""

    name: Name
    """Your name for it; each once."""
    animal: Animal
    """What it is of."""
    fat_percent: Percent
    """Fat by analysis or label, percent of its weight. Back fat is not pure fat: about 89."""
    protein_percent: IfStated[Percent] = None
    """Protein, likewise. Rules on protein and on added water by analysis need it."""
    moisture_percent: IfStated[Percent] = None
    """Water in it, likewise."""
    salt_percent: SaltInside = 0.0
    """Salt that is in it already. It counts toward the salt of the batch."""
    cured: bool = False
    """Whether it was cured before (rework): its nitrite is not known, so no cure is dosed for a block with it."""
    on_hand: IfStated[OnHand] = None
    """What there is of it; left out, as much as is needed."""
    price: IfStated[Price] = None
    """What it costs. State a price for every material, all in one currency, or for none."""
    age_d: IfStated[AgeD] = None
    """Days since it was cut or packed, as your rule counts them."""
    least: IfStated[Mass] = None
    """At least so much of it is used."""
    most: IfStated[Mass] = None
    """At most so much of it is used."""
    least_share_percent: IfStated[Percent] = None
    """At least this share of the block."""
    most_share_percent: IfStated[Percent] = None
    """At most this share of the block."""
