"""What is wanted of a block: how much of it, what is in it, and which materials stand to which."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.butchery.blending.materials import Percent
from service.quantities.models import IfStated, Name, Request
from service.quantities.quantity import Mass

Times = Annotated[float, Field(ge=0, le=1000)]
"""A ratio of two weights: 0.25 is a quarter."""
Bound = Literal["at_most", "at_least"]


class PercentExactly(Request):
    """This and nothing else."""

    kind: Literal["exactly"]
    """The kind of range."""
    percent: Percent
    """Percent of the block."""


class PercentAtMost(Request):
    """This or less."""

    kind: Literal["at_most"]
    """The kind of range."""
    percent: Percent
    """Percent of the block."""


class PercentAtLeast(Request):
    """This or more."""

    kind: Literal["at_least"]
    """The kind of range."""
    percent: Percent
    """Percent of the block."""


class PercentBetween(Request):
    """From the one to the other."""

    kind: Literal["between"]
    """The kind of range."""
    least_percent: Percent
    """Percent of the block, at least."""
    most_percent: Percent
    """Percent of the block, at most."""


Range = Annotated[PercentExactly | PercentAtMost | PercentAtLeast | PercentBetween, Field(discriminator="kind")]


class WholeBlock(Request):
    """A block of this weight."""

    kind: Literal["whole_block"]
    """The kind of amount."""
    weight: Mass
    """Weight of the block, before salt, water and seasoning."""


class AnyWeight(Request):
    """As little as the rules allow, between two weights where they are stated."""

    kind: Literal["any_weight"]
    """The kind of amount."""
    at_least: IfStated[Mass] = None
    """The block weighs at least this."""
    at_most: IfStated[Mass] = None
    """The block weighs at most this."""


class UseUp(Request):
    """All that is on hand of one material, and as little as need be of the others."""

    kind: Literal["use_up"]
    """The kind of amount."""
    material: Name
    """Its name; it states what is on hand."""


Block = Annotated[WholeBlock | AnyWeight | UseUp, Field(discriminator="kind")]
Names = Annotated[list[Name], Field(min_length=1, max_length=60)]


class GroupShare(Request):
    """Some materials together, by share of the block."""

    kind: Literal["group_share"]
    """The kind of rule."""
    materials: Names
    """Their names."""
    bound: Bound
    """Whether the percent is the most or the least."""
    percent: Percent
    """Percent of the block."""


class GroupRatio(Request):
    """Some materials together, by weight of some others: pork at most 0.25 times the beef."""

    kind: Literal["group_ratio"]
    """The kind of rule."""
    materials: Names
    """Their names."""
    bound: Bound
    """Whether the ratio is the most or the least."""
    times: Times
    """Weight of these to weight of those."""
    of: Names
    """Names of those."""


class GroupWeight(Request):
    """Some materials together, by weight."""

    kind: Literal["group_weight"]
    """The kind of rule."""
    materials: Names
    """Their names."""
    bound: Bound
    """Whether the weight is the most or the least."""
    weight: Mass
    """Their weight together."""


GroupRule = Annotated[GroupShare | GroupRatio | GroupWeight, Field(discriminator="kind")]
