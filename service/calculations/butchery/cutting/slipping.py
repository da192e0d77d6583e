"""Units that may have slipped: which numbers, read in another unit, would bring the weights together."""

from collections.abc import Iterator
from math import fsum
from typing import Literal, NamedTuple

from service.calculations.butchery.cutting.comparing import lies_far_above, piece_lies
from service.calculations.butchery.cutting.parts import NOISE_FRACTION, CutUp, Part
from service.calculations.butchery.cutting.room import Room
from service.calculations.butchery.cutting.told import CuttingNote, Lies, note
from service.calculations.butchery.cutting.wording import said, said_percent
from service.quantities.quantity import Units
from service.quantities.units import MassUnit, factor
from service.rules.cut import Cut

MISTAKEN: dict[MassUnit, tuple[MassUnit, ...]] = {
    "kg": ("lb", "g"), "lb": ("kg", "oz"), "oz": ("g", "lb"), "g": ("oz", "kg"),
}  # fmt: skip
"""Units that are written for each other: those that one scale switches between, and the next larger or smaller."""

MOST_SLIPS = 5
LEAST_PART_G = 5.0
"""Nobody weighs a lighter part apart, so no number is read as less (own bound)."""
UNLIKELY: dict[Lies | None, int] = {"below": 2, "above": 2, "cannot_tell": 1}
"""By the weight of one piece: such as are sold come first."""


class Reading(NamedTuple):
    """Numbers read in another unit, and the weights that come of it."""

    of: Literal["bought", "all parts", "together", "one"]
    parts: tuple[str, ...]
    value: float
    unit: MassUnit
    instead: MassUnit
    whole_g: float
    weighed_g: float

    @property
    def left_fraction(self) -> float:
        """What would be left over then."""
        return (self.whole_g - self.weighed_g) / self.whole_g

    @property
    def said(self) -> str:
        """What is read as what."""
        number, name = f"{self.value:.10g}", self.parts[0] if self.parts else "Bought"
        if self.of == "bought":
            return f"{name} {number} {self.unit}: read as {self.instead}"
        if self.of == "all parts":
            return f"All parts in {self.unit}: read as {self.instead}"
        together = " together" if self.of == "together" else ""
        return f"{name}, {number} {self.unit}{together}: read as {number} {self.instead}"


class Piece(NamedTuple):
    """One piece, where it can be held against what pieces weigh."""

    cut: Cut | None
    pieces: int | None

    def lies(self, whole_g: float) -> Lies | None:
        """Where one would lie if all that was bought weighed this."""
        return piece_lies(whole_g / self.pieces, self.cut) if self.pieces else None


def unit_slips(test: CutUp, room: Room, piece: Piece, units: Units) -> Iterator[CuttingNote]:
    """The likeliest readings that would close the test: first by what one piece weighs, then by what is left over."""
    closing = _closing(test, room)
    middle_fraction = sum(closing) / 2
    found = list(_readings(test, closing))
    found.sort(
        key=lambda one: (UNLIKELY.get(piece.lies(one.whole_g), 0), round(abs(one.left_fraction - middle_fraction), 9))
    )
    more = len(found) - MOST_SLIPS
    for number, one in enumerate(found[:MOST_SLIPS], start=1):
        rest = f" {more} more would close it as well." if more > 0 and number == MOST_SLIPS else ""
        yield note("unit_slip", _message(one, test, piece, units) + rest, *one.parts)


MUCH_BETTER_RATIO = 3.0
"""A test that closes already closes so much better with another unit: then that is called out (own bound)."""


def slips_within(test: CutUp, units: Units) -> Iterator[CuttingNote]:
    """A cured part that alone stands in its unit, while with the unit of the others the test closes far better."""
    left_fraction, coarse_fraction = test.unaccounted_g / test.purchased_g, test.resolution_g / test.purchased_g
    if abs(left_fraction) <= coarse_fraction + NOISE_FRACTION:
        return
    better_fraction = abs(left_fraction) / MUCH_BETTER_RATIO
    closing, weighed_g = Room(-better_fraction, better_fraction), test.parts_g + test.loss_g
    for part in test.parts:
        if part.stated.use != "cure":
            continue
        others = {one.unit for other in test.parts if other is not part for one in other.stated.weights}
        others.add(test.purchased.unit)
        if others.issuperset(one.unit for one in part.stated.weights):
            continue
        for one in _of_a_part(part, test.purchased_g, weighed_g=weighed_g, closing=closing):
            if one.instead in others and one.unit not in others:
                yield note("unit_slip", _message(one, test, Piece(None, None), units), *one.parts)


