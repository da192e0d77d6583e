"""A rest of blocks and short cylinders, against the product of closed bodies, which nothing leaves."""

from math import inf

import numpy as np
import pytest
from scipy.special import j0, j1, jn_zeros

from service.calculations.curing.diffusing.axes import modes_of
from service.calculations.curing.diffusing.bodies import body_of
from service.calculations.curing.diffusing.course import Course, Leg
from service.calculations.curing.diffusing.exchange import Endless
from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE
from service.calculations.curing.diffusing.resting import Rest
from service.calculations.curing.pieces import Axis

PER_DAY = 21.6
"""Diffusivity at 2.5e-10 m2/s, mm2 a day."""


def closed_slab(fourier_in: float, fourier: np.ndarray) -> np.ndarray:
    """What is left of the gap in the middle of a slab: opened for so long, then closed; 400 terms and 4,000 places."""
    places = (np.arange(4000) + 0.5) / 4000
    odd = (np.arange(400) + 0.5)[:, None] * np.pi
    gap = (2 * (-1.0) ** np.arange(400)[:, None] / odd * np.exp(-(odd**2) * fourier_in) * np.cos(odd * places)).sum(
        axis=0
    )
    numbers = np.arange(1, 200)[:, None]
    parts = 2 * (gap * np.cos(numbers * np.pi * places)).mean(axis=1)[:, None]
    return gap.mean() + (parts * np.exp(-((numbers * np.pi) ** 2) * fourier)).sum(axis=0)


def closed_cylinder(fourier_in: float, fourier: np.ndarray) -> np.ndarray:
    """The same of a cylinder, across."""
    radii = (np.arange(4000) + 0.5) / 4000
    roots = jn_zeros(0, 200)[:, None]
    gap = (2 / (roots * j1(roots)) * np.exp(-(roots**2) * fourier_in) * j0(roots * radii)).sum(axis=0)
    closed = jn_zeros(1, 100)[:, None]
    parts = (2 * (gap * radii * j0(closed * radii)).mean(axis=1) / j0(closed[:, 0]) ** 2)[:, None]
    return 2 * (gap * radii).mean() + (parts * np.exp(-(closed**2) * fourier)).sum(axis=0)


CLOSED = {"slab": closed_slab, "cylinder": closed_cylinder}
PIECES = [
    (("slab", 30.0), ("slab", 45.0), ("slab", 100.0)),
    (("slab", 25.0), ("slab", 75.0), ("slab", 125.0)),
    (("slab", 20.0), ("slab", 60.0)),
    (("cylinder", 40.0), ("slab", 60.0)),
    (("cylinder", 37.5), ("slab", 145.0)),
]


@pytest.mark.parametrize("axes", PIECES)
@pytest.mark.parametrize("tub_d", [0.5, 2.0, 6.0])
def test_a_rest_lets_nothing_pass_any_face(axes, tub_d):
    """After a tub of strength 1 each axis goes its own way: the middle is 1 less the product of their gaps.

    Carslaw and Jaeger, Conduction of Heat in Solids, 1959, section 5.6, products of solutions (from memory); within
    0.015 in the first day, 0.003 from the third on.
    """
    piece = tuple(Axis(plain, reach_mm) for plain, reach_mm in axes)
    body = body_of([modes_of(one.plain, profile=False).sized(one.reach_mm) for one in piece])
    legs = [Leg(Endless(body), 1.0, PER_DAY, 0.0, tub_d), Leg(Rest(body, piece), 0.0, PER_DAY, 0.0, inf)]
    days = np.array([0.5, 1, 3, 10, 30, 100])

    told = Course(body.weights, legs, even_ratio=0.0).at(tub_d + days)

    gaps = [CLOSED[plain](PER_DAY * tub_d / reach**2, PER_DAY * days / reach**2) for plain, reach in axes]
    right = 1 - np.prod(gaps, axis=0)
    assert told[MIDDLE, 2:] == pytest.approx(right[2:], abs=3e-3)
    assert told[MIDDLE, :2] == pytest.approx(right[:2], abs=1.5e-2)
    assert told[MEAN] == pytest.approx(told[MEAN, 0], abs=1e-12)


def test_a_rest_goes_on_where_the_bath_ended():
    """In its first moment nothing has moved."""
    piece = (Axis("slab", 30.0), Axis("slab", 45.0), Axis("slab", 100.0))
    body = body_of([modes_of(one.plain, profile=True).sized(one.reach_mm) for one in piece])
    legs = [Leg(Endless(body), 1.0, PER_DAY, 0.0, 3.0), Leg(Rest(body, piece), 0.0, PER_DAY, 0.0, inf)]

    before, after = Course(body.weights, legs, even_ratio=0.0).at(np.array([3.0, 3.0 + 1e-9])).T

    assert after[:-2] == pytest.approx(before[:-2], abs=4e-3)
