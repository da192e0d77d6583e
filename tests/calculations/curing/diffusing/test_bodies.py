"""Blocks and short cylinders: products of modes, gathered, against the product solution and an integral of Duhamel."""

from functools import reduce

import numpy as np
import pytest

from service.calculations.curing.diffusing.axes import modes_of
from service.calculations.curing.diffusing.bodies import body_of
from service.calculations.curing.diffusing.exchange import Endless, Limited
from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE, SURFACE

DAY_MM2 = 21.6
"""Diffusivity times a day, at 2.5e-10 m2/s."""
BLOCKS = [(30, 60, 110), (30, 30, 30), (25, 100, 300), (40, 60, 60), (12, 15, 90)]


def steps(half_edges_mm: tuple[float, ...], reaches_mm2: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Mean and middle of a block after a step of 1 on its surface: Newman's product of slabs, 150 terms each."""
    odd = 2 * np.arange(150)[:, None] + 1
    means, middles = [], []
    for half_mm in half_edges_mm:
        fade = np.exp(-((odd * np.pi / 2 / half_mm) ** 2) * reaches_mm2)
        means.append((8 / np.pi**2 / odd**2 * fade).sum(axis=0))
        middles.append((4 / np.pi * (-1.0) ** (odd // 2) / odd * fade).sum(axis=0))
    return 1 - reduce(np.multiply, means), 1 - reduce(np.multiply, middles)


def duhamel(half_edges_mm: tuple[float, ...], bath_ratio: float, last_mm2: float) -> tuple[np.ndarray, ...]:
    """Reaches, mean and middle in a limited bath of strength 1: the bath's fall as a row of small steps.

    Nothing of the service: the strength of the bath follows from ratio * (1 - C) = mean, where mean is the sum of the
    answers to all steps so far (Duhamel's integral, as in Carslaw and Jaeger 1959, section 1.14, from memory).
    """
    reaches = last_mm2 * np.linspace(0, 1, 301) ** 2
    fall = np.zeros_like(reaches)
    fall[0] = 1.0
    for now in range(1, len(reaches)):
        ages = reaches[now] - (reaches[: now - 1] + reaches[1:now]) / 2
        later = steps(half_edges_mm, np.append(reaches[now], ages))[0]
        gained = later[0] + (fall[1:now] * later[1:]).sum()
        age = (reaches[now] - reaches[now - 1]) / 2
        last = steps(half_edges_mm, np.array([age]))[0][0]
        fall[now] = (bath_ratio * (1 - fall[:now].sum()) - gained) / (bath_ratio + last)
    at = np.searchsorted(reaches, last_mm2 * np.array([0.1, 0.25, 0.5, 1.0]))
    ages = [reaches[one] - np.append(0.0, (reaches[:one] + reaches[1 : one + 1]) / 2) for one in at]
    told = [
        [(fall[: one + 1] * row).sum() for row in steps(half_edges_mm, age)] for one, age in zip(at, ages, strict=True)
    ]
    return reaches[at], *np.array(told).T


@pytest.mark.parametrize("half_edges_mm", BLOCKS)
def test_a_block_in_an_endless_bath_is_newmans_product(half_edges_mm):
    """From six hours on the middle is within 0.002 and the mean within 0.001 of the product of slab series."""
    body = body_of([modes_of("slab", profile=False).sized(half_mm) for half_mm in half_edges_mm])
    reaches = DAY_MM2 * np.array([0.25, 0.5, 1, 3, 7, 14, 28, 60])

    told = Endless(body).relaxation(np.zeros(len(body.rates)), strength_ratio=1.0).at(reaches)
    means, middles = steps(half_edges_mm, reaches)

    assert told[MEAN] == pytest.approx(means, abs=1e-3)
    assert told[MIDDLE] == pytest.approx(middles, abs=2e-3)


@pytest.mark.parametrize(("half_edges_mm", "bath_ratio"), [((30, 60, 110), 0.8), ((20, 25, 30), 0.3), ((40, 90), 2.0)])
def test_a_block_in_a_limited_bath_is_duhamels_integral(half_edges_mm, bath_ratio):
    """Where the product of limited-bath solutions would be wrong: within 0.003."""
    body = body_of([modes_of("slab", profile=False).sized(half_mm) for half_mm in half_edges_mm])
    reaches, means, middles = duhamel(half_edges_mm, bath_ratio, 0.5 * half_edges_mm[0] ** 2)

    relaxation = Limited(body, bath_ratio).relaxation(np.zeros(len(body.rates)), salt_ratio=bath_ratio)
    told = relaxation.at(reaches)

    assert told[MEAN] == pytest.approx(means, abs=3e-3)
    assert told[MIDDLE] == pytest.approx(middles, abs=3e-3)
    assert bath_ratio * told[SURFACE] + told[MEAN] == pytest.approx(bath_ratio, abs=1e-9)


def test_edges_drain_a_bath_early():
    """At one bath ratio the centre of a cube lags that of a slab in share of the final value late in the cure, or leads
    it early: the product of limited-bath solutions knows neither, so it is not used."""
    slab, cube = (body_of([modes_of("slab", profile=False).sized(30)] * axes) for axes in (1, 3))
    reach = np.array([0.2 * 30**2])

    middles = [
        Limited(body, 0.5).relaxation(np.zeros(len(body.rates)), salt_ratio=0.5).at(reach)[MIDDLE, 0]
        for body in (slab, cube)
    ]
    surfaces = [
        Limited(body, 0.5).relaxation(np.zeros(len(body.rates)), salt_ratio=0.5).at(reach)[SURFACE, 0]
        for body in (slab, cube)
    ]

    assert surfaces[1] < surfaces[0]
    assert middles[1] > middles[0]


def test_a_short_cylinder_is_faster_than_a_long_one():
    """Ends that the cure reaches help, and the more the shorter it is."""
    side = modes_of("cylinder", profile=False).sized(40)
    ends = [modes_of("slab", profile=False).sized(half_mm) for half_mm in (40, 80, 400)]

    middles = [
        Endless(body).relaxation(np.zeros(len(body.rates)), strength_ratio=1.0).at(np.array([400.0]))[MIDDLE, 0]
        for body in (*(body_of([side, end]) for end in ends), side)
    ]

    assert middles[0] > middles[1] > middles[2]
    assert middles[2] == pytest.approx(middles[3], abs=1e-3)


def test_every_sum_of_shares_is_one():
    """Of the mean, of the middle and of every place: a mode that is left out would make a centre negative."""
    body = body_of([modes_of("slab", profile=True).sized(half_mm) for half_mm in (30, 60, 110)])

    assert body.weights.sum(axis=1) == pytest.approx(np.ones(len(body.weights)), abs=1e-12)
    assert all(np.diff(body.rates) > 0)
