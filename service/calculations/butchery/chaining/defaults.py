"""What a stage leaves where the kitchen does not say: what is published for the cut, or what is usual."""

from collections.abc import Iterable
from functools import lru_cache
from statistics import fmean
from typing import Literal, NamedTuple

from service.calculations.butchery.chaining.bands import Share
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
TRIMMED_OFF, USABLE = "trim", "usable"
"""How the name of a part begins that is trimmed off, and of one that is left when all trim is off."""
SLICED = "sliced"
BY_TRUST = ("read", "reported", "recalled", "own")


class Taken(NamedTuple):
    """A share that was taken from what is published, with everything that it was taken from."""

    source: From
    share: Share
    of: WeightStage
    left: WeightStage
    readings: tuple[ShareReading, ...]


@lru_cache(maxsize=KEPT)
def taken_for(kind: str, method: str | None, of: WeightStage, cut: str | None, book: RuleBook) -> Taken | None:
    """The share for a stage that the weight ``of`` enters: the cut's own, else a usual one that may stand for it."""
    known = book.cuts[cut] if cut else None
    own = _of_cut(kind, method, of, known) if known else None
    return own or _usual(kind, method, of, known, book)


def _of_cut(kind: str, method: str | None, of: WeightStage, cut: Cut) -> Taken | None:
    if kind == "trim":
        return _trim(cut) if of == "as_purchased" else None
    left: WeightStage = "cooked" if kind == "cook" else "sold"
    words = WORDS_OF_METHODS[method] if method else (SLICED,)
    fitting = tuple(
        one for one in cut.yields if one.usable and (one.of, one.left) == (of, left) and _is_done(one.method, words)
    )
    return _taken("cut", fitting, of, left) if fitting and kind in ("cook", "slice") else None


def _trim(cut: Cut) -> Taken | None:
    """From the parts of a cutting test: what is usable, or what was trimmed off."""
    usable = tuple(part for part in cut.parts if part.part.startswith(USABLE))
    off = tuple(part for part in cut.parts if part.part.startswith(TRIMMED_OFF))
    if usable:
        return _taken("cut", usable, "as_purchased", "trimmed")
    return _taken("cut", off, "as_purchased", "trimmed") if off else None


def _usual(kind: str, method: str | None, of: WeightStage, cut: Cut | None, book: RuleBook) -> Taken | None:
    words = WORDS_OF_METHODS[method] if method else None
    for one in book.usual_yields.values():
        is_it = one.stage == kind and one.of == of and (words is None or _is_done(one.method, words))
        if is_it and (cut is None or _may_stand_for(one, cut)):
            return _taken("usual", (one,), one.of, one.left)
    return None


def _may_stand_for(usual: UsualYield, cut: Cut) -> bool:
    """Whether it is of the same animal, and nothing is published of the cut itself for such a stage."""
    tested = bool(cut.parts) if usual.stage == "trim" else any(one.left == usual.left for one in cut.yields)
    return usual.animal is None or (usual.animal == cut.animal and not tested)


def _is_done(method: str, words: Iterable[str]) -> bool:
    return any(word in method for word in words)


def _taken(source: From, readings: tuple[ShareReading, ...], of: WeightStage, left: WeightStage) -> Taken:
    """Every reading within the band; the usual one by whoever names it, else the middle of what is known best."""
    spans = [_left_percents(one) for one in readings]
    low_percent, high_percent = min(low for low, _, _ in spans), max(high for _, _, high in spans)
    named = [typical for _, typical, _ in spans if typical is not None]
    best = min((one.evidence for one in readings), key=BY_TRUST.index)
    known = [(low + high) / 2 for one, (low, _, high) in zip(readings, spans, strict=True) if one.evidence == best]
    typical_percent = named[0] if named else fmean(known)
    return Taken(source, Share(low_percent / 100, typical_percent / 100, high_percent / 100), of, left, readings)


Percents = tuple[float, float | None, float]


def _left_percents(one: ShareReading) -> Percents:
    """A reading as what is left, from the least to the most; a part that was trimmed off is what is not."""
    if not (isinstance(one, PartShare) and one.part.startswith(TRIMMED_OFF)):
        return one.low_percent, one.typical_percent, one.high_percent
    typical_percent = None if one.typical_percent is None else 100 - one.typical_percent
    return 100 - one.high_percent, typical_percent, 100 - one.low_percent


def method_of(one: ShareReading) -> str:
    """What was done, or which part it is."""
    if isinstance(one, PartShare):
        return one.part
    return one.method if isinstance(one, YieldShare | UsualYield) else ""
