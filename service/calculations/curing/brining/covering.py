"""Pieces in a vessel: the brine that covers them, and whether they float in it."""

from collections.abc import Iterator
from math import floor

from service.calculations.curing.brining.contents import Pieces
from service.calculations.curing.brining.density import brine_density_kg_per_m3
from service.calculations.curing.brining.how_much import VesselWithPieces
from service.calculations.curing.brining.outcomes import VesselResult
from service.calculations.curing.brining.root import Number
from service.calculations.curing.brining.told import told_volume, told_weight
from service.calculations.refusals import Impossible
from service.quantities.bands import rounded_up
from service.quantities.quantity import Units

FITS = 1 + 1e-9


def brine_to_cover_l(pieces_l: float, *, packing_fraction: float) -> float:
    r"""Brine that covers pieces lying together.

    .. math:: V = V_{pieces} (1 / packing - 1)

    Parameters
    ----------
    pieces_l : float
        Volume of the pieces [l]
    packing_fraction : float
        Share of the space under the brine that is meat [fraction]

    Returns
    -------
    brine : float
        Brine that fills the rest of that space [l]

    Raises
    ------
    ZeroDivisionError
        When the packing is zero.

    Notes
    -----
    Range: packing from 0.3 to 0.9. How pieces pack is the largest uncertainty here: try it with water.

    Examples
    --------
    >>> round(brine_to_cover_l(42.8, packing_fraction=0.70), 1)  # 100 lb of meat, tightly packed
    18.3

    References
    ----------
    Common practice, no source.
    """
    return pieces_l * (1 / packing_fraction - 1)


def covered(
    asked: VesselWithPieces, salt_fraction: float, *, temperature_c: float, units: Units
) -> tuple[Number, VesselResult, tuple[str, ...]]:
    """Grams of brine that cover the pieces, how they stand in the vessel, and why. Raises Impossible."""
    inside_l, pieces_l, packing = asked.vessel.inside_l, asked.pieces.volume_l, asked.packing_percent / 100
    density_kg_per_l = brine_density_kg_per_m3(salt_fraction, temperature_c=temperature_c) / 1000
    brine_l, filled_l = brine_to_cover_l(pieces_l, packing_fraction=packing), pieces_l / packing
    _require_room(asked, filled_l)
    vessel = VesselResult.of(
        holds=told_volume(1000 * inside_l, units),
        brine_to_cover=told_volume(1000 * brine_l, units),
        headspace=told_volume(max(0.0, 1000 * (inside_l - filled_l)), units),
        headspace_percent=round(max(0.0, 100 * (1 - filled_l / inside_l)), 1),
        **_floating(asked.pieces, density_kg_per_l, units),
    )
    steps = tuple(_steps(asked, brine_l=brine_l, density_kg_per_l=density_kg_per_l))
    return 1000 * brine_l * density_kg_per_l, vessel, steps


def _steps(asked: VesselWithPieces, *, brine_l: float, density_kg_per_l: float) -> Iterator[str]:
    pieces, packing, inside_l = asked.pieces, asked.packing_percent / 100, asked.vessel.inside_l
    meat_kg, filled_l = pieces.total.g / 1000, pieces.volume_l / packing
    yield f"Pieces: {meat_kg:,.5g} kg / {pieces.density_kg_per_l:.4g} kg/l = {pieces.volume_l:,.5g} l."
    yield f"Space under the brine: {pieces.volume_l:,.5g} l / {packing:.3g} = {filled_l:,.5g} l of {inside_l:,.5g} l."
    yield (
        f"Brine to cover: {filled_l:,.5g} l - {pieces.volume_l:,.5g} l = {brine_l:,.5g} l "
        f"x {density_kg_per_l:.5g} kg/l = {brine_l * density_kg_per_l:,.5g} kg."
    )


def _floating(pieces: Pieces, density_kg_per_l: Number, units: Units) -> dict[str, object]:
    lighter = density_kg_per_l - pieces.density_kg_per_l
    floats = lighter > 0
    return {
        "floats": floats,
        "above_brine_percent": round(100 * lighter / density_kg_per_l, 1) if floats else 0.0,
        "hold_down": told_weight(1000 * lighter * pieces.volume_l, units) if floats else None,
    }


def _require_room(asked: VesselWithPieces, filled_l: Number) -> None:
    """Pieces and brine under the head-space that is to be left. Raises Impossible."""
    room_l = asked.vessel.inside_l * (1 - asked.headspace_percent / 100)
    if filled_l <= room_l * FITS:
        return
    number = asked.pieces.number
    fitting = min(floor(number * room_l / filled_l), number - 1)
    bigger = f"a vessel of {rounded_up(filled_l / (1 - asked.headspace_percent / 100)):g} l"
    raise Impossible(
        code="pieces_do_not_fit",
        reason=f"The pieces and the brine that covers them fill {filled_l:,.4g} l; below the head-space there are "
        f"{room_l:,.4g} l.",
        nearest=f"Lay in {fitting} of the {number} pieces, or take {bigger}." if fitting else f"Take {bigger}.",
    )
