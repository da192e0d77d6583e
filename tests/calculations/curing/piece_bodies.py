"""Pieces to ask for, and what a piece is by its request: axes, open faces, whether its size goes with its weight."""

from math import pi
from random import Random
from typing import Any

from tests.calculations.measures.pantry import GRAMS

MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "ft": 304.8, "m": 1000.0}
G_PER_MM3 = 1.06e-3
"""Lean meat, about 1.06 g/ml (Choi and Okos 1986, from memory)."""


def length(random: Random, mm: float) -> dict[str, Any]:
    """A length as somebody writes it."""
    unit = random.choice(["mm", "cm", "in"])
    return {"value": mm / MM[unit], "unit": unit}


def mass(random: Random, g: float) -> dict[str, Any]:
    """A weight as somebody writes it."""
    unit = random.choice(["g", "kg", "oz", "lb"] if g > 5 else ["g", "oz"])
    return {"value": g / GRAMS[unit], "unit": unit}


def temperature(random: Random, least_c: float = -0.9, most_c: float = 4.9) -> dict[str, Any]:
    """A cold as somebody reads it."""
    at_c = random.uniform(least_c, most_c)
    return random.choice([{"value": at_c, "unit": "degC"}, {"value": at_c * 1.8 + 32, "unit": "degF"}])


def lawful_piece(random: Random, thinnest_mm: float = 12, thickest_mm: float = 60) -> tuple[dict[str, Any], float]:
    """A shape and the weight of one piece of it."""
    thick_mm = random.uniform(thinnest_mm, thickest_mm)
    wide_mm, long_mm = thick_mm * random.uniform(1, 3), thick_mm * random.uniform(2, 5)
    kind = random.choice(["slab", "cylinder", "sphere", "brick", "measured"])
    fields: dict[str, Any] = {"kind": kind}
    volume_mm3 = thick_mm * wide_mm * long_mm
    if kind in ("slab", "brick", "measured"):
        fields["thickness"] = length(random, thick_mm)
    if kind in ("cylinder", "brick", "measured"):
        fields["length"] = length(random, long_mm)
    if kind in ("cylinder", "sphere"):
        fields["diameter"] = length(random, thick_mm)
        volume_mm3 = pi / 4 * thick_mm**2 * long_mm if kind == "cylinder" else pi / 6 * thick_mm**3
    if kind == "brick":
        fields["width"] = length(random, wide_mm)
    least = 1.0 if kind == "slab" else 0.9
    return {**fields, **_faces(random, kind)}, volume_mm3 * G_PER_MM3 * random.uniform(least, 1.1)


def _faces(random: Random, kind: str) -> dict[str, Any]:
    if kind == "slab" and random.random() < 0.5:
        return {"open_faces": random.choice([1, 2])}
    if kind == "cylinder" and random.random() < 0.5:
        return {"open_ends": random.choice([0, 1, 2])}
    if kind in ("brick", "measured") and random.random() < 0.5:
        return {"open_faces": {"top_and_bottom": random.choice([1, 2]), "ends": random.choice([0, 1, 2])}}
    return {}


def piece_g(body: dict[str, Any]) -> float:
    """What one piece weighs."""
    return float(body["meat"]["value"] * GRAMS[body["meat"]["unit"]] / body.get("pieces", 1))


def axes_of(body: dict[str, Any]) -> list[tuple[str, float]]:
    """Each open pair of faces, or round side, and the way to the place that is reached last; the shortest first."""
    return sorted(_axes(body), key=lambda axis: axis[1])


def _axes(body: dict[str, Any]) -> list[tuple[str, float]]:
    shape, kind = body["shape"], body["shape"]["kind"]
    mm = {name: _mm(one) for name, one in shape.items() if isinstance(one, dict) and "unit" in one}
    if kind == "sphere":
        return [("sphere", mm["diameter"] / 2)]
    if kind == "slab":
        return [("slab", mm["thickness"] / shape.get("open_faces", 2))]
    if kind == "cylinder":
        ends = shape.get("open_ends", 2)
        return [("cylinder", mm["diameter"] / 2), *([("slab", mm["length"] / ends)] if ends else [])]
    width_mm = mm.get("width") or piece_g(body) / G_PER_MM3 / (mm["thickness"] * mm["length"])
    edges = {"top_and_bottom": mm["thickness"], "sides": width_mm, "ends": mm["length"]}
    faces = {name: shape.get("open_faces", {}).get(name, 2) for name in edges}
    return [("slab", edge / faces[name]) for name, edge in edges.items() if faces[name]]


def _mm(stated: dict[str, Any]) -> float:
    return float(stated["value"] * MM[stated["unit"]])


def block_g(body: dict[str, Any]) -> float | None:
    """What a body of the stated size weighs; None where the size says nothing of the weight."""
    shape = body["shape"]
    if shape["kind"] == "cylinder":
        return pi / 4 * _mm(shape["diameter"]) ** 2 * _mm(shape["length"]) * G_PER_MM3
    if shape["kind"] == "sphere":
        return pi / 6 * _mm(shape["diameter"]) ** 3 * G_PER_MM3
    if shape["kind"] == "brick":
        return _mm(shape["thickness"]) * _mm(shape["width"]) * _mm(shape["length"]) * G_PER_MM3
    return None


def is_no_piece(body: dict[str, Any], code: str) -> bool | None:
    """Whether a refusal of a piece is true; None where the code is about something else."""
    shape, axes = body["shape"], axes_of(body)
    sizes = [_mm(one) for one in shape.values() if isinstance(one, dict) and "unit" in one]
    if code == "nothing_open":
        return not axes
    if code == "size_out_of_range":
        return min(sizes) < 3 or max(sizes, default=0) > 500 or max(reach for _, reach in axes) > 2000
    if code == "shape_contradicts_weight":
        return _is_other_than_its_weight(body)
    return None


def _is_other_than_its_weight(body: dict[str, Any]) -> bool:
    """A measured piece would have no width, a body of the size another weight, a slab would be thicker than wide."""
    shape, block = body["shape"], block_g(body)
    if shape["kind"] == "measured":
        return not 3 <= piece_g(body) / G_PER_MM3 / (_mm(shape["thickness"]) * _mm(shape["length"])) <= 2000
    if shape["kind"] == "slab":
        return piece_g(body) < _mm(shape["thickness"]) ** 3 * G_PER_MM3
    return block is not None and not 0.6 <= block / piece_g(body) <= 1.7
