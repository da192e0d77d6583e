"""The modes of the three plain bodies: how a slab, a cylinder and a sphere follow what their surface holds."""

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

Plain = Literal["slab", "cylinder", "sphere"]
MODES = 60
"""Modes told apart on an axis."""
GROUPS, WIDER = 11, 1.5
"""Groups of quicker modes, each so much wider: for the first half hour of a thick piece, whose surface moves first."""
DEPTHS = 13
"""Places at which a profile is told, evenly from the middle to the surface."""


@dataclass(frozen=True, slots=True, eq=False)
class Modes:
    """How a body follows a step of 1 at its surface: shares that come to rest, each at its own rate.

    The share z of a mode goes by dz/dt = D * rate * (surface - z). Row 0 of ``weights`` adds the shares up to the
    mean, row 1 to the middle, each row after that to a place of the profile; every row adds up to 1. ``rates`` rise.
    They are in 1/mm2 once the body has its size, and for a half thickness or a radius of 1 before.
    """

    rates: "Array"
    weights: "Array"

    def sized(self, reach_mm: float) -> "Modes":
        """The same body with this half thickness or radius [mm]."""
        return Modes(self.rates / reach_mm**2, self.weights)


@cache
def modes_of(plain: Plain, *, profile: bool) -> Modes:
    """The modes of a body of half thickness or radius 1 (Crank 1975, chapters 4 to 6), with or without a profile."""
    import numpy as np

    depths = np.linspace(0.0, 1.0, DEPTHS)
    roots, mean, places = {"slab": _slab, "cylinder": _cylinder, "sphere": _sphere}[plain](depths)
    weights = np.vstack([mean, places[0], places if profile else places[:0]])
    rates, further = _quicker(roots)
    rest = np.zeros((len(weights), len(rates)))
    rest[:, 0] = 1.0 - weights.sum(axis=1)
    rest[0] = rest[0, 0] * further
    return Modes(np.append(roots**2, rates), np.hstack([weights, rest]))


def _quicker(roots: "Array") -> tuple["Array", "Array"]:
    """Rates of the modes that are not told apart, and their shares of what is left for the mean.

    Their roots lie pi apart and their shares go by 1 / root^2, in every plain body. In the middle their signs take
    turns: there the first of them, half a step on, stands for all (Euler's summation of an alternating row).
    """
    import numpy as np

    ends = [MODES + 1, *(MODES + 1 + np.round(MODES * (WIDER ** np.arange(1, GROUPS + 1) - 1))).astype(int).tolist()]
    last = roots[-1]
    further = [last + np.pi * np.arange(start - MODES + 1, end - MODES + 1) for start, end in pairwise(ends)]
    shares = [1 / (last + np.pi) ** 2, *((1 / each**2).sum() for each in further)]
    rates = [(last + np.pi / 2) ** 2, *(len(each) / share for each, share in zip(further, shares[1:], strict=True))]
    return np.array(rates), np.array(shares) / sum(shares)


def _slab(depths: "Array") -> tuple["Array", "Array", "Array"]:
    import numpy as np

    numbers = np.arange(MODES)
    roots = (2 * numbers + 1) * np.pi / 2
    signs = np.where(numbers % 2, -2.0, 2.0)
    return roots, 2 / roots**2, signs / roots * np.cos(np.outer(depths, roots))


def _cylinder(depths: "Array") -> tuple["Array", "Array", "Array"]:
    from scipy.special import j0, j1, jn_zeros

    roots: Array = jn_zeros(0, MODES)
    return roots, 4 / roots**2, 2 / (roots * j1(roots)) * j0(depths[:, None] * roots)


def _sphere(depths: "Array") -> tuple["Array", "Array", "Array"]:
    import numpy as np

    numbers = np.arange(1.0, MODES + 1)
    signs = np.where(numbers % 2, 2.0, -2.0)
    places: Array = signs * np.sinc(np.outer(depths, numbers))
    roots: Array = numbers * np.pi
    return roots, 6 / roots**2, places
