"""The usual rules of thumb for cure days: what each would say, and what the model says of it.

They contradict each other because they were made for different things: most go by weight or in a straight line by
thickness, while salt needs four times the days for twice the way.
"""

from collections.abc import Callable
from typing import Literal, NamedTuple

from service.calculations.curing.pieces import Piece
from service.calculations.curing.timing.telling import Days, SaltBand
from service.quantities.models import Answer, made
from service.quantities.quantity import G_PER_OZ
from service.quantities.units import factor

Stands = Literal["short", "near", "long"]


class ThumbRule(Answer):
    """A rule of thumb beside the model."""

    rule: str
    """Its code."""
    says: str
    """The rule in words."""
    from_d: float
    """The days that it gives; the least where it gives a range."""
    to_d: float
    """The most that it gives."""
    centre_then: SaltBand
    """The salt in the centre after the most days that it gives, by the model."""
    stands: Stands
    """short: over before the quick reading has arrived. long: begins after the slow one. near: between."""
    source: str
    """Where the rule is printed."""


class Rule(NamedTuple):
    """A rule as it is printed."""

    code: str
    says: str
    days: Callable[[Piece], tuple[float, float]]
    source: str
    injected: bool = False


HOBBY = "hobby pages and public discussion, weak authority"
BULLETIN = "USDA farm bulletin on pork: slaughtering, cutting, preserving"


def _inches(piece: Piece) -> float:
    return piece.thickness_mm / factor("in")


def _pounds(piece: Piece) -> float:
    return piece.weight_g / (16 * G_PER_OZ)


def _per_pound(low_d: float, *, high_d: float) -> Callable[[Piece], tuple[float, float]]:
    return lambda piece: (low_d * _pounds(piece), high_d * _pounds(piece))


def _to_the_middle(mm_per_d: float, *, extra_d: float) -> Callable[[Piece], tuple[float, float]]:
    return lambda piece: (piece.thickness_mm / 2 / mm_per_d + extra_d,) * 2


RULES = (
    Rule("week_per_inch", "Seven days for each inch of thickness.", lambda piece: (7 * _inches(piece),) * 2, HOBBY),
    Rule("quarter_inch_a_day", "A quarter of an inch a day to the middle, and two days.",
         _to_the_middle(25.4 / 4, extra_d=2), HOBBY),
    Rule("eighth_inch_a_day", "An eighth of an inch a day to the middle.", _to_the_middle(25.4 / 8, extra_d=0), HOBBY),
    Rule("days_per_pound", "One and a half to two days for each pound.", _per_pound(1.5, high_d=2), HOBBY),
    Rule("day_per_100_g", "A day for each 100 g.", lambda piece: (piece.weight_g / 100,) * 2, HOBBY),
    Rule("ham_in_sweet_pickle", "Hams and shoulders in sweet pickle: three and a half to four days for each pound.",
         _per_pound(3.5, high_d=4), BULLETIN),
    Rule("belly_in_sweet_pickle", "Bellies in sweet pickle: 15 days for 10 pounds.", _per_pound(1.5, high_d=1.5),
         BULLETIN),
    Rule("injected", "Four to five days once it is injected.", lambda _: (4.0, 5.0), HOBBY, injected=True),
)  # fmt: skip


def rules_for(*, injected: bool) -> tuple[Rule, ...]:
    """The rules that somebody would apply: one is for injected pieces alone."""
    return tuple(rule for rule in RULES if injected or not rule.injected)


def beside(rule: Rule, piece: Piece, days: Days, centre_then: SaltBand) -> ThumbRule:
    """A rule beside the days of the model."""
    from_d, to_d = rule.days(piece)
    return made(
        ThumbRule, rule=rule.code, says=rule.says, from_d=round(from_d, 1), to_d=round(to_d, 1),
        centre_then=centre_then, stands=_stands(from_d, to_d=to_d, days=days), source=rule.source,
    )  # fmt: skip


def _stands(from_d: float, *, to_d: float, days: Days) -> Stands:
    if to_d < days.low:
        return "short"
    return "long" if from_d > days.high else "near"
