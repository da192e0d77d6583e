"""What a stage leaves where the kitchen does not say: what is published for the cut, or what is usual."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from statistics import fmean
from typing import Literal

from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.trims import Span, of_reading, trims_of
from service.rules.book import RuleBook
from service.rules.cut import Cut, PartShare, ShareReading, WeightStage, YieldShare
from service.rules.usual_yield import UsualYield

From = Literal["cut", "usual"]
KEPT = 512

WORDS_OF_METHODS: dict[str, tuple[str, ...]] = {
    "smoke": ("smoked",), "steam": ("steamed",), "roast": ("roasted",), "braise": ("braised",),
    "simmer": ("simmered", "boiled"), "bake": ("baked",), "pan_fry": ("pan-fried", "pan-cooked"),
}  # fmt: skip
"""Words of a published method that say which one it is."""
SLICED = "sliced"
ENDS: dict[str, tuple[WeightStage, tuple[WeightStage, ...]]] = {
    "cook": ("cooked", ("cooked", "sold")), "slice": ("sold", ("sold",)),
}  # fmt: skip
"""What a stage leaves, and what the readings end in that are taken for it: what was sold was cooked, and no less."""
BY_TRUST = ("read", "reported", "recalled", "own")


@dataclass(frozen=True, eq=False, slots=True)
class Taken:
    """A share that was taken from what is published, with everything that it was taken from."""

    source: From
    share: Share
    of: WeightStage
    left: WeightStage
    spans: tuple[Span, ...]


@lru_cache(maxsize=KEPT)
def taken_for(kind: str, method: str | None, of: WeightStage, cut: str | None, book: RuleBook) -> Taken | None:
    """The share for a stage that the weight ``of`` enters: the cut's own, else a usual one that may stand for it."""
    known = book.cuts[cut] if cut else None
    own = _of_cut(kind, method, of, known) if known else None
    return own or _usual(kind, method, of, known, book)


def _of_cut(kind: str, method: str | None, of: WeightStage, cut: Cut) -> Taken | None:
    if kind == "trim":
        spans = tuple(trims_of(cut)) if of == "as_purchased" else ()
        return _taken("cut", spans, of, "trimmed") if spans else None
    left, ends = ENDS[kind]
    words = WORDS_OF_METHODS[method] if method else (SLICED,)
    fitting = tuple(
        of_reading(one)
        for one in cut.yields
        if one.usable and one.of == of and one.left in ends and _is_done(one.method, words)
    )
    return _taken("cut", fitting, of, left) if fitting else None


def _usual(kind: str, method: str | None, of: WeightStage, cut: Cut | None, book: RuleBook) -> Taken | None:
    words = WORDS_OF_METHODS[method] if method else None
    for one in book.usual_yields.values():
        is_it = one.stage == kind and one.of == of and (words is None or _is_done(one.method, words))
        if is_it and (cut is None or _may_stand_for(one, cut)):
            return _taken("usual", (of_reading(one),), one.of, one.left)
    return None


def _may_stand_for(usual: UsualYield, cut: Cut) -> bool:
    """Whether it is of the same animal, without bone as what was tested, and nothing of the cut itself is published."""
    if usual.animal is None:
        return True
    tested = bool(cut.parts) if usual.stage == "trim" else any(one.left == usual.left for one in cut.yields)
    return usual.animal == cut.animal and cut.kind == "cut" and not cut.bone_in and not tested


def _is_done(method: str, words: Iterable[str]) -> bool:
    return any(word in method for word in words)


def _taken(source: From, spans: tuple[Span, ...], of: WeightStage, left: WeightStage) -> Taken:
    """Every source within the band; the usual one by whoever names it, else the middle of what is known best."""
    low_percent, high_percent = min(one.low_percent for one in spans), max(one.high_percent for one in spans)
    named = [one.typical_percent for one in spans if one.typical_percent is not None]
    best = min((one.evidence for one in spans), key=BY_TRUST.index)
    known = [(one.low_percent + one.high_percent) / 2 for one in spans if one.evidence == best]
    typical_percent = named[0] if named else fmean(known)
    return Taken(source, Share(low_percent / 100, typical_percent / 100, high_percent / 100), of, left, spans)


def method_of(one: ShareReading) -> str:
    """What was done, or which part it is."""
    if isinstance(one, PartShare):
        return one.part
    return one.method if isinstance(one, YieldShare | UsualYield) else ""
