"""Strategies: dose requests over the whole schema, leaning towards what a kitchen may lawfully ask."""

from typing import Any

from hypothesis import strategies as st

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
bases = st.just({"kind": "equilibrium"}) | st.builds(lambda p: {"kind": "pick_up", "percent": p}, uptakes)
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
    st.builds(lambda s: {"kind": "whole_muscle", "species": s}, st.sampled_from(["pork", "beef", "game"])),
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
    lambda kind, ppm, form: {"kind": kind, "ppm": ppm, "form": form},
    st.sampled_from(["sodium_erythorbate", "sodium_ascorbate", "ascorbic_acid"]),
    st.sampled_from([550, 500, 450]) | st.floats(50, 2000),
    st.sampled_from(["anhydrous", "monohydrate"]),
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


# Ingoing ppm that each place, product and method allows, written down from the texts and not read from the rules:
# 9 CFR 424.21(c), 424.22(b) and the 120 ppm policy; Health Canada's list; Regulations (EU) 1129/2011 and 2023/2108.
LAWFUL_PPM = {
    ("US", "piece", "dry"): (121, 625),
    ("US", "piece", "comminuted"): (121, 156.25),
    ("US", "piece", "wet"): (121, 199),
    ("US", "bacon", "dry"): (121, 200),
    ("US", "bacon", "wet"): (120, 120),
    ("CA", "piece", "dry"): (125, 199),
    ("CA", "piece", "comminuted"): (125, 199),
    ("CA", "piece", "wet"): (150, 199),
    ("EU", "piece", "dry"): (40, 119),
    ("EU", "piece", "comminuted"): (40, 119),
    ("EU", "piece", "wet"): (40, 119),
    ("DK", "piece", "dry"): (30, 60),
}


@st.composite
def lawful_methods(draw: st.DrawFn, way: str, meat: dict[str, Any]) -> dict[str, Any]:
    """A method whose pickle suffices and whose vessel keeps the guard on the whole system."""
    if way != "wet":
        return {"kind": way}
    water = {"value": meat["value"] * draw(st.floats(0.4, 0.8)), "unit": meat["unit"]}
    pump = draw(st.floats(8, 25))
    return draw(
        st.sampled_from(
            [
                {"kind": "immersion", "water": water, "basis": {"kind": "equilibrium"}},
                {"kind": "immersion", "water": water, "basis": {"kind": "pick_up", "percent": 30}},
                {"kind": "injected", "water": water, "pump_percent": pump},
                {
                    "kind": "injected_then_covered",
                    "water": water,
                    "pump_percent": pump,
                    "cover": {"kind": "equilibrium"},
                },
            ]
        )
    )


@st.composite
def lawful_requests(draw: st.DrawFn) -> dict[str, Any]:
    """A dose that its place allows (or misses by a hair): at least half of what is fuzzed is drawn from here."""
    place, what, way = draw(st.sampled_from(sorted(LAWFUL_PPM)))
    low, high = LAWFUL_PPM[place, what, way]
    meat = draw(kitchen_masses)
    method = draw(lawful_methods(way, meat))
    pumped_bacon = what == "bacon" and method["kind"].startswith("injected")
    bacon = {"kind": "bacon", "skin": draw(st.sampled_from(["on", "off"]))}
    piece = {"kind": draw(st.sampled_from(["whole_muscle", "sausage" if way == "comminuted" else "whole_muscle"]))}
    product = bacon if what == "bacon" else {**piece, "species": "pork"}
    body: dict[str, Any] = {
        "jurisdiction": place,
        "on": "2026-12-01",
        "product": {**product, "finish": "cooked"},
        "meat": meat,
        "method": method,
        "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": draw(st.sampled_from([6.25, 5.88, 4.0]))}},
        "target": {"kind": "ingoing_nitrite", "ppm": draw(st.floats(low, high))},
        "scale_step": {"value": draw(st.sampled_from([0.001, 0.005])), "unit": "g"},
    }
    if pumped_bacon:
        body["accelerator"] = {
            "kind": "sodium_erythorbate",
            "ppm": 550,
            "form": draw(st.sampled_from(["anhydrous", "monohydrate"])),
        }
    if draw(st.booleans()):
        body["salt_percent"] = (
            draw(st.floats(1.6, 3)) if way != "wet" or "basis" in method else draw(st.floats(1.1, 1.4))
        )
    return body


def dose_requests() -> st.SearchStrategy[dict[str, Any]]:
    """Doses over the whole schema, two in three of them meant to be lawful."""
    return lawful_requests() | lawful_requests() | wild_requests()
