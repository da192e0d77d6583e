"""A stay of stated length in a pickle: what is asked of it, and what it comes to."""

from typing import NamedTuple

from service.calculations.curing.pieces import Shape
from service.quantities.models import HowMany, Request
from service.quantities.quantity import Duration, Temperature


class Stay(Request):
    """How long the pieces lie in their pickle, and what they are like. They must come out when it ends."""

    shape: Shape
    """Of the thinnest piece, measured where it is thin: what is thin takes up more, and this must not be too little."""
    pieces: HowMany
    """How many pieces of about this size it is: more of them take up more, so it is never assumed."""
    temperature: Temperature
    """Of the meat, from -1 to 5 degC. However cold it is, the stay is reckoned at 5 degC."""
    lasts: Duration
    """Until the pieces are taken out of the pickle, up to 400 days."""


class Stayed(NamedTuple):
    """A stay that was reckoned."""

    lasts_d: float
    bath_ratio: float
    """Water of the pickle to water of the meat."""
    share_fraction: float
    """How much of the way to one with their pickle the pieces can have gone when they come out; 1 is all of it."""
