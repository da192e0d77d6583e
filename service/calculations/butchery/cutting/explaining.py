"""The arithmetic of a cutting test in lines a person can follow, and where its figures are from."""

from collections.abc import Iterator

from service.calculations.butchery.cutting.closing import USUAL_TOLERANCE_PERCENT, Closure
from service.calculations.butchery.cutting.parts import CutUp, Part
from service.calculations.butchery.cutting.told import ComparedShare, CuttingNote, EachPiece, share_percent
from service.quantities.quantity import Mass

GRINDING_SOURCE = "9 CFR 320.1(b)(4), as set by 80 FR 79231 of 21 December 2015 (read)"
TOLERANCE_SOURCE = f"A tolerance of {USUAL_TOLERANCE_PERCENT:g} percent: common practice, no source"
Number = int | float


def steps_of(test: CutUp, shares: tuple[ComparedShare, ...]) -> tuple[str, ...]:
    """A line for each part, one for the closure, one for the scale, one for each published share."""
    return tuple(_steps(test, shares))


def _steps(test: CutUp, shares: tuple[ComparedShare, ...]) -> Iterator[str]:
    bought, whole_g = _stated([test.purchased]), test.purchased_g
    yield f"Bought: {bought} = {_n(whole_g)} g."
    for part in test.parts:
        yield _part_line(part, whole_g)
    yield (
        f"Bought {_n(whole_g)} g - parts {_n(test.parts_g)} g - losses {_n(test.loss_g)} g = "
        f"{_n(test.unaccounted_g)} g, {_n(share_percent(test.unaccounted_g, whole_g=whole_g))} percent; "
        f"{_n(test.tolerance_g)} g are allowed."
    )
    if test.step_g:
        yield f"Scale: {test.weighings} weighings x {_n(test.step_g)} g / 2 = {_n(test.resolution_g)} g."
    for share in shares:
        yield _share_line(share)


def _part_line(part: Part, whole_g: float) -> str:
    if part.g is None:
        return f"{part.stated.name}: not weighed."
    sums = f"{_stated(part.stated.weights)} = {_n(part.g)} g"
    return f"{part.stated.name}: {sums} / {_n(whole_g)} g = {_n(share_percent(part.g, whole_g=whole_g))} percent."


def _share_line(share: ComparedShare) -> str:
    ours = "not known" if share.your_percent is None else f"{_n(share.your_percent)} percent"
    published = f"{_n(share.low_percent)} to {_n(share.high_percent)} percent"
    return f"{share.part.capitalize()}: published {published}, here {ours}."


def sources_of(
    shares: tuple[ComparedShare, ...], each: EachPiece | None, closure: Closure, grinding: CuttingNote | None
) -> tuple[str, ...]:  # fmt: skip
    """Every source behind the answer, each once."""
    tolerance = (TOLERANCE_SOURCE,) if closure.tolerance_is == "common_practice" else ()
    record = (GRINDING_SOURCE,) if grinding else ()
    weights = each.sources if each else ()
    published = (source for share in shares for source in share.sources)
    return tuple(dict.fromkeys((*tolerance, *published, *weights, *record)))


def _stated(weights: list[Mass]) -> str:
    return " + ".join(f"{one.value:.10g} {one.unit}" for one in weights)


def _n(value: Number) -> str:
    """As many digits as it takes to follow the sum by hand."""
    text = f"{value:,.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
