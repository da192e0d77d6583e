"""What looks like a slip of the pen or of the scale, each under a stable code."""

from collections.abc import Iterator

from service.calculations.butchery.cutting.leaving import left_over_unlikely
from service.calculations.butchery.cutting.parts import NOISE_FRACTION, CutUp, Part
from service.calculations.butchery.cutting.room import room_of
from service.calculations.butchery.cutting.slipping import Piece, piece_unlikely, slips_within, unit_slips
from service.calculations.butchery.cutting.told import CuttingNote, note
from service.calculations.butchery.cutting.wording import said, said_apart
from service.quantities.quantity import Units
from service.rules.cut import Cut
from service.rules.vocabulary import Animal

CALL_OUTS = {
    "part_heavier_than_whole": "A part weighs more than the piece that it was cut from.",
    "left_over_unlikely": "What is left over cannot be, or is by no published share, what was not weighed.",
    "part_stated_twice": "A part, or one weighing of it, stands there twice: perhaps it was written down twice.",
    "unit_slip": "With another unit beside a number, a part, all parts or the purchase the test would close.",
    "piece_unlikely": "One piece weighs less or more than is published: perhaps every unit slipped.",
    "no_waste_from_bone_in": "The cut has bone in it, and no part is bone, waste or for stock.",
    "cured_already": "A product that is cured, cooked or stuffed already is to go into a cure.",
    "animal_contradicts_cut": "The animal that is stated is not that of the cut.",
}

SAME_FRACTION = 1e-9
"""Two weights that differ by less are the same, whatever units they were stated in."""


DOUBTFUL: frozenset[str] = frozenset(
    ("part_heavier_than_whole", "left_over_unlikely", "unit_slip", "piece_unlikely", "cured_already")
)
"""Where one of these is called out, no weight is handed on to a cure."""


def confusions_in(
    test: CutUp, cut: Cut | None, animal: Animal | None, pieces: int | None, units: Units
) -> Iterator[CuttingNote]:
    """Every confusion, those about a weight first."""
    yield from _heavier(test, units)
    piece = Piece(cut, pieces)
    yield from _about_units(test, piece, units)
    yield from piece_unlikely(test, piece, units)
    yield from _twice(test, units)
    yield from _weighed_twice(test, units)
    yield from _no_waste(test, cut)
    yield from _cured_already(test, cut)
    if cut and animal and animal != cut.animal:
        yield note("animal_contradicts_cut", f"{animal.capitalize()} is stated, and {cut.name} is {cut.animal}.")


def _about_units(test: CutUp, piece: Piece, units: Units) -> Iterator[CuttingNote]:
    """Another unit is looked for where the weights do not come together as they are."""
    if not test.unweighed and test.closing[0] != "not_met":
        yield from slips_within(test, units)
        return
    room = room_of(test, piece.cut)
    unlikely = tuple(left_over_unlikely(test, room, units))
    yield from unlikely
    if unlikely or test.closing[0] == "not_met":
        yield from unit_slips(test, room, piece, units)


def _heavier(test: CutUp, units: Units) -> Iterator[CuttingNote]:
    for part in test.parts:
        slack_g = test.step_g * (1 + len(part.stated.weights)) / 2 + NOISE_FRACTION * test.purchased_g
        if part.g is not None and part.g > test.purchased_g + slack_g:
            name, (heavy, whole) = part.stated.name, said_apart(part.g, other_g=test.purchased_g, units=units)
            yield note("part_heavier_than_whole", f"{name} weighs {heavy}, the whole {whole}.", name)


def _twice(test: CutUp, units: Units) -> Iterator[CuttingNote]:
    seen: dict[str, list[float]] = {}
    for part in test.parts:
        if part.g is None:
            continue
        alike = seen.setdefault(_plain_name(part), [])
        if any(abs(part.g - other_g) <= SAME_FRACTION * part.g for other_g in alike):
            message = f"{part.stated.name} with {said(part.g, units)} stands there more than once."
            yield note("part_stated_twice", message, part.stated.name)
        alike.append(part.g)


def _plain_name(part: Part) -> str:
    return " ".join(part.stated.name.casefold().split())


def _weighed_twice(test: CutUp, units: Units) -> Iterator[CuttingNote]:
    """Two equal weighings of a part are none the less two, unless the test closes without one of them.

    Where it closes with both, it has to come to nothing at all without one.
    """
    if test.unweighed or test.unaccounted_g >= -test.resolution_g:
        return
    closes = test.closing[1] != "too_much_weight"
    near_g = SAME_FRACTION * test.purchased_g if closes else test.tolerance_g
    for part in test.parts:
        weights_g = [one.g for one in part.stated.weights]
        for one_g in dict.fromkeys(weights_g):
            if weights_g.count(one_g) > 1 and abs(test.unaccounted_g + one_g) <= near_g:
                message = f"{part.stated.name} has {said(one_g, units)} more than once; without one the test closes."
                yield note("part_stated_twice", message, part.stated.name)


def _cured_already(test: CutUp, cut: Cut | None) -> Iterator[CuttingNote]:
    cured = tuple(part.stated.name for part in test.parts if part.stated.use == "cure")
    if cut and cut.kind == "product" and cured:
        message = (
            f"{cut.name.capitalize()} is a product: cured, cooked or stuffed already. No weight goes on to a cure."
        )
        yield note("cured_already", message, *cured)


def _no_waste(test: CutUp, cut: Cut | None) -> Iterator[CuttingNote]:
    if cut and cut.bone_in and not test.bone_apart:
        yield note("no_waste_from_bone_in", f"There is bone in {cut.name}, and no part is bone, waste or for stock.")
