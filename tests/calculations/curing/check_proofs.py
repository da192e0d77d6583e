"""Proving a check: its readings are weighed again without its formulas, and nothing missing is ever met."""

from collections.abc import Iterator
from math import isclose
from typing import Any

from tests.calculations.curing.kitchen import VOLUMES, green_of, weight_g
from tests.calculations.curing.law import SODIUM_NITRITE_PER_SALT, faults_of_dose
from tests.calculations.curing.proofs import NO_RULES_READ
from tests.calculations.curing.stays import NEAR, readings_ppm

Body = dict[str, Any]

DISSOLVE = {
    "pickling-salt": True, "table-salt": True, "granulated-sugar": True, "dextrose": True, "honey": True,
    "bouillon": True, "water": True, "black-pepper-whole": False, "coriander-seed": False, "bay-leaf": False,
}  # fmt: skip
"""What each ingredient does in a pickle, as a cook would say (common practice, no source)."""
ON_THE_MEAT = {
    "green_weight", "skin_free_green_weight", "skin_on_green_weight", "whole_batch", "product_at_addition",
    "whole_system", "whole_system_after_stay", "any_reading",
}  # fmt: skip
TEASPOON_G = 5.6
"""A teaspoon of curing salt of 6.25 percent: an ounce is five of them (spice merchants)."""
DECISIVE = ("on_the_meat", "pumped", "pick_up", "pumped_and_covered", "equilibrium")


def faults_of_check(body: Body, told: Body) -> list[str]:
    """What is wrong with an answer; empty when it is proved."""
    return [*_of_findings(body, told), *_of_gaps(body, told), *_of_readings(body, told), *_of_verdicts(body, told)]


def is_named(body: Body, substance: str) -> bool:
    """Whether some label of the recipe names it: where none may go in, that is enough."""
    return any(substance in salt.get("label", {}) for salt in body.get("curing_salts", []))


def _of_findings(body: Body, told: Body) -> Iterator[str]:
    """A limit is met only if all of the range keeps it, and broken only if all of it breaks it."""
    for finding in told["findings"]:
        low, high, limit = finding["low"], finding["high"], finding["limit"]
        if finding["verdict"] == "cannot_tell" or finding["bound"] == "statement":
            continue
        slack = 1e-9 * limit
        least = limit * (0.98 if finding["code"] == "within_band" else 1)
        over = low > limit - slack and finding["bound"] != "minimum"
        under = high is not None and high < limit + slack and finding["bound"] != "maximum"
        kept_above = finding["bound"] == "maximum" or low >= least - slack
        kept_below = finding["bound"] == "minimum" or (high is not None and high <= limit + slack)
        over |= limit == 0 and is_named(body, finding["measure"])
        right = kept_above and kept_below if finding["verdict"] == "met" else over or under
        if not right:
            yield f"{finding['rule']} is not {finding['verdict']}: {low} to {high} against {limit}"


def _of_gaps(body: Body, told: Body) -> Iterator[str]:
    """What is not known keeps no limit."""
    method, missing = body["method"], missing_facts(body)
    unnamed = method["kind"] in BASIS_FIELDS and BASIS_FIELDS[method["kind"]] not in method
    wet = method["kind"] not in ("dry", "comminuted")
    for finding in told["findings"]:
        if finding["measure"] != "nitrite" or finding["verdict"] != "met" or finding["basis"] not in ON_THE_MEAT:
            continue
        if missing:
            yield f"{finding['rule']} is met without {missing}"
        if unnamed and finding["basis"] != "whole_system":
            yield f"{finding['rule']} is met without a basis"
        if wet and finding["bound"] == "minimum" and "ingredients" not in body:
            yield f"{finding['rule']} is met although nobody says what dilutes"


BASIS_FIELDS = {"immersion": "basis", "injected_then_covered": "cover"}


def missing_facts(body: Body) -> list[str]:
    """Facts without which no nitrite in the meat can be worked out."""
    method, salts = body["method"], body.get("curing_salts")
    absent = [name for name in ("meat", "curing_salts") if name not in body]
    absent += [name for salt in salts or () for name in ("label", "amount") if name not in salt]
    if method["kind"] not in ("dry", "comminuted"):
        absent += [name for name in ("water",) if name not in method]
    if method["kind"].startswith("injected") and method.get("pump_percent", 0) < 4:
        absent.append("pump_percent")
    if _basis(body).get("percent", 4) < 4:
        absent.append("pick-up")
    return absent


def _basis(body: Body) -> Body:
    basis: Body = body["method"].get("basis") or body["method"].get("cover") or {}
    return basis


CONTRADICTIONS = {"pickle_over_saturated", "gain_contradicts_uptake", "not_enough_pickle", "skin_weight_contradicts"}
"""Call-outs after which nothing is reckoned."""


def _of_readings(body: Body, told: Body) -> Iterator[str]:
    """Where the vessel can be weighed, the readings that decide are those of the vessel."""
    readings = balance_ppm(body)
    if readings is None:
        return
    names = {"equilibrium": "vessel", "after_stay": "after_stay"}
    expected = {shown: readings[name] for shown, name in names.items() if name in readings}
    shown = [one for one in told["figures"]["readings"] if one["substance"] == "nitrite" and one["decides"]]
    shown = [one for one in shown if one["expressed_as"] == "sodium_nitrite"]
    contradicted = CONTRADICTIONS & {one["code"] for one in told["call_outs"]}
    if bool(shown) == bool(contradicted):
        yield f"{len(shown)} readings that decide, contradicted by {contradicted}: {body}"
    if contradicted:
        return
    for one in shown:
        ppm, spooned = expected.get(one["reading"]) or readings["taken"], is_spooned(body)
        near = NEAR * readings["vessel"] if one["reading"] == "after_stay" else 1e-4
        inside = one["low"] - near <= ppm <= one["high"] + near
        exact = all(isclose(one[end], ppm, rel_tol=1e-9, abs_tol=near) for end in ("low", "high"))
        if not (inside if spooned else exact):
            yield f"{one['reading']} is {one['low']} to {one['high']}, weighed {ppm}"
    if not spooned_or_mixed(body) and not _is_right_alarm(readings, told):
        yield f"do_not_eat at {readings}"


