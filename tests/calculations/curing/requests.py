"""Strategies: dose requests over the whole schema, leaning towards what a kitchen may lawfully ask."""

from typing import Any

from hypothesis import strategies as st

from tests.calculations.curing.lawful import lawful_body

masses = st.builds(
    lambda value, unit: {"value": value, "unit": unit},
    st.floats(0.001, 1e6) | st.floats(0.5, 50),
    st.sampled_from(["g", "kg", "oz", "lb"]),
)
kitchen_masses = st.builds(
    lambda value, unit: {"value": round(value, 3), "unit": unit}, st.floats(1, 60), st.sampled_from(["kg", "lb"])
)
waters = kitchen_masses | st.builds(
    lambda value, unit: {"value": value, "unit": unit},
    st.floats(0.001, 1e6) | st.floats(1, 30),
    st.sampled_from(["ml", "l", "qt", "gal"]),
)
uptakes = st.floats(4, 60)
lengths = st.builds(lambda v, u: {"value": v, "unit": u}, st.floats(0.5, 300), st.sampled_from(["mm", "cm", "in"]))
open_faces = st.sampled_from([0, 1, 2, 2])
shapes = st.one_of(
    st.builds(lambda t: {"kind": "slab", "thickness": t}, lengths),
    st.builds(lambda d: {"kind": "sphere", "diameter": d}, lengths),
    st.builds(
        lambda d, n, f: {"kind": "cylinder", "diameter": d, "length": n, "open_ends": f}, lengths, lengths, open_faces
    ),
    st.builds(
        lambda t, n, f: {"kind": "measured", "thickness": t, "length": n, "open_faces": {"sides": f, "ends": f}},
        lengths,
        lengths,
        open_faces,
    ),
)
stays = st.builds(
    lambda shape, temperature, lasts, unit: {
        "shape": shape,
        "pieces": 1,
        "temperature": {"value": temperature, "unit": "degC"},
        "lasts": {"value": lasts, "unit": unit},
    },
    shapes,
    st.floats(-1.5, 5.5),
    st.floats(0.5, 30) | st.floats(0.1, 410),
    st.sampled_from(["d", "h"]),
)
pick_ups = st.builds(lambda p: {"kind": "pick_up", "percent": p}, uptakes)
bases = (
    st.just({"kind": "equilibrium"})
    | pick_ups
    | st.builds(lambda basis, stay: {**basis, "stay": stay}, pick_ups, stays)
)
methods = st.one_of(
    st.just({"kind": "dry"}),
    st.just({"kind": "comminuted"}),
    st.builds(lambda w: {"kind": "comminuted", "water": w}, waters),
    st.builds(lambda w, b: {"kind": "immersion", "water": w, "basis": b}, waters, bases),
    st.builds(lambda w, p: {"kind": "injected", "water": w, "pump_percent": p}, waters, uptakes),
    st.builds(
        lambda w, p, b: {"kind": "injected_then_covered", "water": w, "pump_percent": p, "cover": b},
        waters,
        uptakes,
        bases,
    ),
)
finishes: Any = st.sampled_from(
    [{}, {"finish": "cooked"}, {"finish": "matured"}, {"finish": "fresh"}, {"finish": "sterilised"}]
)
storages: Any = st.sampled_from([{}, {"storage": "shelf_stable"}, {"storage": "keep_frozen"}])
kinds: Any = st.one_of(
    st.builds(lambda s: {"kind": "whole_muscle", "species": s}, st.sampled_from(["pork", "beef", "lamb", "game"])),
    st.just({"kind": "sausage", "species": "pork", "for_infants": True}),
    st.builds(lambda s: {"kind": "bacon", "skin": s}, st.sampled_from(["on", "off"])),
    st.builds(lambda m: {"kind": "bacon", "skin": "on", "skin_free": m}, kitchen_masses),
    st.just({"kind": "sausage", "species": "mixed"}),
    st.builds(lambda c: {"kind": "corned_beef", "cut": c}, st.sampled_from(["brisket", "round", "other"])),
    st.just({"kind": "poultry", "species": "turkey"}),
)
products = st.builds(lambda kind, finish, storage: {**kind, **finish, **storage}, kinds, finishes, storages)
strengths = st.floats(0.1, 10) | st.sampled_from([6.25, 6.25, 6.25, 5.88, 0.5])
curing_salts = st.builds(
    lambda salt, percent, nitrate, sugar: {
        "nitrite": {"salt": salt, "percent": percent},
        "strength_on_label": True,
        **({"nitrate": {"salt": "sodium_nitrate", "percent": nitrate}} if nitrate else {}),
        "sugar_percent": sugar,
    },
    st.sampled_from(["sodium_nitrite"] * 4 + ["potassium_nitrite"]),
    strengths,
    st.sampled_from([None, None, None, 4.0]),
    st.sampled_from([0, 0, 12.5]),
)
targets = st.one_of(
    st.builds(lambda ppm: {"kind": "ingoing_nitrite", "ppm": ppm}, st.floats(1, 1000)),
    st.builds(
        lambda ppm: {"kind": "ingoing_nitrite", "ppm": ppm}, st.sampled_from([120, 125, 140, 150, 156.25, 200, 119.98])
    ),
    st.builds(lambda percent: {"kind": "curing_salt", "percent": percent}, st.floats(0.05, 10) | st.just(0.25)),
)
accelerators = st.builds(
    lambda kind, ppm: {"kind": kind, "ppm": ppm},
    st.sampled_from(["sodium_erythorbate", "sodium_erythorbate_monohydrate", "sodium_ascorbate", "ascorbic_acid"]),
    st.sampled_from([550, 500, 450]) | st.floats(50, 2000),
)
steps = st.builds(
    lambda value, unit: {"value": value, "unit": unit},
    st.sampled_from([0.001, 0.01, 0.1, 0.5, 1]) | st.floats(0.001, 5),
    st.sampled_from(["g", "g", "oz"]),
)


@st.composite
def wild_requests(draw: st.DrawFn) -> dict[str, Any]:
    """Any dose the schema allows; few of them keep the law."""
    optional: dict[str, st.SearchStrategy[Any]] = {
        "salt_percent": st.floats(0.1, 20) | st.floats(1.5, 3),
        "sugar_percent": st.floats(0.05, 20) | st.just(1),
        "accelerator": accelerators,
        "stock_powder": st.builds(lambda m, p: {"mass": m, "salt_percent": p}, masses, st.floats(1, 95)),
        "other_ingredients": masses,
        "dissolved_ingredients": masses | kitchen_masses,
    }
    chosen = {name: draw(values) for name, values in optional.items() if draw(st.integers(0, 3)) == 0}
    return {
        "jurisdiction": draw(st.sampled_from(["US", "US", "US", "CA", "EU", "DK", "GB"])),
        "on": draw(st.sampled_from(["2026-12-01", "2025-10-08", "2024-02-29"])),
        "product": draw(products),
        "meat": draw(kitchen_masses | masses),
        "method": draw(methods),
        "curing_salt": draw(curing_salts),
        "target": draw(targets),
        "scale_step": draw(steps),
        **chosen,
    }


def lawful_requests() -> st.SearchStrategy[dict[str, Any]]:
    """A dose that its place allows (or misses by a hair)."""
    return st.randoms(use_true_random=False).map(lawful_body)


def dose_requests() -> st.SearchStrategy[dict[str, Any]]:
    """Doses over the whole schema, two in three of them meant to be lawful."""
    return lawful_requests() | lawful_requests() | wild_requests()
