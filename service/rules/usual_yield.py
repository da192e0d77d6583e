"""What is usually left after a stage of a chain, as it is written down."""

from typing import Literal

from pydantic import Field

from service.rules.cut import PartOf, ShareReading, Way, WeightStage
from service.rules.vocabulary import Animal

UsualStage = Literal["trim", "cook", "slice"]
"""Stages that have a usual yield. A pick-up has none: too much hangs on it."""


class UsualYield(ShareReading):
    """What is left after a stage where nothing better is known."""

    id: str = Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)
    """Stable id."""
    stage: UsualStage
    """Which stage."""
    method: str = Field(min_length=3, max_length=80)
    """What was done."""
    done_by: tuple[Way, ...]
    """Ways of doing it that it was measured of; empty for a trim."""
    animal: Animal | None
    """Whose meat it was; null where that makes no difference."""
    part_of: PartOf | None
    """The part of the animal that it was; null likewise."""
    of: WeightStage
    """The weight that the share is of."""
    left: WeightStage
    """The weight that is left."""
