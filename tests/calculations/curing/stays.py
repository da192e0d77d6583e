"""Stays in a pickle, worked out without the service's formulas: by Laplace transform, and by Crank's series."""

import json
from collections.abc import Callable
from functools import lru_cache
from math import exp, pi
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq
from scipy.special import jn_zeros

from tests.calculations.curing.kitchen import nitrite_by_mass_balance_ppm, weight_g

Array = NDArray[Any]
Body = dict[str, Any]

MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
DAYS = {"s": 1 / 86_400, "min": 1 / 1440, "h": 1 / 24, "d": 1.0}
D_MM2_PER_D = 9.4e-10 * 86_400e6 * exp(35_000 / 8.314462618 * (1 / 277.15 - 1 / 278.15))
"""Salt in beef, upper end: 3.4e-6 m2/h (Polish Journal of Food and Nutrition Sciences 48(1):59, 1998); at 5 degC."""
MODES, NODES = 40, 16
NEAR = 0.004
"""How far two models of a share may lie apart: modes are cut off on both sides."""


def crank_slab_root(number: int, bath_ratio: float) -> float:
    """The root of tan q = -a q between this many half turns less a quarter, and this many half turns."""
    root: float = brentq(lambda q: np.sin(q) + bath_ratio * q * np.cos(q), (number - 0.5) * pi, number * pi)
    return root


def crank_slab_share(fourier: float, bath_ratio: float, *, terms: int = 200) -> float:
    """Uptake of a plane sheet from a stirred solution of limited volume, by its final uptake.

    1 - sum 2a(1+a)/(1+a+a2q2) exp(-q2 Fo), tan q = -a q (Crank 1975, section 4.3.5, from memory).
    """
    q2 = np.square([crank_slab_root(number, bath_ratio) for number in range(1, terms + 1)])
    weights = 2 * bath_ratio * (1 + bath_ratio) / (1 + bath_ratio + bath_ratio**2 * q2)
    return float(1 - (weights * np.exp(-q2 * fourier)).sum())


def temperature_c(stated: Body) -> float:
    """A temperature in degrees Celsius."""
    value, unit = stated["value"], stated["unit"]
    return float(value if unit == "degC" else (value - 32) / 1.8)


def mm(length: Body) -> float:
    """A length in millimetres."""
    return float(length["value"] * MM[length["unit"]])


def days(duration: Body) -> float:
    """A time in days."""
    return float(duration["value"] * DAYS[duration["unit"]])


def stay_in(body: Body) -> Body | None:
    """The stay of a request, where it states one."""
    method = body["method"]
    basis = method.get("basis") or method.get("cover") or {}
    stay: Body | None = basis.get("stay")
    return stay


def edges_mm(shape: Body, weight_g: float) -> tuple[float, float, float]:
    """Thickness, width and length of what is a block; a flat piece is taken for a bar as wide as it is thick."""
    thickness = mm(shape["thickness"])
    area = weight_g / 1.06e-3 / thickness
    if shape["kind"] == "slab":
        return thickness, thickness, min(area / thickness, 2000)
    length = mm(shape["length"])
    return thickness, mm(shape["width"]) if shape["kind"] == "brick" else area / length, length


def ways_mm(shape: Body, weight_g: float) -> list[tuple[str, float]]:
    """How far it is from each pair of faces, all open, or from a round side, to the middle; shrunk to the weight."""
    if shape["kind"] in ("sphere", "cylinder"):
        along = [("slab", mm(shape["length"]) / 2)] if shape["kind"] == "cylinder" else []
        ways = [(shape["kind"], mm(shape["diameter"]) / 2), *along]
    else:
        ways = [("slab", edge / 2) for edge in edges_mm(shape, weight_g)]
    heavier = 1.0 if shape["kind"] in ("slab", "measured") else _volume_mm3(shape) * 1.06e-3 / weight_g
    return [(kind, reach_mm / max(heavier, 1) ** (1 / 3)) for kind, reach_mm in ways]


STEP_RESPONSES: dict[str, Callable[[Array], Array]] = {
    "slab": lambda x: np.tanh(x) / x,
    "cylinder": lambda x: 2 * _bessel_ratio(x) / x,
    "sphere": lambda x: 3 * (x / np.tanh(x) - 1) / x**2,
}
"""s times the transform of the mean after a step at the surface, of x = reach * sqrt(s / D)."""


def _bessel_ratio(x: Array) -> Array:
    """I1 / I0 of a complex number, by its continued fraction."""
    ratio = np.zeros_like(x)
    for n in range(400, 0, -1):
        ratio = 1 / (2 * n / x + ratio)
    return ratio


def _fading(kind: str, reach_mm: float) -> tuple[Array, Array]:
    """Shares and rates at which one axis comes to a step at its surface."""
    roots: Array = jn_zeros(0, MODES) if kind == "cylinder" else (np.arange(MODES) + 0.5) * pi
    shares: Array = (4 if kind == "cylinder" else 2) / np.square(roots)
    return shares, np.square(roots / reach_mm)


