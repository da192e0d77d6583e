"""How much of a vessel the pieces and their brine fill: as they pack, and at least as high as one is thick."""

from collections.abc import Iterator
from dataclasses import dataclass

from service.calculations.curing.brining.contents import MM3_PER_L
from service.calculations.curing.brining.how_much import VesselWithPieces
from service.calculations.curing.brining.root import Number


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


@dataclass(frozen=True, slots=True)
class Filling:
    """What lies in a vessel, and how high the brine must stand."""

    asked: VesselWithPieces

    @property
    def pieces_l(self) -> Number:
        return self.asked.pieces.volume_l

    @property
    def packed_l(self) -> Number:
        """Space under the brine where the pieces lie packed."""
        return self.pieces_l + brine_to_cover_l(self.pieces_l, packing_fraction=self.asked.packing_percent / 100)

    @property
    def one_layer_l(self) -> Number:
        """Space under the brine where it stands as high as a compact piece; 0 where no floor is known."""
        return (self.asked.vessel.floor_mm2 or 0.0) * self.asked.pieces.thickness_mm / MM3_PER_L

    @property
    def filled_l(self) -> Number:
        return max(self.packed_l, self.one_layer_l)

    @property
    def brine_l(self) -> Number:
        return self.filled_l - self.pieces_l

    @property
    def level_mm(self) -> Number | None:
        """How high the brine stands; None where no floor is known."""
        floor_mm2 = self.asked.vessel.floor_mm2
        return None if floor_mm2 is None else self.filled_l * MM3_PER_L / floor_mm2

    @property
    def room_l(self) -> Number:
        """The vessel under its head-space."""
        return self.asked.vessel.inside_l * (1 - self.asked.headspace_percent / 100)


def steps_of(filling: Filling) -> Iterator[str]:
    """The space under the brine, and which of the two bounds decided it."""
    pieces, packing = filling.asked.pieces, filling.asked.packing_percent / 100
    yield f"Pieces: {pieces.total.g / 1000:,.5g} kg / {pieces.density_kg_per_l:.4g} kg/l = {pieces.volume_l:,.5g} l."
    yield f"Space under the brine, as they pack: {pieces.volume_l:,.5g} l / {packing:.3g} = {filling.packed_l:,.5g} l."
    floor_mm2 = filling.asked.vessel.floor_mm2
    if floor_mm2 is None:
        yield "The floor is not known, nor how high the brine stands: the packing alone decides."
        return
    yield (
        f"Space up to the top of one compact piece: floor {floor_mm2 / 100:,.5g} cm2 x {pieces.thickness_mm / 10:,.5g} "
        f"cm = {filling.one_layer_l:,.5g} l."
    )
    decides = "the packing" if filling.packed_l >= filling.one_layer_l else "the floor"
    inside_l = filling.asked.vessel.inside_l
    yield f"The larger is taken: {decides} decides, {filling.filled_l:,.5g} l of {inside_l:,.5g} l."