def _is_right_alarm(readings: dict[str, float], told: Body) -> bool:
    most = max(readings["taken"], readings.get("vessel", 0))
    alarmed = any(one["code"] == "do_not_eat" and "ppm of nitrite" in one["message"] for one in told["call_outs"])
    return alarmed == (most >= 1000) or isclose(most, 1000, rel_tol=1e-6)


def _of_verdicts(body: Body, told: Body) -> Iterator[str]:
    """Nothing goes in that the law, written down from its texts, forbids; no rule is no pass."""
    if told["verdicts"]["going_in"] != "met":
        return
    if body["jurisdiction"] in NO_RULES_READ:
        yield f"met in {body['jurisdiction']}, of which nothing was read"
    if not body.get("curing_salts"):
        yield "met without a curing salt"
    readings = balance_ppm(body)
    if readings is not None and not spooned_or_mixed(body):
        asked = {**body, "on": told["on"], "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 100}}}
        yield from (f"met, but {fault}" for fault in faults_of_dose(asked, readings))


def is_spooned(body: Body) -> bool:
    """Whether a curing salt was measured by volume."""
    return any(salt["amount"]["unit"] in VOLUMES for salt in body["curing_salts"])


def spooned_or_mixed(body: Body) -> bool:
    """Whether limits on the salt itself cannot be held against sodium nitrite."""
    labels = [salt["label"] for salt in body["curing_salts"]]
    return is_spooned(body) or any(
        label["nitrite"]["salt"] != "sodium_nitrite" for label in labels if "nitrite" in label
    )


def balance_ppm(body: Body) -> dict[str, float] | None:
    """Sodium nitrite by what lies in the vessel; None where something is not weighed, or contradicts itself."""
    if missing_facts(body) or not _can_be_weighed(body):
        return None
    nitrite = sum(_nitrite_g(salt) for salt in body["curing_salts"])
    rest, solids = weight_g(body["method"].get("water")), 0.0
    for one in body["ingredients"]:
        dissolves = one.get("dissolves", DISSOLVE.get(one["ingredient"]))
        rest, solids = (
            (rest + weight_g(one["amount"]), solids) if dissolves else (rest, solids + weight_g(one["amount"]))
        )
    rest += sum(weight_g(one["amount"]) for one in body["accelerators"])
    rest += sum(_cure_g(salt) for salt in body["curing_salts"]) - nitrite
    weighed = {"meat": weight_g(body["meat"]), "curing_salt": nitrite, "rest": rest, "other_ingredients": solids}
    if not _is_enough(body, weighed):
        return None
    return readings_ppm({**body, "curing_salt": {"nitrite": {"percent": 100}}}, weighed)


def _dissolves(one: Body) -> bool | None:
    stated: bool | None = one.get("dissolves", DISSOLVE.get(one["ingredient"]))
    return stated


def _cure_g(salt: Body) -> float:
    amount = salt["amount"]
    return amount["value"] * TEASPOON_G if amount["unit"] == "tsp" else weight_g(amount)


def _nitrite_g(salt: Body) -> float:
    """As sodium nitrite."""
    nitrite = salt["label"].get("nitrite")
    return _cure_g(salt) * nitrite["percent"] / 100 * SODIUM_NITRITE_PER_SALT[nitrite["salt"]] if nitrite else 0.0


def _can_be_weighed(body: Body) -> bool:
    """Whether everything is stated, by weight, or by a spoon that is known here."""
    named = body["method"]["kind"] not in BASIS_FIELDS or bool(_basis(body))
    stated = "ingredients" in body and "accelerators" in body and bool(body.get("curing_salts"))
    return (
        named and stated and all(map(_is_known, body["ingredients"])) and all(map(_is_labelled, body["curing_salts"]))
    )


def _is_known(one: Body) -> bool:
    amount = one["amount"]
    if "count" in amount or amount["unit"] in VOLUMES:
        return False
    return one["ingredient"] in DISSOLVE if "dissolves" not in one else one["ingredient"] == "something else"


def _is_labelled(salt: Body) -> bool:
    label, unit = salt["label"], salt["amount"]["unit"]
    shares = [label.get(name, {}).get("percent", 0) for name in ("nitrite", "nitrate")]
    whole = sum(shares) + label.get("sugar_percent", 0) + label.get("other_percent", 0) <= 100
    return whole and (unit not in VOLUMES or (unit == "tsp" and shares == [6.25, 0]))


def _is_enough(body: Body, weighed: dict[str, float]) -> bool:
    """Whether skin and pickle are such that the piece can be made."""
    product, meat = body["product"], weighed["meat"]
    if "skin_free" in product and not (product["skin"] == "on" and 0.75 <= green_of(body, meat) / meat <= 0.97):
        return False
    taken = body["method"].get("pump_percent", 0) + _basis(body).get("percent", 0)
    return body["method"]["kind"] in ("dry", "comminuted") or weighed["rest"] > meat * taken / 100 * 1.000001
