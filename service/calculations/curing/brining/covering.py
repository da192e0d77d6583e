"""Pieces in a vessel: the brine that covers them, and whether they float in it."""

from math import floor

from service.calculations.curing.brining.contents import Pieces
from service.calculations.curing.brining.density import brine_density_kg_per_m3
from service.calculations.curing.brining.how_much import VesselWithPieces
from service.calculations.curing.brining.levels import Filling, steps_of
from service.calculations.curing.brining.outcomes import VesselResult
from service.calculations.curing.brining.root import Number
from service.calculations.curing.brining.told import told_level, told_volume, told_weight
from service.calculations.refusals import Impossible
from service.quantities.bands import rounded_up
from service.quantities.quantity import Units

FITS = 1 + 1e-9


def covered(
    asked: VesselWithPieces, salt_fraction: float, *, temperature_c: float, units: Units
) -> tuple[Number, VesselResult, tuple[str, ...]]:
    """Grams of brine that cover the pieces, how they stand in the vessel, and why. Raises Impossible."""
    filling, inside_l = Filling(asked), asked.vessel.inside_l
    density_kg_per_l = brine_density_kg_per_m3(salt_fraction, temperature_c=temperature_c) / 1000
    _require_room(filling)
    brine_l, filled_l, level_mm = filling.brine_l, filling.filled_l, filling.level_mm
    vessel = VesselResult.of(
        holds=told_volume(1000 * inside_l, units),
        brine_to_cover=told_volume(1000 * brine_l, units),
        level=None if level_mm is None else told_level(level_mm, units),
        headspace=told_volume(max(0.0, 1000 * (inside_l - filled_l)), units),
        headspace_percent=round(max(0.0, 100 * (1 - filled_l / inside_l)), 1),
        **_floating(asked.pieces, density_kg_per_l, units),
    )
    return 1000 * brine_l * density_kg_per_l, vessel, (*steps_of(filling), _weighing(filling, density_kg_per_l))


def _weighing(filling: Filling, density_kg_per_l: Number) -> str:
    return (
        f"Brine to cover: {filling.filled_l:,.5g} l - {filling.pieces_l:,.5g} l = {filling.brine_l:,.5g} l "
        f"x {density_kg_per_l:.5g} kg/l = {filling.brine_l * density_kg_per_l:,.5g} kg."
    )


def _floating(pieces: Pieces, density_kg_per_l: Number, units: Units) -> dict[str, object]:
    lighter = density_kg_per_l - pieces.density_kg_per_l
    floats = lighter > 0
    return {
        "floats": floats,
        "above_brine_percent": round(100 * lighter / density_kg_per_l, 1) if floats else 0.0,
        "hold_down": told_weight(1000 * lighter * pieces.volume_l, units) if floats else None,
    }


def _require_room(filling: Filling) -> None:
    """Pieces and brine under the head-space that is to be left. Raises Impossible."""
    room_l, filled_l = filling.room_l, filling.filled_l
    if filled_l <= room_l * FITS:
        return
    bigger, fitting = _bigger(filling), _fitting(filling)
    raise Impossible(
        code="pieces_do_not_fit",
        reason=f"The pieces and the brine that covers them fill {filled_l:,.4g} l; below the head-space there are "
        f"{room_l:,.4g} l.",
        nearest=f"Lay in {fitting} of the {filling.asked.pieces.number} pieces, or take {bigger}."
        if fitting
        else f"Take {bigger}.",
    )


def _fitting(filling: Filling) -> int:
    """How many of the pieces fit; none where one alone is thicker than the room is high."""
    if filling.one_layer_l > filling.room_l:
        return 0
    number = filling.asked.pieces.number
    return min(floor(number * filling.room_l / filling.packed_l), number - 1)


def _bigger(filling: Filling) -> str:
    """A vessel that does: of the same floor and higher, or of a larger volume where no floor is known."""
    left = 1 - filling.asked.headspace_percent / 100
    if filling.level_mm is None:
        return f"a vessel of {rounded_up(filling.filled_l / left):g} l"
    return f"a vessel as wide and {rounded_up(filling.level_mm / left / 10):g} cm high"
