"""What the law says of weights, written down from the texts, and how a chain is held against it."""

from collections.abc import Iterator
from typing import Any

from tests.calculations.butchery.chain_shares import begins
from tests.calculations.measures.pantry import GRAMS

GAIN = {"brisket": ("us-cornedbeef-brisket-gain", 20), "tongue": ("us-tongue-gain", 10)}
"""9 CFR 319.101, 319.103; any other cut 319.100 and 319.102."""
NEAR = 1e-7


def rules_for(body: dict[str, Any]) -> dict[str, tuple[str, float | None]]:
    """Every rule on weight: what it measures, and its number (9 CFR part 319; other places are not held)."""
    standard = body.get("standard")
    if standard is None or standard["jurisdiction"] != "US":
        return {}
    product, sold_as = standard["product"], standard.get("sold_as")
    named: dict[str, tuple[str, float | None]] = {}
    if sold_as == "barbecued_meat":
        named["us-barbecue-weight"] = ("finished", 70)
    if sold_as == "country_ham":
        named["us-countryham-loss"] = ("lost", 18)
    if sold_as == "pastrami":
        named["us-pastrami"] = ("finished", None)
    if product["kind"] == "bacon":
        named["us-bacon-weight"] = ("finished", 100)
    return named | (_of_corned(body, product) if product["kind"] == "corned_beef" else {})


def _of_corned(body: dict[str, Any], product: dict[str, Any]) -> dict[str, tuple[str, float | None]]:
    cut, canned = product["cut"], product.get("finish") == "sterilised"
    id, most = GAIN.get(cut, ("us-cornedbeef-other-gain", 10))
    told: dict[str, tuple[str, float | None]] = {id: ("gained", most)}
    if canned:
        told["us-cornedbeef-canned"] = ("finished", 70)
    if cut != "tongue":
        if is_to_be_cooked(body):
            told[f"us-cornedbeef-{'brisket' if cut == 'brisket' else 'other'}-cooked"] = ("finished", 100)
        if not canned:
            told["us-cornedbeef-piece"] = ("piece", 1)
    return told


def is_to_be_cooked(body: dict[str, Any]) -> bool:
    """Whether the product is a cooked one."""
    return body["standard"]["product"].get("finish") in ("cooked", "sterilised") or _cooks(body)


def _cooks(body: dict[str, Any]) -> bool:
    return any(stage["kind"] == "cook" for stage in body["stages"])


def _places(body: dict[str, Any], measured: str) -> tuple[int, int] | None:
    """The points between which a figure is told."""
    kinds = [stage["kind"] for stage in body["stages"]]
    if begins(body) in ("cured", "cooked"):
        return None
    changed = [place for place, kind in enumerate(kinds) if kind in ("cure", "cook")]
    trims = [place + 1 for place, kind in enumerate(kinds) if kind == "trim"]
    green = changed[0] if changed else max(trims, default=0)
    if measured == "gained":
        cures = [place + 1 for place, kind in enumerate(kinds) if kind == "cure"]
        return (green, cures[-1]) if cures else None
    waits = is_to_be_cooked(body) or body["standard"].get("sold_as") == "barbecued_meat"
    if waits and not _cooks(body):
        return None
    end = changed[-1] + 1 if changed else 0
    while end < len(kinds) and kinds[end] != "slice":
        end += 1
    return (green, end) if end >= green else None


def _figure(measured: str, fraction: float) -> float:
    return {"gained": 100 * (fraction - 1), "lost": 100 * (1 - fraction), "finished": 100 * fraction}[measured]


def faults_of_law(
    body: dict[str, Any], told: dict[str, Any], ways: list[list[float]], usual: list[float]
) -> Iterator[str]:
    """Each rule once: judged where both weights were weighed, else a forecast, never met without a scale."""
    rules = rules_for(body)
    found = {one["rule"]: one for one in told["findings"]}
    expected = {one["rule"]: one for one in told["forecasts"]}
    if sorted([*found, *expected]) != sorted(rules):
        yield f"rules {[*found, *expected]}, not {list(rules)}"
        return
    for id, (measured, number) in rules.items():
        fault = _fault(body, measured, number, found.get(id), expected.get(id), ways, usual)
        if fault:
            yield f"{id}: {fault}"


def _fault(
    body: dict[str, Any], measured: str, number: float | None, finding: dict[str, Any] | None,
    forecast: dict[str, Any] | None, ways: list[list[float]], usual: list[float],
) -> str | None:  # fmt: skip
    places = None if measured == "piece" else _places(body, measured)
    if measured == "piece" and "smallest_piece" in body["standard"]:
        piece = body["standard"]["smallest_piece"]
        return _judged(finding, piece["value"] * GRAMS[piece["unit"]] / GRAMS["lb"], 1, is_minimum=True)
    if number is None or places is None:
        return None if finding and finding["verdict"] == "cannot_tell" else f"{finding or forecast} out of nothing"
    green, later = places
    ends = sorted(_figure(measured, way[later] / way[green]) for way in ways)
    if _is_weighed(body, green) and _is_weighed(body, later):
        return _judged(finding, _figure(measured, usual[later] / usual[green]), number, is_minimum=measured == "lost")
    return _forecast(forecast, ends, number, is_minimum=measured == "lost")


def _is_weighed(body: dict[str, Any], point: int) -> bool:
    return body["task"]["kind"] == "bought" if point == 0 else "weighed" in body["stages"][point - 1]


def _judged(finding: dict[str, Any] | None, figure: float, number: float, *, is_minimum: bool) -> str | None:
    if finding is None or abs(finding["figure"] - figure) > NEAR * max(1, abs(figure)):
        return f"{finding} for {figure}"
    if abs(figure - number) < NEAR:
        return None
    kept = figure > number if is_minimum else figure < number
    return None if finding["verdict"] == ("met" if kept else "not_met") else f"{finding['verdict']} at {figure}"


def _forecast(forecast: dict[str, Any] | None, ends: list[float], number: float, *, is_minimum: bool) -> str | None:
    if forecast is None or any(
        abs(told - true) > NEAR * max(1, abs(true))
        for told, true in ((forecast["low"], ends[0]), (forecast["high"], ends[-1]))
    ):
        return f"{forecast} for {ends[0]} to {ends[-1]}"
    worst = ends[0] if is_minimum else ends[-1]
    if abs(worst - number) < NEAR:
        return None
    kept = worst > number if is_minimum else worst < number
    return None if forecast["outlook"] == ("expected" if kept else "at_risk") else f"{forecast['outlook']} at {worst}"
