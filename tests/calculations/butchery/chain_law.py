"""What the law says of weights, written down from the texts, and how a chain is held against it."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from tests.calculations.butchery.chain_shares import begins, states
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


def green_point(body: dict[str, Any], ways: list[list[float]]) -> int | None:
    """Where the piece is fresh and trimmed for certain."""
    kinds, names = [stage["kind"] for stage in body["stages"]], states(body)
    changed = [place for place, kind in enumerate(kinds) if kind in ("cure", "cook") or _most(ways, place) > 1 + 1e-9]
    green = changed[0] if changed else max((place + 1 for place, kind in enumerate(kinds) if kind == "trim"), default=0)
    return green if names[green] == "trimmed" else None


def _most(ways: list[list[float]], place: int) -> float:
    return max(way[place + 1] / way[place] for way in ways)


class Compared(NamedTuple):
    """Every point that may be the fresh weight, and every one that may be the later one."""

    greens: list[int]
    laters: list[int]


def _compared(body: dict[str, Any], measured: str, ways: list[list[float]], usual: list[float]) -> Compared | None:
    """None where nothing stated lets a figure be told."""
    green = green_point(body, ways)
    if green is None or "cured" in (begins(body), begins({**body, "bought_as": None})):
        return None
    parted = [
        place + 1
        for place, stage in enumerate(body["stages"][:green])
        if stage["kind"] in ("trim", "slice") or stage.get("takes") == "parts"
    ]
    laters = (_cured if measured == "gained" else _finished)(body, green, ways, usual)
    if _hides(body, green, ways):
        return None
    return Compared(list(range(max(parted, default=0), green + 1)), laters) if laters else None


def _cut(body: dict[str, Any], green: int) -> int:
    """The first stage that parts the piece, or heats a country ham (9 CFR 319.106(a): uncooked); or the end."""
    uncooked = body["standard"].get("sold_as") == "country_ham"
    parting = (
        place
        for place, stage in enumerate(body["stages"])
        if place >= green
        and (
            stage["kind"] in ("trim", "slice")
            or stage.get("takes") == "parts"
            or (uncooked and stage.get("method", "smoke") != "smoke")
        )
    )
    return next(parting, len(body["stages"]))


def _unsure(body: dict[str, Any], ways: list[list[float]], green: int, end: int) -> list[int]:
    """Stages that may part it, or may not."""
    return [
        place
        for place, stage in enumerate(body["stages"])
        if green <= place < end
        and min(way[place + 1] / way[place] for way in ways) < (0.8 if stage["kind"] == "chill" else 1 - 1e-9)
        and (stage["kind"] == "chill" or (stage["kind"] == "other" and "takes" not in stage))
    ]


def _hides(body: dict[str, Any], green: int, ways: list[list[float]]) -> bool:
    """Whether weight is taken up in the first stage that cuts or may cut the piece, or after it."""
    parts = [
        place for place, stage in enumerate(body["stages"])
        if place >= green and (stage["kind"] in ("trim", "slice") or stage.get("takes") == "parts")
    ]  # fmt: skip
    first = min([*parts, *_unsure(body, ways, green, len(body["stages"]))], default=len(body["stages"]))
    return any(_most(ways, place) > 1 + 1e-9 for place in range(first, len(body["stages"])))


def _cured(body: dict[str, Any], green: int, ways: list[list[float]], usual: list[float]) -> list[int]:
    """After the last cure, while it is whole and raw, and before it where it was heavier."""
    stages = body["stages"]
    cures = [place for place, stage in enumerate(stages) if stage["kind"] == "cure"]
    if not cures or _cut(body, green) < cures[-1] or _unsure(body, ways, green, cures[-1]):
        return []
    last = cures[-1] + 1
    heavier = [point for point in range(green + 1, last) if usual[point] > usual[last]]
    ends = [place for place, stage in enumerate(stages) if place >= last and stage["kind"] == "cook"]
    until = min([_cut(body, green), *ends])
    return [*heavier, last, *(place + 1 for place in range(last, until) if "weighed" in stages[place])]


def _finished(body: dict[str, Any], green: int, ways: list[list[float]], usual: list[float]) -> list[int]:
    """Last of all while it is whole, where it is finished by then."""
    kinds, cut = [stage["kind"] for stage in body["stages"]], _cut(body, green)
    if not {"cure", "cook"} & set(kinds):
        return []
    goes_on, sold_as = kinds[cut : cut + 1] in (["slice"], ["cook"]), body["standard"].get("sold_as")
    if {"cure", "cook"} & set(kinds[cut:]) and not goes_on:
        return []
    if "cook" not in kinds[:cut] or sold_as == "country_ham":
        waits = sold_as != "country_ham" and (is_to_be_cooked(body) or sold_as == "barbecued_meat")
        raw = body["standard"]["product"].get("finish") in ("fresh", "matured")
        if waits or not (raw or goes_on):
            return []
    changed = max((place for place in range(green, cut) if kinds[place] in ("cure", "cook")), default=-1)
    unsure = _unsure(body, ways, green, cut)
    smoked = body["standard"]["product"]["kind"] == "bacon" or sold_as in ("barbecued_meat", "country_ham")
    fried = [place for place in range(green, cut) if smoked and body["stages"][place].get("method", "smoke") != "smoke"]
    return [] if any(place < changed for place in unsure) else [*unsure, *range(min(fried, default=cut), cut), cut]


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
    if measured == "piece" and "smallest_piece" in body["standard"]:
        piece = body["standard"]["smallest_piece"]
        if piece["value"] * GRAMS[piece["unit"]] > max(point for way in ways for point in way) * (1 + 1e-9):
            return _open(finding, number)
        return _judged(finding, [piece["value"] * GRAMS[piece["unit"]] / GRAMS["lb"]] * 2, 1, is_minimum=True)
    compared = None if measured == "piece" or number is None else _compared(body, measured, ways, usual)
    if number is None or compared is None:
        return _open(finding, number)
    ends = sorted(
        _figure(measured, way[later] / way[green])
        for way in ways for green in compared.greens for later in compared.laters
    )  # fmt: skip
    ends = [ends[0], ends[-1]]
    if all(_is_weighed(body, point) for point in (*compared.greens, *compared.laters)):
        return _judged(finding, ends, number, is_minimum=measured == "lost")
    return _forecast(forecast, ends, number, is_minimum=measured == "lost")


def _open(finding: dict[str, Any] | None, number: float | None) -> str | None:
    """Nothing is told, but for what to state."""
    if finding is None or finding["verdict"] != "cannot_tell":
        return f"{finding} out of nothing"
    asks = any(
        word in finding["message"].lower()
        for word in (" state ", "ask your inspector", "weigh it whole", "begin the chain")
    )
    return None if asks or number is None else f"{finding['message']} asks for nothing"


def _is_weighed(body: dict[str, Any], point: int) -> bool:
    return body["task"]["kind"] == "bought" if point == 0 else "weighed" in body["stages"][point - 1]


def _judged(finding: dict[str, Any] | None, ends: list[float], number: float, *, is_minimum: bool) -> str | None:
    """A verdict only where every weight that may be meant comes to the same, and then by the worst of them."""
    if finding is None:
        return f"nothing for {ends}"
    if any(abs(end - number) < NEAR for end in ends):
        return None
    kept = [end > number if is_minimum else end < number for end in ends]
    if kept[0] != kept[1]:
        return _open(finding, number)
    worst = ends[0] if is_minimum else ends[1]
    if finding["figure"] is None or abs(finding["figure"] - worst) > NEAR * max(1, abs(worst)):
        return f"{finding} for {worst}"
    return None if finding["verdict"] == ("met" if kept[0] else "not_met") else f"{finding['verdict']} at {worst}"


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
