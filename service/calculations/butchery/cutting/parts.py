"""The parts of a piece as the caller states them, and what they come to in grams."""

from dataclasses import dataclass
from functools import cached_property
from math import fsum
from typing import Annotated, Literal

from pydantic import Field

from service.quantities.models import IfStated, Name, Request
from service.quantities.quantity import Mass
from service.rules.checker import Verdict
from service.rules.cut import PartKind

Use = Literal["cure", "cook", "sell", "grind", "keep", "render", "stock", "waste", "loss"]
"""What becomes of a part. grind: ground raw. keep: put by for later. loss: purge, drip and drying that were weighed."""

AS_MEAT: frozenset[Use] = frozenset(("cure", "cook", "sell", "grind", "keep"))
"""Eaten or sold as meat."""
USABLE: frozenset[Use] = AS_MEAT | {"render", "stock"}
"""For eating or selling in any form."""

DONE_WITH: frozenset[Use] = frozenset(("waste", "stock"))
"""Where bone goes."""

MOST_PARTS, MOST_WEIGHINGS = 40, 50
NOISE_FRACTION = 1e-12
"""Of what was bought: less than this is the noise of sums in binary, and no weight."""

TOKEN_FRACTION = 0.01
"""Of what was bought: less skin than this is not the skin of the piece (own bound)."""

ClosureCode = Literal["closes", "weight_missing", "too_much_weight", "part_not_weighed", "scale_too_coarse"]

Weighings = Annotated[list[Mass], Field(max_length=MOST_WEIGHINGS)]


class StatedPart(Request):
    """A part, what it is for, and what it weighs."""

    name: Name
    """What you call it."""
    use: Use
    """What becomes of it: cure, cook, sell, grind (raw), keep (for later), render, stock, waste, or a loss that was
    weighed (purge, drip)."""
    weights: Weighings = Field(default=[])
    """Its weighings, one or several, in any mix of units. Left out or empty: it was not weighed, which is not none."""
    what: IfStated[PartKind] = None
    """What it is made of; needed to hold it against published shares. bone: clean bone; leave it out for a frame with
    meat on it."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part in grams."""

    stated: StatedPart
    g: float | None
    """None where it was not weighed."""


@dataclass(frozen=True)
class CutUp:
    """A piece and everything that it was cut into, in grams."""

    purchased: Mass
    purchased_g: float
    parts: tuple[Part, ...]
    tolerance_fraction: float
    step_g: float
    """The smallest step of the scale; 0 where it is not stated."""

    @cached_property
    def parts_g(self) -> float:
        """All that was weighed, but for losses."""
        return fsum(part.g for part in self.parts if part.g and part.stated.use != "loss")

    @cached_property
    def loss_g(self) -> float:
        return fsum(part.g for part in self.parts if part.g and part.stated.use == "loss")

    @cached_property
    def unaccounted_g(self) -> float:
        """What was bought, less parts and losses; negative where they weigh more."""
        return self.purchased_g - self.parts_g - self.loss_g

    @cached_property
    def weighings(self) -> int:
        """How often something was laid on the scale, the purchase among them."""
        return 1 + sum(len(part.stated.weights) for part in self.parts)

    @cached_property
    def unweighed(self) -> tuple[str, ...]:
        """Names of the parts that were not weighed."""
        return tuple(part.stated.name for part in self.parts if part.g is None)

    @property
    def bone_apart(self) -> bool:
        """Whether there is a part in which the bone of the cut may lie."""
        return any(part.stated.what == "bone" or part.stated.use in DONE_WITH for part in self.parts)

    @property
    def skin_apart(self) -> bool:
        """Whether skin is a part of its own, and no token of one."""
        skins_g = [part.g for part in self.parts if part.stated.what == "skin"]
        return None in skins_g or fsum(g or 0.0 for g in skins_g) >= TOKEN_FRACTION * self.purchased_g > 0.0

    @property
    def bone_may_be_elsewhere(self) -> bool:
        """Whether a part whose make-up is not stated may hold bone."""
        return any(part.stated.what is None and part.stated.use in DONE_WITH for part in self.parts)

    @cached_property
    def left_over_g(self) -> float:
        """The most that all parts that were not weighed can come to together; less than noise is nothing."""
        most_g = self.unaccounted_g + self.resolution_g
        return most_g if self.unweighed and most_g > NOISE_FRACTION * self.purchased_g else 0.0

    @cached_property
    def resolution_g(self) -> float:
        return resolution_g(self.step_g, weighings=self.weighings)

    @cached_property
    def closing(self) -> tuple[Verdict, ClosureCode]:
        """Met only where every weight within the steps of the scale keeps the tolerance, not met where none does."""
        off_g, coarse_g = abs(self.unaccounted_g), self.resolution_g
        allowed_g = self.tolerance_g + NOISE_FRACTION * self.purchased_g
        is_off = off_g - coarse_g > allowed_g
        if is_off and self.unaccounted_g < 0:
            return "not_met", "too_much_weight"
        if self.unweighed:
            return "cannot_tell", "part_not_weighed"
        if is_off:
            return "not_met", "weight_missing"
        return ("met", "closes") if off_g + coarse_g <= allowed_g else ("cannot_tell", "scale_too_coarse")

    @cached_property
    def bounds_hold(self) -> bool:
        """Whether what was weighed can be right, so that it says how much the rest can be at most."""
        verdict, code = self.closing
        return verdict == "met" or (code == "part_not_weighed" and self.left_over_g > 0)

    @property
    def tolerance_g(self) -> float:
        return self.tolerance_fraction * self.purchased_g


def cut_up(purchased: Mass, stated: list[StatedPart], scale_step: Mass | None, *, tolerance_fraction: float) -> CutUp:
    """Everything in grams."""
    parts = tuple(Part(one, fsum(each.g for each in one.weights) if one.weights else None) for one in stated)
    return CutUp(purchased, purchased.g, parts, tolerance_fraction, scale_step.g if scale_step else 0.0)


def resolution_g(step_g: float, *, weighings: int) -> float:
    r"""How far a sum of weighings may be off by the steps of the scale alone.

    .. math:: resolution = weighings \times step / 2

    Parameters
    ----------
    step_g : float
        Smallest step that the scale shows [g]
    weighings : int
        How often something was laid on it

    Returns
    -------
    resolution_g : float
        The most that all half steps come to together [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    The worst case: every weighing off by half a step, all to one side. How well the scale is
    adjusted is another matter.

    Examples
    --------
    >>> resolution_g(5.0, weighings=7)
    17.5

    References
    ----------
    A reading rounded to a step is off by half of it at most, and errors of one sign add up (by definition).
    """
    return weighings * step_g / 2
