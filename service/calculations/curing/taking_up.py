"""How much of the way to one with its pickle a piece can have gone when it comes out, told rather too high."""

from functools import lru_cache
from math import pi, prod

from service.calculations.curing.diffusing.bookkeeping import bath_ratio
from service.calculations.curing.diffusing.diffusivity import MM2_PER_D, Speed, salt_diffusivity_mm2_per_d
from service.calculations.curing.diffusing.exchange import Limited
from service.calculations.curing.diffusing.relaxation import MEAN
from service.calculations.curing.pieces import LONGEST_MM, MEAT_G_PER_MM3, Axis, FacesOfBlock, Shape, piece_of
from service.calculations.curing.pieces import REASONS as PIECE_REASONS
from service.calculations.curing.staying import Stay, Stayed
from service.calculations.curing.timing.planning import days_d
from service.calculations.curing.timing.setting import modes_of_axes
from service.calculations.curing.timing.stages import REASONS as STAGE_REASONS
from service.calculations.curing.timing.stages import WARMEST_C, require_cold_c

QUICKEST = Speed(9.4e-10, 35)
"""The quickest diffusivity of salt published for beef (Polish Journal of Food and Nutrition Sciences 48(1):59, 1998,
1.4 to 9.4e-10, abstract), taken as that at 4 degC, and the steepest rise with warmth that is in use here."""
WATERY_MEAT_FRACTION = 0.75
"""Water in lean raw meat, upper end (common tables, from memory): the more of it, the sooner it has its share."""
LEAST_BATH_RATIO = 0.01
"""With less water than this around it, a piece is taken to have all of its share at once."""
STAYS_KEPT = 1024
SOURCES = (
    "Crank, The Mathematics of Diffusion, 2nd ed. 1975, section 4.3.5 (from memory; held against its series)",
    "Polish Journal of Food and Nutrition Sciences 48(1):59, 1998: salt in beef, up to 9.4e-10 m2/s (abstract)",
)
REASONS = {
    **{code: STAGE_REASONS[code] for code in ("too_warm", "too_cold", "stage_too_long")},
    **{code: PIECE_REASONS[code] for code in ("shape_contradicts_weight", "size_out_of_range")},
}


def stay_line(stayed: Stayed) -> str:
    """A stay in words, with its numbers."""
    speed = salt_diffusivity_mm2_per_d(QUICKEST, WARMEST_C) / MM2_PER_D
    return (
        f"Stay: {stayed.lasts_d:.6g} d in {stayed.bath_ratio:.4g} times the water of the meat "
        f"({WATERY_MEAT_FRACTION:.0%} of it), at {WARMEST_C:g} degC and {speed:.3g} m2/s, the quickest that is "
        f"published for beef: at most {stayed.share_fraction:.6g} of the way to the whole system."
    )


def stayed_of(
    stay: Stay, *, meat_g: float, water_g: float, injected_g: float = 0.0, longest_d: float | None = None
) -> Stayed:
    """What a stay comes to. longest_d: another statement of the days, where there is one; the longer counts.

    Raises Impossible for a stay outside of the cold, one that never ends, and for what is no such piece.
    """
    require_cold_c(stay.temperature.c)
    lasts_d = max(days_d(stay.lasts), longest_d or 0.0)
    # What is pumped leaves the pickle and makes the meat wetter: both shorten the way.
    ratio = bath_ratio(
        bath_water_g=max(water_g - injected_g, 0.0), meat_water_g=WATERY_MEAT_FRACTION * meat_g + injected_g
    )
    share = share_of_the_way_fraction(ways_of(stay.shape, meat_g / stay.pieces), bath_ratio=ratio, lasts_d=lasts_d)
    return Stayed(lasts_d, ratio, share)


def ways_of(shape: Shape, weight_g: float) -> tuple[Axis, ...]:
    """The ways in, told rather too short: every face is open, for skin and fat slow salt and do not stop it, and a size
    that is too great for the weight is shrunk to it.

    A flat piece of unknown width is taken for a bar as wide as it is thick, which takes up more than any other.
    """
    if shape.kind == "slab":
        thick_mm = piece_of(shape, weight_g).thickness_mm
        edges_mm = (thick_mm, thick_mm, min(weight_g / MEAT_G_PER_MM3 / thick_mm**2, LONGEST_MM))
        return tuple(sorted((Axis("slab", edge_mm / 2) for edge_mm in edges_mm), key=lambda axis: axis.reach_mm))
    opened = {name: value for name, value in ALL_OPENED.items() if name in type(shape).model_fields}
    axes = piece_of(shape.model_copy(update=opened), weight_g).axes
    block_g = MEAT_G_PER_MM3 * prod(FILLED[axis.plain](axis.reach_mm) for axis in axes)
    shrunk = min(1.0, (weight_g / block_g) ** (1 / 3))
    return tuple(Axis(axis.plain, axis.reach_mm * shrunk) for axis in axes)


ALL_OPENED = {"open_faces": FacesOfBlock(), "open_ends": 2}
FILLED = {
    "slab": lambda reach: 2 * reach,
    "cylinder": lambda reach: pi * reach**2,
    "sphere": lambda reach: 4 / 3 * pi * reach**3,
}  # fmt: skip
"""What an axis is to the volume of its piece."""


@lru_cache(STAYS_KEPT)
def share_of_the_way_fraction(axes: tuple[Axis, ...], *, bath_ratio: float, lasts_d: float) -> float:
    r"""The mean of an unsalted piece after so long in a bath, by what it comes to in the end.

    .. math:: share = 1 - \sum_n a_n e^{-q_n^2 D t / l^2}

    For a slab a = 2 r (1 + r) / (1 + r + r^2 q^2) and tan q = -r q, where r is bath_ratio and l half the thickness.

    Parameters
    ----------
    axes : tuple of Axis
        The open pairs of faces and round sides of the piece
    bath_ratio : float
        Water of the bath to water of the meat [ratio]
    lasts_d : float
        How long it lies in it [d]

    Returns
    -------
    share : float
        Share of the way to rest, from 0 to 1 [fraction]

    Raises
    ------
    Nothing.

    Notes
    -----
    At the quickest published diffusivity of salt in beef, at the warmest that a cure is told for, in a stirred bath,
    for nitrite that moves as salt does and is not lost on the way. Typical meat has gone about half as far.

    Examples
    --------
    >>> round(share_of_the_way_fraction((Axis("slab", 60.0),), bath_ratio=0.8, lasts_d=2.5), 3)
    0.484

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. 1975, section 4.3.5 (from memory).
    """
    import numpy as np

    if bath_ratio < LEAST_BATH_RATIO:
        return 1.0
    modes = modes_of_axes(axes, profile=False)
    relaxation = Limited(modes, bath_ratio).relaxation(np.zeros_like(modes.rates), salt_ratio=bath_ratio)
    reach_mm2 = lasts_d * salt_diffusivity_mm2_per_d(QUICKEST, WARMEST_C)
    share = float(relaxation.row_at(MEAN, np.array([reach_mm2]))[0]) / relaxation.final_ratio
    return max(share, 0.0) if share < 1 else 1.0
