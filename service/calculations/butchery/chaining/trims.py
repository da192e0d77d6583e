"""What is left of a cut when all that comes off is off: by each source, never by parts of two."""

from collections.abc import Iterator
from typing import NamedTuple

from service.rules.cut import Cut, PartShare, ShareReading
from service.rules.vocabulary import Evidence

ROUNDED_PERCENT = 0.5
"""So far printed parts may miss a hundred by rounding."""


class Span(NamedTuple):
    """What is left by one source, with every reading that it was worked out from."""

    low_percent: float
    typical_percent: float | None
    high_percent: float
    evidence: Evidence
    readings: tuple[ShareReading, ...]
    comes_off: bool
    """Whether the readings are of what comes off: then it is a hundred less all of them."""

    @property
    def usual_percent(self) -> float:
        """What it calls usual, else the middle of its range."""
        return (self.low_percent + self.high_percent) / 2 if self.typical_percent is None else self.typical_percent


def of_reading(one: ShareReading) -> Span:
    """A reading that says itself what is left."""
    return Span(one.low_percent, one.typical_percent, one.high_percent, one.evidence, (one,), comes_off=False)


def trims_of(cut: Cut) -> Iterator[Span]:
    """What each source leaves of it, without fat, skin and bone; nothing of a source that does not weigh them all."""
    needed = {"fat"} if cut.bone_in is False else {"fat", "bone"}
    for parts in _added_up(cut.parts):
        meat = tuple(part for part in parts if "meat" in part.consists_of)
        span = _usable(meat, parts) if meat else _less_all(_coming_off(parts), needed)
        if span:
            yield span


def _added_up(parts: tuple[PartShare, ...]) -> Iterator[list[PartShare]]:
    """Parts of one test or table together; a part that is added with nothing by itself."""
    tests: dict[str, list[PartShare]] = {}
    for number, part in enumerate(parts):
        tests.setdefault(part.added_with or str(number), []).append(part)
    yield from tests.values()


def _usable(meat: tuple[PartShare, ...], parts: list[PartShare]) -> Span | None:
    """All that is usable, where the source accounts for the whole piece."""
    if abs(sum((part.low_percent + part.high_percent) / 2 for part in parts) - 100) > ROUNDED_PERCENT:
        return None
    return Span(*_sum(meat), meat[0].evidence, meat, comes_off=False)


def _coming_off(parts: list[PartShare]) -> tuple[PartShare, ...]:
    """Everything that comes off, nothing of it twice: of two parts with bone in both, the larger."""
    found: list[PartShare] = []
    for part in sorted(parts, key=lambda one: -one.high_percent):
        if not any(set(part.consists_of) & set(other.consists_of) for other in found):
            found.append(part)
    return tuple(found)


def _less_all(off: tuple[PartShare, ...], needed: set[str]) -> Span | None:
    if not needed <= {kind for part in off for kind in part.consists_of}:
        return None
    if any(not part.consists_of and not part.comes_off for part in off):
        return None
    low, typical, high = _sum(off)
    return Span(100 - high, None if typical is None else 100 - typical, 100 - low, off[0].evidence, off, comes_off=True)


def _sum(parts: tuple[PartShare, ...]) -> tuple[float, float | None, float]:
    named = [part.typical_percent for part in parts if part.typical_percent is not None]
    typical = sum(named) if len(named) == len(parts) else None
    return sum(part.low_percent for part in parts), typical, sum(part.high_percent for part in parts)