def _response(ways: list[tuple[str, float]], s: Array) -> Array:
    """s times the transform of the mean after a step at the surface; what fades multiplies over the axes."""
    if len(ways) == 1:
        kind, reach_mm = ways[0]
        return STEP_RESPONSES[kind](reach_mm * np.sqrt(s))
    shares: Array = np.ones(1)
    rates: Array = np.zeros(1)
    for kind, reach_mm in ways:
        more, faster = _fading(kind, reach_mm)
        shares, rates = np.outer(shares, more).ravel(), np.add.outer(rates, faster).ravel()
    return np.array([1 - (shares * one / (one + rates)).sum() for one in s])


def share_by_transform(ways: list[tuple[str, float]], bath_ratio: float, reach_mm2: float) -> float:
    """Share of the final uptake from a limited bath, by fixed Talbot inversion (Abate and Valko 2004, from memory).

    Bath and piece keep their salt: C = a / (s (a + g)), mean = g C, where s M(s) = g answers a step at the surface.
    """
    turns = np.arange(1, NODES) * pi / NODES
    cot = 1 / np.tan(turns)
    s = np.append(2 * NODES / 5 + 0j, 2 * NODES / 5 * turns * (cot + 1j))
    weights = np.append(0.5 * np.exp(s[0]), (1 + 1j * turns * (1 + cot**2) - 1j * cot) * np.exp(s[1:]))
    at: Array = s / reach_mm2
    g = _response(ways, at)
    transform = (1 + bath_ratio) * g / (at * (bath_ratio + g))
    return float(2 / (5 * reach_mm2) * (weights * transform).real.sum())


def share_of(body: Body) -> float | None:
    """How far the pieces of a request have gone when they come out; None for a stay that is none."""
    stay = stay_in(body)
    if stay is None or any(is_so(body) for is_so in NO_STAYS.values()):
        return None
    meat_g, water_g = weight_g(body["meat"]), weight_g(body["method"]["water"])
    pumped_g = meat_g * body["method"].get("pump_percent", 0) / 100
    ratio = max(water_g - pumped_g, 0) / (0.75 * meat_g + pumped_g)
    lasts_d = max(days(stay["lasts"]), days(body["cured_for"]) if "cured_for" in body else 0)
    return _share(json.dumps(stay["shape"]), meat_g / stay.get("pieces", 1), ratio, lasts_d)


@lru_cache(4096)
def _share(shape: str, weight_g: float, ratio: float, lasts_d: float) -> float:
    if ratio < 0.01:
        return 1.0
    return min(max(share_by_transform(ways_mm(json.loads(shape), weight_g), ratio, lasts_d * D_MM2_PER_D), 0.0), 1.0)


def readings_ppm(body: Body, weighed: dict[str, float]) -> dict[str, float]:
    """Nitrite by mass balance; after_stay, the most that can be in the piece then: from the pump towards the vessel."""
    readings, share = nitrite_by_mass_balance_ppm(body, weighed), share_of(body)
    if share is None:
        return readings
    pump, basis = body["method"].get("pump_percent", 0), body["method"].get("basis") or body["method"]["cover"]
    pumped = readings["taken"] * pump / (pump + basis["percent"])
    moved = pumped + share * (readings["vessel"] - pumped)
    within = min(readings["vessel"], moved)
    return {**readings, "within_stay": within, "after_stay": max(within, min(readings["vessel"], readings["taken"]))}


def _weight_g(body: Body) -> float:
    return weight_g(body["meat"]) / float((stay_in(body) or {}).get("pieces", 1))


def _volume_mm3(shape: Body) -> float:
    if shape["kind"] == "sphere":
        return pi / 6 * mm(shape["diameter"]) ** 3
    if shape["kind"] == "cylinder":
        return pi / 4 * mm(shape["diameter"]) ** 2 * mm(shape["length"])
    return mm(shape["thickness"]) * mm(shape["width"]) * mm(shape["length"])


def _contradicts(body: Body) -> bool:
    shape = (stay_in(body) or {})["shape"]
    if shape["kind"] == "slab":
        return _weight_g(body) < 1.06e-3 * mm(shape["thickness"]) ** 3
    if shape["kind"] == "measured":
        return not 3 <= edges_mm(shape, _weight_g(body))[1] <= 2000
    return not 0.6 <= _volume_mm3(shape) * 1.06e-3 / _weight_g(body) <= 1.7


def _is_out_of_range(body: Body) -> bool:
    shape = (stay_in(body) or {})["shape"]
    if shape["kind"] in ("sphere", "cylinder"):
        sizes = [mm(shape["diameter"])] + ([mm(shape["length"])] if shape["kind"] == "cylinder" else [])
    else:
        sizes = [mm(shape["thickness"])] if shape["kind"] == "slab" else list(edges_mm(shape, _weight_g(body)))
    if not 3 <= min(sizes) <= 500:
        return True
    faces = 2 if shape["kind"] != "slab" else shape.get("open_faces", 2)
    return max(sizes) / faces > 2000


NO_STAYS: dict[str, Callable[[Body], bool]] = {
    "too_warm": lambda body: temperature_c((stay_in(body) or {})["temperature"]) > 5,
    "too_cold": lambda body: temperature_c((stay_in(body) or {})["temperature"]) < -1,
    "stage_too_long": lambda body: days((stay_in(body) or {})["lasts"]) > 400,
    "shape_contradicts_weight": _contradicts,
    "size_out_of_range": _is_out_of_range,
}
"""Why a stay cannot be reckoned with, seen from the request alone."""
