"""Salt in a body that is cut into thin shells, each even in itself: Fick's law by volumes, without any series.

Shares nothing with the service: no mode, no root, no Bessel function. Shells are thin near the surface.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import exp
from typing import Any

import numpy as np

SHELLS = 140
CROWDED = 2.5
ENDLESS = 1e9
"""A bath of this ratio does not weaken."""
TINY = 1e-6
"""A bath of less holds nothing worth the name: what is in it lies on the surface."""
READINGS = {"slow": (1.5e-10, 35.0), "typical": (2.5e-10, 25.0), "quick": (4.0e-10, 18.0)}
"""m2/s at 4 degC and kJ/mol: what the pages say that low, typical and high are made of."""


def speed_mm2_per_h(reading: str, at_c: float) -> float:
    """Arrhenius' law, from 4 degC (277.15 K) to another temperature."""
    at_4_c, kj_per_mol = READINGS[reading]
    return at_4_c * 3600e6 * exp(-kj_per_mol * 1000 / 8.314462618 * (1 / (at_c + 273.15) - 1 / 277.15))


@lru_cache(64)
def shells(plain: str, ratio: float) -> tuple[Any, ...]:
    """Volumes of the shells from the centre outwards, then of the bath, and how they exchange, taken apart."""
    power = {"slab": 0, "cylinder": 1, "sphere": 2}[plain]
    edges = 1 - (1 - np.linspace(0, 1, SHELLS + 1)) ** CROWDED
    middles = (edges[1:] + edges[:-1]) / 2
    volumes = np.append(np.diff(edges ** (power + 1)), [ratio] if ratio else [])
    places = np.append(middles, [1.0] if ratio else [])
    pulls = (power + 1) * edges[1 : len(places)] ** power / np.diff(places)
    exchange = np.zeros((len(places), len(places)))
    for inner, pull in enumerate(pulls):
        exchange[inner : inner + 2, inner : inner + 2] += pull * np.array([[-1, 1], [1, -1]])
    root = np.sqrt(volumes)
    rates, ways = np.linalg.eigh(exchange / np.outer(root, root))
    return volumes, root, np.minimum(rates, 0.0), ways


class Body:
    """A body of one axis that goes from bath to bath."""

    def __init__(self, plain: str, reach_mm: float, even: float) -> None:
        self._plain, self._reach_mm = plain, reach_mm
        self.salt = np.full(SHELLS, even)
        """Salt per water, from the centre outwards."""

    def lie(self, ratio: float, bath: float, way_mm2: float) -> float:
        """In a bath of this strength for so much diffusivity times time; tells how strong the bath is then.

        Without any bath, as much salt per water of the body is laid on its outermost shell.
        """
        if 0 < ratio < TINY:
            ratio, bath = 0.0, ratio * bath
        volumes, root, rates, ways = shells(self._plain, ratio)
        state = np.append(self.salt, [bath] if ratio else [])
        if not ratio:
            state[-1] += bath / volumes[-1]
        fading = np.exp(rates * way_mm2 / self._reach_mm**2)
        state = ways @ (fading * (ways.T @ (root * state))) / root
        self.salt = state[:SHELLS]
        return float(state[-1])

    @property
    def mean(self) -> float:
        """Salt per water of the whole body."""
        volumes = shells(self._plain, 0.0)[0]
        return float(volumes @ self.salt)

    @property
    def centre(self) -> float:
        """Salt per water at the place that is reached last."""
        return float(self.salt[0])


def left_after(
    plain: str, reach_mm: float, ratio: float, *, hours_h: float, change_h: float, mm2_per_h: float
) -> tuple[float, float]:
    """Share of the salt that is left in the body, and what all waters hold that it lay in, poured off or not."""
    body, poured = Body(plain, reach_mm, 1.0), 0.0
    for lasts_h in waters_h(hours_h, change_h):
        poured += ratio * body.lie(ratio, 0.0, lasts_h * mm2_per_h)
    return body.mean, poured


def waters_h(hours_h: float, change_h: float) -> Sequence[float]:
    """How long the piece lies in each water."""
    whole = int(hours_h / change_h + 1e-9)
    rest = hours_h - whole * change_h
    return [change_h] * whole + ([rest] if rest > 1e-9 else [])


def left_in_plenty(axes: Sequence[tuple[str, float]], way_mm2: float) -> float:
    """Share that is left of a body with several axes in a bath that never changes: the product of its axes (Newman)."""
    left = 1.0
    for plain, reach_mm in axes:
        body = Body(plain, reach_mm, 1.0)
        body.lie(ENDLESS, 0.0, way_mm2)
        left *= body.mean
    return left
