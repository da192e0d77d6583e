"""Plain bodies in an endless and in a limited bath, against Crank's printed and worked values."""

import numpy as np
import pytest
from scipy.optimize import brentq

from service.calculations.curing.diffusing.axes import Modes, modes_of
from service.calculations.curing.diffusing.exchange import Endless, Limited
from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE, Relaxation

CRANK = "Crank, The Mathematics of Diffusion, 2nd ed. 1975, chapters 4 to 6; evaluated with 400 terms"
LIBRARY = "worked example in the reference pages of a public transport-kinetics library, citing Crank 1975, p. 48, 91"
ENDLESS = float("inf")


def modes(plain: str) -> Modes:
    return modes_of(plain, profile=False)


def from_unsalted(plain: str, bath_ratio: float) -> Relaxation:
    """A body of half thickness or radius 1, without salt, in a bath of strength 1."""
    body = modes(plain)
    state = np.zeros(len(body.rates))
    if bath_ratio == ENDLESS:
        return Endless(body).relaxation(state, strength_ratio=1.0)
    return Limited(body, bath_ratio).relaxation(state, salt_ratio=bath_ratio or 1.0)


def share(relaxation: Relaxation, row: int, fourier: float) -> float:
    return float(relaxation.row_at(row, np.array([fourier]))[0] / relaxation.final_ratio)


MEAN_UPTAKES = [
    # body, half thickness or radius in m, diffusivity in m2/s, seconds, share, source
    ("slab", 2e-4, 1e-10, 100, 0.562233541762138, LIBRARY),
    ("slab", 2e-4, 1e-11, 500, 0.39892798988456807, LIBRARY),
    ("sphere", 1e-4, 1e-11, 100, 0.7704787380259631, LIBRARY),
]


@pytest.mark.parametrize(("plain", "reach_m", "diffusivity_m2_s", "seconds", "expected", "source"), MEAN_UPTAKES)
def test_mean_uptake_from_an_endless_bath(plain, reach_m, diffusivity_m2_s, seconds, expected, source):
    """Published to fifteen digits; within 1e-6."""
    fourier = diffusivity_m2_s * seconds / reach_m**2

    assert share(from_unsalted(plain, ENDLESS), MEAN, fourier) == pytest.approx(expected, rel=1e-6)


# Crank 1975, appendix, table of the roots of tan q = -alpha q (from memory; each is checked in the equation as well).
ROOTS = [(9, 1.6385), (4, 1.7155), (1.5, 1.9071), (1, 2.0288), (0.666667, 2.1746), (0.25, 2.5704), (0.111111, 2.8363)]


@pytest.mark.parametrize(("bath_ratio", "root"), ROOTS)
def test_first_roots_of_a_limited_bath(bath_ratio, root):
    """The slowest rate of a slab in a limited bath is the square of the first root; within 0.0002."""
    slowest = np.sqrt(from_unsalted("slab", bath_ratio).rates[0])

    assert slowest == pytest.approx(root, abs=2e-4)
    assert np.tan(slowest) == pytest.approx(-bath_ratio * slowest, rel=1e-5)


SHARES = [
    # body, bath ratio, Fourier number, share of the final uptake, tolerance
    ("slab", 1.0, 0.25, 0.7659, 0.002),
    ("cylinder", 0.5, 0.25, 0.9732, 0.003),
    ("slab", 4.0, 0.5, 0.8237, 0.002),
    ("cylinder", 4.0, 0.5, 0.978, 0.003),
]


@pytest.mark.parametrize(("plain", "bath_ratio", "fourier", "expected", "tolerance"), SHARES)
def test_uptake_from_a_limited_bath(plain, bath_ratio, fourier, expected, tolerance):
    """Crank 1975, eq. 4.37 and 5.33 with 60 terms, cross-checked by finite volumes."""
    assert share(from_unsalted(plain, bath_ratio), MEAN, fourier) == pytest.approx(expected, abs=tolerance)


