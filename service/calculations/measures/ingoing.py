"""What a spoon of curing salt may have come to in the meat."""

from typing import Literal

from service.calculations.curing.ingoing import ingoing_ppm
from service.calculations.curing.salts import NITRITE_EXPRESSIONS, CuringSalt
from service.calculations.measures.spoons import Band
from service.quantities.bands import rounded_down, rounded_up
from service.quantities.models import Answer

Additive = Literal["sodium_nitrite", "potassium_nitrite", "sodium_nitrate", "potassium_nitrate"]


class PpmBand(Answer):
    """An ingoing amount between two sides. low is rounded down, high is rounded up; there is no typical one."""

    low_ppm: float
    """From the lightest spoon."""
    high_ppm: float
    """From the heaviest spoon."""
    expressed_as: Additive
    """The substance on the label that is counted."""
    basis: Literal["green_weight"]
    """Per weight of the raw meat, all of it laid on or mixed in. A pickle is reckoned otherwise: weigh for it."""


def nitrite_band(curing_salt: CuringSalt, spoon: Band, meat_g: float) -> PpmBand:
    """Ingoing nitrite."""
    return _band(curing_salt.nitrite.salt, curing_salt.nitrite_fraction, spoon, meat_g=meat_g)


def nitrate_band(curing_salt: CuringSalt, spoon: Band, meat_g: float) -> PpmBand | None:
    """Ingoing nitrate; None where the label names none."""
    if curing_salt.nitrate is None:
        return None
    return _band(curing_salt.nitrate.salt, curing_salt.nitrate_fraction, spoon, meat_g=meat_g)


def as_sodium_nitrite(nitrite: PpmBand) -> PpmBand:
    """The same nitrite, counted as sodium nitrite: as the warnings reckon it."""
    ratio = NITRITE_EXPRESSIONS[nitrite.expressed_as]["sodium_nitrite"]
    return PpmBand.of(
        low_ppm=nitrite.low_ppm * ratio, high_ppm=nitrite.high_ppm * ratio,
        expressed_as="sodium_nitrite", basis=nitrite.basis,
    )  # fmt: skip


def _band(salt: Additive, share_fraction: float, spoon: Band, *, meat_g: float) -> PpmBand:
    return PpmBand.of(
        low_ppm=rounded_down(ingoing_ppm(additive_g=spoon.low_g * share_fraction, green_g=meat_g)),
        high_ppm=rounded_up(ingoing_ppm(additive_g=spoon.high_g * share_fraction, green_g=meat_g)),
        expressed_as=salt,
        basis="green_weight",
    )
