"""One limit on a blend, as a line of numbers: what is counted of each material, and by what it is divided."""

from dataclasses import dataclass, field
from typing import Literal

from service.rules.checker import RuleInForce

PerMaterial = tuple[float, ...]
"""A number for each material in play, in their order."""
Scaled = float
"""A weight, as a share of the weight that the programme is scaled by."""
InItsUnit = float
"""A limit or a figure, in the unit that its limit is written in."""

LimitCode = Literal[
    "block_weight", "use_up", "fat", "protein", "moisture",
    "on_hand", "least", "most", "least_share", "most_share",
    "group_share", "group_ratio", "group_weight",
    "lawful_fat", "lawful_added_water", "lawful_fat_plus_added_water", "lawful_poultry",
]  # fmt: skip
LimitBound = Literal["at_most", "at_least", "exactly"]
LimitUnit = Literal["percent", "ratio", "kg", "lb"]

AT_LIMIT = 1e-9
"""A scaled row this close to its limit is at it."""


@dataclass(frozen=True, slots=True)
class Limit:
    """of . x stands in ``bound`` to value (times per . x, where it is a share)."""

    code: LimitCode
    words: str
    """What is limited, for a reader."""
    place: str
    """Where the request states its number; empty for a limit of the law."""
    bound: LimitBound
    value: InItsUnit
    unit: LimitUnit
    one: Scaled
    """What one of its unit is in the row: 0.01 for a percent."""
    of: PerMaterial
    per: PerMaterial | None = None
    """What it is divided by; None for a weight."""
    column: int | None = None
    """The one material that it bounds by weight."""
    law: RuleInForce | None = None
    row: PerMaterial = field(init=False)
    """The left side, with everything that grows with the block on it."""

    def __post_init__(self) -> None:
        level, per = self.value * self.one, self.per
        row = self.of if per is None else tuple([of - level * by for of, by in zip(self.of, per, strict=True)])
        object.__setattr__(self, "row", row)

    def figure(self, amounts: PerMaterial) -> InItsUnit | None:
        """What a blend comes to; None where it is divided by nothing."""
        counted = dot(self.of, amounts)
        if self.per is None:
            return counted / self.one
        by = dot(self.per, amounts)
        return counted / by / self.one if by > 0 else None

    @property
    def right(self) -> Scaled:
        return self.value * self.one if self.per is None else 0.0

    def shift(self, amounts: PerMaterial) -> Scaled:
        """How far the right side moves when the limit moves by one of its unit."""
        return self.one if self.per is None else self.one * dot(self.per, amounts)

    def is_tight(self, amounts: PerMaterial) -> bool:
        """Whether a blend is at the limit."""
        return abs(dot(self.row, amounts) - self.right) <= AT_LIMIT

    def is_kept(self, amounts: PerMaterial, slack: Scaled) -> bool:
        """Whether a blend keeps the limit, give or take some slack."""
        over = dot(self.row, amounts) - self.right
        return (self.bound == "at_least" or over <= slack) and (self.bound == "at_most" or over >= -slack)


def dot(one: PerMaterial, other: PerMaterial) -> Scaled:
    """Sum of products."""
    return sum([a * b for a, b in zip(one, other, strict=True)])