# Fourier numbers at which the centre has 50, 80, 90 and 95 percent of the final value: the same series, worked out
# elsewhere with 60 terms and cross-checked by finite volumes; printed to three digits. Ratio 0 is salt laid on.
CENTRES = {
    ("slab", 0): (0.139, 0.233, 0.304, 0.374), ("slab", 0.25): (0.191, 0.331, 0.436, 0.541),
    ("slab", 1): (0.263, 0.486, 0.655, 0.823), ("slab", 4): (0.333, 0.644, 0.880, 1.115),
    ("slab", ENDLESS): (0.379, 0.750, 1.031, 1.312), ("cylinder", 0): (0.107, 0.171, 0.219, 0.266),
    ("cylinder", 0.5): (0.140, 0.232, 0.299, 0.367), ("cylinder", 2): (0.171, 0.295, 0.388, 0.481),
    ("cylinder", ENDLESS): (0.201, 0.360, 0.480, 0.600), ("sphere", 0): (0.087, 0.135, 0.170, 0.204),
    ("sphere", 1): (0.114, 0.183, 0.233, 0.283), ("sphere", 4): (0.129, 0.213, 0.275, 0.337),
    ("sphere", ENDLESS): (0.139, 0.233, 0.304, 0.374),
}  # fmt: skip


@pytest.mark.parametrize(("plain", "bath_ratio"), CENTRES)
def test_when_the_centre_arrives(plain, bath_ratio):
    """Within half of the last printed digit."""
    relaxation = from_unsalted(plain, bath_ratio)

    found = [
        brentq(lambda fourier, wanted=wanted: share(relaxation, MIDDLE, fourier) - wanted, 1e-3, 9)
        for wanted in (0.5, 0.8, 0.9, 0.95)
    ]

    assert found == pytest.approx(CENTRES[plain, bath_ratio], abs=6e-4)


@pytest.mark.parametrize("fourier", [4e-6, 2e-5, 1e-4, 4e-4])
@pytest.mark.parametrize("plain", ["slab", "cylinder", "sphere"])
def test_at_first_uptake_grows_with_the_root_of_time(plain, fourier):
    """(2/sqrt(pi)) sqrt(D t) A/V for any body in a large bath (Crank 1975, eq. 4.20, from memory); within 3 percent.

    The least of these is half an hour of a piece 600 mm thick.
    """
    area_per_volume = {"slab": 1, "cylinder": 2, "sphere": 3}[plain]

    expected = 2 / np.sqrt(np.pi) * np.sqrt(fourier) * area_per_volume

    assert share(from_unsalted(plain, ENDLESS), MEAN, fourier) == pytest.approx(expected, rel=0.03)


@pytest.mark.parametrize("plain", ["slab", "cylinder", "sphere"])
def test_nothing_is_in_the_centre_at_first(plain):
    """Under salt that was laid on, whose surface is as strong as it likes at first, the centre has none for a while."""
    middles = from_unsalted(plain, 0).row_at(MIDDLE, np.geomspace(1e-7, 0.01, 40))

    assert np.abs(middles).max() < 0.005


def test_a_bath_beyond_measure_is_endless():
    """A million million times the water of the meat keeps its strength."""
    body = modes("slab")
    state, reaches = np.zeros(len(body.rates)), np.array([0.1, 0.5])

    huge = Limited(body, 5e12).relaxation(state, salt_ratio=5e12 * 0.07).at(reaches)

    assert huge == pytest.approx(Endless(body).relaxation(state, strength_ratio=0.07).at(reaches), rel=1e-5)


def test_a_profile_runs_from_the_centre_to_the_bath():
    """The first place is the middle, and the last is as strong as the bath."""
    body = modes_of("slab", profile=True)

    told = Endless(body).relaxation(np.zeros(len(body.rates)), strength_ratio=1.0).at(np.array([0.3]))[:, 0]

    assert told[2] == pytest.approx(told[MIDDLE])
    assert told[-2] == pytest.approx(1.0)
    assert all(np.diff(told[2:-1]) > 0)
