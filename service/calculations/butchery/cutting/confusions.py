"""What looks like a slip of the pen or of the scale, each under a stable code."""

from collections.abc import Iterator
from typing import NamedTuple

from service.calculations.butchery.cutting.closing import NOISE_FRACTION, verdict_of
from service.calculations.butchery.cutting.parts import CutUp, Part
from service.calculations.butchery.cutting.told import CuttingNote, note, said, said_percent, share_percent
from service.quantities.quantity import Mass, Units
from service.quantities.units import MassUnit, factor
from service.rules.cut import Cut
from service.rules.vocabulary import Animal

CALL_OUTS = {
    "part_heavier_than_whole": "A part weighs more than the piece that it was cut from.",
    "part_stated_twice": "Two parts have one name and one weight: perhaps one of them was written down twice.",
    "unit_slip": "With another unit beside one number the test would close.",
    "no_waste_from_bone_in": "The cut has bone in it, and no part is bone, waste or for stock.",
    "animal_contradicts_cut": "The animal that is stated is not that of the cut.",
}

MISTAKEN: dict[MassUnit, tuple[MassUnit, ...]] = {
    "kg": ("lb", "g"), "lb": ("kg", "oz"), "oz": ("g", "lb"), "g": ("oz", "kg"),
}  # fmt: skip
"""Units that are written for each other: those that one scale switches between, and the next larger or smaller."""

MOST_SLIPS = 5
LEAST_PART_G = 5.0
"""Nobody weighs a lighter part apart, so no number is read as less (own bound)."""
SAME_FRACTION = 1e-9
"""Two weights that differ by less are the same, whatever units they were stated in."""
DONE_WITH: frozenset[str] = frozenset(("waste", "stock"))


class Slip(NamedTuple):
    """Another unit beside one number, or beside all numbers of a part, with what is left over then."""

    left_fraction: float
    """Of what was bought; how well the test would close."""
    what: str
    read_as: str
    part: str | None
    """None where it is the purchase."""


def confusions_in(test: CutUp, cut: Cut | None, animal: Animal | None, units: Units) -> Iterator[CuttingNote]:
    """Every confusion, those about a weight first."""
    yield from _heavier(test, units)
    yield from _twice(test, units)
    yield from _slips(test)
    yield from _no_waste(test, cut)
    if cut and animal and animal != cut.animal:
        yield note("animal_contradicts_cut", f"{animal.capitalize()} is stated, and {cut.name} is {cut.animal}.")


def _heavier(test: CutUp, units: Units) -> Iterator[CuttingNote]:
    for part in test.parts:
        slack_g = test.step_g * (1 + len(part.stated.weights)) / 2 + NOISE_FRACTION * test.purchased_g
        if part.g is not None and part.g > test.purchased_g + slack_g:
            name = part.stated.name
            message = f"{name} weighs {said(part.g, units)}, the whole {said(test.purchased_g, units)}."
            yield note("part_heavier_than_whole", message, name)


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


def _slips(test: CutUp) -> Iterator[CuttingNote]:
    if test.unweighed or verdict_of(test)[0] != "not_met":
        return
    likeliest = sorted(_closing_slips(test), key=lambda slip: slip.left_fraction)
    for slip in likeliest[:MOST_SLIPS]:
        left = said_percent(share_percent(slip.left_fraction, whole_g=1.0))
        message = f"{slip.what}: read as {slip.read_as}, the test closes to {left}."
        yield note("unit_slip", message, *((slip.part,) if slip.part else ()))


def _closing_slips(test: CutUp) -> Iterator[Slip]:
    for instead in MISTAKEN[test.purchased.unit]:
        whole_g = test.purchased.value * factor(instead)
        left_fraction = abs(whole_g - test.parts_g - test.loss_g) / whole_g
        if left_fraction <= test.tolerance_fraction:
            yield Slip(left_fraction, f"Bought {_as_stated(test.purchased)}", instead, None)
    for part in test.parts:
        yield from _slips_of(part, test)


def _slips_of(part: Part, test: CutUp) -> Iterator[Slip]:
    for unit in dict.fromkeys(one.unit for one in part.stated.weights):
        values = [one.value for one in part.stated.weights if one.unit == unit]
        many = len(values) > 1
        for value in dict.fromkeys((sum(values), *(values if many else ()))):
            for instead in MISTAKEN[unit]:
                read_g = value * factor(instead)
                left_fraction = abs(test.unaccounted_g + value * factor(unit) - read_g) / test.purchased_g
                if read_g >= LEAST_PART_G and left_fraction <= test.tolerance_fraction:
                    what = (
                        f"{part.stated.name}, {value:.10g} {unit}{' together' if many and value == sum(values) else ''}"
                    )
                    yield Slip(left_fraction, what, f"{value:.10g} {instead}", part.stated.name)


def _as_stated(mass: Mass) -> str:
    return f"{mass.value:.10g} {mass.unit}"


def _no_waste(test: CutUp, cut: Cut | None) -> Iterator[CuttingNote]:
    bone = any(part.stated.what == "bone" or part.stated.use in DONE_WITH for part in test.parts)
    if cut and cut.bone_in and not bone:
        yield note("no_waste_from_bone_in", f"There is bone in {cut.name}, and no part is bone, waste or for stock.")
