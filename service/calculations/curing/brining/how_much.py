"""How much brine: finished, by its water, to cover pieces, or all of a concentrate."""

from typing import Literal

from pydantic import Field

from service.calculations.curing.brining.contents import HEADSPACE_PERCENT, PACKING_PERCENT, Pieces, Vessel
from service.quantities.models import Request
from service.quantities.quantity import Measure, Water


class FinishedBrine(Request):
    """So much finished brine."""

    kind: Literal["finished_brine"]
    """The kind of amount."""
    amount: Measure
    """By weight, or by volume at the temperature of the brine."""


class WaterAtHand(Request):
    """As much brine as this water makes."""

    kind: Literal["water_at_hand"]
    """The kind of amount."""
    water: Water
    """All the water that goes in."""


class VesselWithPieces(Request):
    """As much brine as covers these pieces in this vessel."""

    kind: Literal["vessel_with_pieces"]
    """The kind of amount."""
    vessel: Vessel
    """What they lie in."""
    pieces: Pieces
    """What lies in it."""
    headspace_percent: float = Field(ge=0, le=50, default=HEADSPACE_PERCENT)
    """Share of the vessel to be left empty above the brine."""
    packing_percent: float = Field(ge=30, le=90, default=PACKING_PERCENT)
    """Share of the space under the brine that is meat; the rest is brine. 70 is a tight pack."""


class AllOfIt(Request):
    """All of the concentrate there is."""

    kind: Literal["all_of_it"]
    """The kind of amount."""
    concentrate: Measure
    """How much there is: by weight, or by volume as hot as it is."""
