"""Proves a refusal of a chain from the request alone."""

from typing import Any

from tests.calculations.butchery.chain_proofs import points
from tests.calculations.butchery.chain_shares import mass_g, rows, shares, states, wanted_g

LEAST, MOST, MOST_G = 0.05, 2.5, 1e12


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    proofs = {
        "unknown_cut": _is_unknown, "no_published_yield": _lacks, "pick_up_not_stated": _lacks_a_cure,
        "weighed_in_a_plan": _is_weighed_plan, "range_out_of_order": _runs_backwards,
        "share_out_of_range": _is_no_share, "wrong_basis": _is_of_another, "cured_after_cooking": _cures_cooked,
        "cut_of_another_product": is_another_product,
        "too_much_to_buy": _is_too_much,
    }  # fmt: skip
    is_so = proofs.get(problem["code"], lambda _: False)(body)
    return [] if is_so and problem.get("nearest") else [f"{problem['code']} is not so, or nothing is near: {body}"]


def _is_unknown(body: dict[str, Any]) -> bool:
    return "cut" in body and body["cut"] not in rows("cuts.yaml")


def _without(body: dict[str, Any]) -> list[dict[str, Any]]:
    known = shares(body)
    return [
        stage for stage, share in zip(body["stages"], known, strict=True) if share is None and "weighed" not in stage
    ]


def _lacks(body: dict[str, Any]) -> bool:
    return any(stage["kind"] != "cure" for stage in _without(body))


def _lacks_a_cure(body: dict[str, Any]) -> bool:
    return any(stage["kind"] == "cure" for stage in _without(body))


def _is_weighed_plan(body: dict[str, Any]) -> bool:
    return body["task"]["kind"] != "bought" and any("weighed" in stage for stage in body["stages"])


def _runs_backwards(body: dict[str, Any]) -> bool:
    changes = [stage["change"] for stage in body["stages"] if "percent" in stage.get("change", {})]
    ranges = [
        [change.get("low_percent", change["percent"]), change["percent"], change.get("high_percent", change["percent"])]
        for change in changes
    ]
    if "pieces" in body and body["task"]["kind"] != "bought":
        ranges.append([mass_g(body["pieces"]["low"]), mass_g(body["pieces"]["high"])])
    return any(one != sorted(one) for one in ranges)


def _is_no_share(body: dict[str, Any]) -> bool:
    tests = [stage["change"] for stage in body["stages"] if stage.get("change", {}).get("kind") == "own_test"]
    told = [mass_g(test["after"]) / mass_g(test["before"]) for test in tests]
    if body["task"]["kind"] == "bought":
        weights = points(body, tuple(share[1] if share else None for share in shares(body)))
        told += [
            weights[place + 1] / weights[place] for place, stage in enumerate(body["stages"]) if "weighed" in stage
        ]
    return any(not LEAST <= share <= MOST for share in told)


def _is_of_another(body: dict[str, Any]) -> bool:
    for place, (stage, of) in enumerate(zip(body["stages"], states(body), strict=False)):
        named = stage.get("change", {}).get("of_weight")
        if named not in (None, of) and not (place == 0 and named == "as_purchased"):
            return True
    return False


def _cures_cooked(body: dict[str, Any]) -> bool:
    return any(
        stage["kind"] == "cure" and of == "cooked" for stage, of in zip(body["stages"], states(body), strict=False)
    )


def _is_too_much(body: dict[str, Any]) -> bool:
    buy = wanted_g(body)
    for share in shares(body):
        buy /= share[0] if share else 1.0
    return buy > MOST_G * (1 - 1e-9)


def is_another_product(body: dict[str, Any]) -> bool:
    """Whether the cut cannot be the product that the law is asked for."""
    standard = body.get("standard")
    if standard is None:
        return False
    product, cut = standard["product"], rows("cuts.yaml").get(body.get("cut", ""))
    kind, of = product["kind"], product.get("species")
    if standard.get("sold_as") == "country_ham" and (kind, of) != ("whole_muscle", "pork"):
        return True
    if standard.get("sold_as") == "country_ham" and _is_no_ham(product, cut):
        return True
    if cut is None or (kind, of) == ("sausage", "mixed"):
        return False
    if kind == "corned_beef":
        named = [word for word in ("brisket", "tongue") if word == cut.get("part_of")]
        return cut["animal"] != "beef" or named != [word for word in ("brisket", "tongue") if word == product["cut"]]
    is_bird = cut["animal"] in ("chicken", "turkey", "duck", "goose", "other_bird")
    if kind == "sausage" and is_bird:
        return of != "poultry"
    wanted = "pork" if kind == "bacon" else of
    return wanted != cut["animal"] and not (wanted == "other" and cut["animal"] == "other_bird")


def _is_no_ham(product: dict[str, Any], cut: dict[str, Any] | None) -> bool:
    """9 CFR 319.106(a): a ham or a shoulder."""
    parts = {"butt", "loin", "tenderloin", "spareribs", "belly", "brisket", "tongue", "ham", "shoulder"}
    words = {"".join(letter for letter in word if letter.isalpha()) for word in product.get("cut", "").lower().split()}
    named = {word.removesuffix("s") for word in words} & parts
    wrong = bool(named) and not named & {"ham", "shoulder"}
    return wrong or (cut is not None and cut.get("part_of") not in ("ham", "shoulder"))