def piece_unlikely(test: CutUp, piece: Piece, units: Units) -> Iterator[CuttingNote]:
    """Every unit may have slipped together: the test closes all the same, and only one piece shows it."""
    lies, cut = piece.lies(test.purchased_g), piece.cut
    if cut is None or piece.pieces is None or lies in (None, "within"):
        return
    each_g = test.purchased_g / piece.pieces
    if lies == "cannot_tell" and not lies_far_above(each_g, cut):
        return
    said_lies = "far above" if lies == "cannot_tell" else lies
    fitting = (
        one for one in MISTAKEN[test.purchased.unit] if piece.lies(test.purchased.value * factor(one)) == "within"
    )
    instead = next(fitting, None)
    read = f" Read as {instead} it would be within: look whether every unit slipped." if instead else ""
    message = f"One piece weighs {said(each_g, units)}, {said_lies} what is published of {cut.name}.{read}"
    yield note("piece_unlikely", f"{message} No weight goes on to a cure; without pieces it is not compared.")


def _closing(test: CutUp, room: Room) -> Room:
    """From where to where what is left over has to lie: around nothing, or in the room of what was not weighed."""
    slack_fraction = test.tolerance_fraction
    if not test.unweighed:
        return Room(-slack_fraction, slack_fraction)
    return Room(max(room.low_fraction - slack_fraction, -NOISE_FRACTION), room.high_fraction + slack_fraction)


def _message(one: Reading, test: CutUp, piece: Piece, units: Units) -> str:
    left = said_percent(100 * abs(one.left_fraction))
    ends = f"{left} is left over for what was not weighed" if test.unweighed else f"the test closes to {left}"
    lies = piece.lies(one.whole_g)
    where = f", {lies} what is published" if lies in ("below", "within", "above") else ""
    pieces = piece.pieces if len(one.parts) != 1 else None
    each = f"; one piece then weighs {said(one.whole_g / pieces, units)}{where}" if pieces else ""
    return f"{one.said}, {ends}{each}."


def _readings(test: CutUp, closing: Room) -> Iterator[Reading]:
    bought, weighed_g = test.purchased, test.parts_g + test.loss_g
    for instead in MISTAKEN[bought.unit]:
        whole_g = bought.value * factor(instead)
        if _closes(whole_g, weighed_g=weighed_g, closing=closing):
            yield Reading("bought", (), bought.value, bought.unit, instead, whole_g, weighed_g)
    yield from _of_all_parts(test, weighed_g, closing)
    for part in test.parts:
        yield from _of_a_part(part, test.purchased_g, weighed_g=weighed_g, closing=closing)


def _closes(whole_g: float, *, weighed_g: float, closing: Room) -> bool:
    return closing.low_fraction <= (whole_g - weighed_g) / whole_g <= closing.high_fraction


def _of_all_parts(test: CutUp, weighed_g: float, closing: Room) -> Iterator[Reading]:
    """All numbers of a unit, where they are those of several parts: the scale was switched before."""
    weighings = [(part.stated.name, one) for part in test.parts for one in part.stated.weights]
    for unit in dict.fromkeys(one.unit for _, one in weighings):
        weighed = [(name, one.value) for name, one in weighings if one.unit == unit]
        parts, value = tuple(dict.fromkeys(name for name, _ in weighed)), fsum(value for _, value in weighed)
        for instead in MISTAKEN[unit] if len(parts) > 1 else ():
            read_g = weighed_g + value * (factor(instead) - factor(unit))
            if _closes(test.purchased_g, weighed_g=read_g, closing=closing):
                yield Reading("all parts", parts, value, unit, instead, test.purchased_g, read_g)


def _of_a_part(part: Part, whole_g: float, *, weighed_g: float, closing: Room) -> Iterator[Reading]:
    for unit in dict.fromkeys(one.unit for one in part.stated.weights):
        values = [one.value for one in part.stated.weights if one.unit == unit]
        together = fsum(values)
        for value in dict.fromkeys((together, *values)):
            of: Literal["together", "one"] = "together" if len(values) > 1 and value == together else "one"
            for instead in MISTAKEN[unit]:
                read_g = weighed_g + value * (factor(instead) - factor(unit))
                if value * factor(instead) >= LEAST_PART_G and _closes(whole_g, weighed_g=read_g, closing=closing):
                    yield Reading(of, (part.stated.name,), value, unit, instead, whole_g, read_g)
