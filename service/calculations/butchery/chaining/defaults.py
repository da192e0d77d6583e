"""What a stage leaves where the kitchen does not say: what is published for the cut, or what is usual."""

from dataclasses import dataclass, replace
from functools import lru_cache
from statistics import fmean
from typing import Literal, NamedTuple

from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.matching import Meat
from service.calculations.butchery.chaining.trims import Span, of_reading, trims_of
from service.rules.book import RuleBook
from service.rules.cut import Cut, PartShare, ShareReading, Way, WeightStage, YieldShare
from service.rules.usual_yield import UsualStage, UsualYield

From = Literal["cut", "usual"]
KEPT = 512

BY_TRUST = ("read", "reported", "recalled", "own")


@dataclass(frozen=True, eq=False, slots=True)
class Taken:
    """A share that was taken from what is published, with everything that it was taken from."""

    source: From
    share: Share
    of: WeightStage
    left: WeightStage
    spans: tuple[Span, ...]
    whose: str | None = None
    """What it was measured of, where nothing says that this is the same."""


class Doing(NamedTuple):
    """A stage that may take a share from what is published."""

    kind: UsualStage
    way: Way | None
    """None for a trim."""
    is_last: bool
    """Whether nothing is sliced after it: what was sold of a piece is then what the cook left of it, and no less."""

    @property
    def ends(self) -> tuple[WeightStage, ...]:
        """What the readings end in that are taken for it; what it leaves comes first."""
        if self.kind == "cook":
            return ("cooked", "sold") if self.is_last else ("cooked",)
        return ("sold",)


@lru_cache(maxsize=KEPT)
def taken_for(doing: Doing, of: WeightStage, meat: Meat, book: RuleBook) -> Taken | None:
    """The share for a stage that the weight ``of`` enters: the cut's own, else a usual one that may stand for it."""
    known = book.cuts[meat.cut] if meat.cut else None
    own = _of_cut(doing, of, known) if known else None
    return own or _usual(doing, of, meat, known, book)


def _of_cut(doing: Doing, of: WeightStage, cut: Cut) -> Taken | None:
    if doing.kind == "trim":
        spans = tuple(trims_of(cut)) if of == "as_purchased" else ()
        return _taken("cut", spans, of, "trimmed") if spans else None
    fitting = tuple(
        of_reading(one)
        for one in cut.yields
        if one.usable and one.of == of and one.left in doing.ends and doing.way in one.done_by
    )
    return _taken("cut", fitting, of, doing.ends[0]) if fitting else None


def _usual(doing: Doing, of: WeightStage, meat: Meat, cut: Cut | None, book: RuleBook) -> Taken | None:
    for one in book.usual_yields.values():
        is_it = one.stage == doing.kind and one.of == of and (doing.way is None or doing.way in one.done_by)
        if is_it and _may_stand_for(one, meat, cut):
            whose = f"{one.animal} {one.part_of}" if one.animal and meat.part is None else None
            return replace(_taken("usual", (of_reading(one),), one.of, one.left), whose=whose)
    return None


def _may_stand_for(usual: UsualYield, meat: Meat, cut: Cut | None) -> bool:
    """Whether it is of the same part, boneless as what was tested, and nothing of the cut itself is published."""
    if usual.animal is None:
        return True
    if cut is None:
        return meat.animal in (None, usual.animal) and meat.part in (None, usual.part_of)
    tested = bool(cut.parts) if usual.stage == "trim" else any(one.left == usual.left for one in cut.yields)
    same = (usual.animal, usual.part_of) == (meat.animal, meat.part)
    return same and cut.kind == "cut" and not cut.bone_in and not tested


def _taken(source: From, spans: tuple[Span, ...], of: WeightStage, left: WeightStage) -> Taken:
    """Every source within the band; usual is what the best known say, by name or else the middle of their range."""
    low_percent, high_percent = min(one.low_percent for one in spans), max(one.high_percent for one in spans)
    best = min((one.evidence for one in spans), key=BY_TRUST.index)
    typical_percent = fmean(one.usual_percent for one in spans if one.evidence == best)
    return Taken(source, Share(low_percent / 100, typical_percent / 100, high_percent / 100), of, left, spans)


def method_of(one: ShareReading) -> str:
    """What was done, or which part it is."""
    if isinstance(one, PartShare):
        return one.part
    return one.method if isinstance(one, YieldShare | UsualYield) else ""
