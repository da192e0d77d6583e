"""A weight or a share between two sides, carried from stage to stage."""

from typing import NamedTuple

from service.calculations.butchery.chaining.yields import weight_left_g, weight_needed_g

NOISE = 1e-9
"""Closer than this, two shares or two counts are the same: floating-point noise."""


class Share(NamedTuple):
    """What is left of a weight: the least, the usual, the most."""

    low_fraction: float
    typical_fraction: float
    high_fraction: float

    def times(self, other: "Share") -> "Share":
        """One stage after the other: all low together and all high together, so that every combination lies within."""
        low_fraction, typical_fraction, high_fraction = other
        return Share(
            self.low_fraction * low_fraction,
            self.typical_fraction * typical_fraction,
            self.high_fraction * high_fraction,
        )


WHOLE = Share(1.0, 1.0, 1.0)


class CarriedWeight(NamedTuple):
    """A weight: the least, the usual, the most. Three times the same where it was weighed or is wanted."""

    low_g: float
    typical_g: float
    high_g: float

    @classmethod
    def exactly(cls, mass_g: float) -> "CarriedWeight":
        """A weight that was weighed, or that is wanted."""
        return cls(mass_g, mass_g, mass_g)

    def after(self, share: Share) -> "CarriedWeight":
        """What is left of it."""
        return CarriedWeight(
            weight_left_g(self.low_g, left_fraction=share.low_fraction),
            weight_left_g(self.typical_g, left_fraction=share.typical_fraction),
            weight_left_g(self.high_g, left_fraction=share.high_fraction),
        )

    def before(self, share: Share) -> "CarriedWeight":
        """What it takes to be left with it: least where most is left."""
        return CarriedWeight(
            weight_needed_g(self.low_g, left_fraction=share.high_fraction),
            weight_needed_g(self.typical_g, left_fraction=share.typical_fraction),
            weight_needed_g(self.high_g, left_fraction=share.low_fraction),
        )

    def share_of(self, other: "CarriedWeight") -> Share:
        """What part it is of another weight that it does not hang on."""
        return Share(self.low_g / other.high_g, self.typical_g / other.typical_g, self.high_g / other.low_g)
