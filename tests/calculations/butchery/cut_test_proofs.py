"""A cutting test reckoned in fractions from what was asked, and the table as text: what every answer is held to."""

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from tests.calculations.butchery.cut_test_bodies import ANIMALS, rows
from tests.calculations.butchery.cut_test_note_proofs import closes_or_is_open, faults_of_notes
from tests.calculations.butchery.cut_test_reckoning import (
    AS_MEAT,
    CLOSE,
    EXACT_G,
    Bench,
    bench_of,
    differs,
    is_share,
    verdicts_of,
    weighs,
)  # fmt: skip

GROUPS = {"meat": AS_MEAT, "usable": AS_MEAT | {"render", "stock"}, "waste": {"waste"}, "loss": {"loss"}}


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """A refusal is true where no row has the id, and every id that it names is one."""
    if problem["code"] != "unknown_cut" or body.get("cut") in rows():
        return [f"{problem['code']} is not so: {body.get('cut')}"]
    offered = [id for id in problem["nearest"].partition(". GET")[0].split(", ") if id != "none"]
    named = {word for word in re.findall("[a-z]+", body["cut"].lower()) if word in ANIMALS}
    meant = named or {body.get("animal")} - {None}
    others = [id for id in offered if id in rows() and meant and rows()[id]["animal"] not in meant]
    return [f"{id} is no cut" for id in offered if id not in rows()] + [f"{id} is of another animal" for id in others]


def faults_of_answer(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """Everything in an answer that does not follow from what was asked."""
    bench = bench_of(body)
    return [
        *_faults_of_parts(bench, told),
        *_faults_of_totals(bench, told),
        *_faults_of_each(bench, told["each"]),
        *_faults_of_balance(bench, told["balance"]),
        *_faults_of_closure(bench, told["closure"]),
        *_faults_of_shares(bench, told),
        *faults_of_notes(bench, told),
    ]


def _faults_of_parts(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    weighed_g = bench.bought_g - bench.left_g
    for stated, part, part_g in zip(bench.body["parts"], told["parts"], bench.parts_g, strict=True):
        if (part["name"], part["use"], part["what"]) != (stated["name"], stated["use"], stated.get("what")):
            yield f"{part} is not {stated}"
        if part_g is None:
            numbers = [part[name] for name in ("weight", "of_purchased_percent", "of_weighed_percent")]
            if numbers != [None] * 3 or not _is_bound(part["at_most"], bench.spare_g, told):
                yield f"{part} was not weighed, and is at most {float(bench.spare_g)}"
        elif (
            part["at_most"] is not None
            or not weighs(part["weight"], part_g)
            or not is_share(part["of_purchased_percent"], part_g, bench.bought_g)
            or not is_share(part["of_weighed_percent"], part_g, weighed_g)
        ):
            yield f"{part} is not {float(part_g)} g"


def _is_bound(weight: dict[str, Any] | None, most_g: Fraction, told: dict[str, Any]) -> bool:
    """Told where the weights can be right, and not where they cannot."""
    return weight is None if not closes_or_is_open(told) else weight is not None and weighs(weight, most_g)


def _faults_of_totals(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    used = [part["use"] for part in bench.body["parts"]]
    if {one["use"]: one["parts"] for one in told["by_use"]} != {use: used.count(use) for use in used}:
        yield f"{told['by_use']} are not {used}"
    totals = [({one["use"]}, one["total"]) for one in told["by_use"]]
    for uses, total in (*totals, *((GROUPS[name], total) for name, total in told["yields"].items())):
        ours = [part_g for use, part_g in zip(used, bench.parts_g, strict=True) if use in uses]
        weighed_g = sum((part_g for part_g in ours if part_g is not None), Fraction(0))
        most_g = weighed_g + (bench.spare_g if None in ours else 0)
        if not (weighs(total["weight"], weighed_g) and _is_bound(total["at_most"], most_g, told)):
            yield f"{uses}: {total} is not {float(weighed_g)} to {float(most_g)} g"
        sides = ((total["percent"], weighed_g), (total["at_most_percent"], most_g))
        if not all(
            is_share(percent, side_g, bench.bought_g) for percent, side_g in sides[: 1 + closes_or_is_open(told)]
        ):
            yield f"{uses}: {total} are not the shares of {float(weighed_g)} to {float(most_g)} g"


def _faults_of_each(bench: Bench, each: dict[str, Any] | None) -> Iterator[str]:
    """One piece is the purchase by their number; it lies against all weights that were published."""
    if "pieces" not in bench.body or each is None:
        yield from () if ("pieces" in bench.body) == (each is not None) else (f"{each} of no pieces",)
        return
    each_g = bench.bought_g / Fraction(bench.body["pieces"])
    weights = rows().get(bench.body.get("cut", ""), {}).get("weights", [])
    lows_lb, highs_lb = [one["low_lb"] for one in weights], [one["high_lb"] for one in weights]
    low_g = Fraction(min(lows_lb, default=0)) * EXACT_G["lb"]
    tops_lb = [low if high is None else high for low, high in zip(lows_lb, highs_lb, strict=True)]
    high_g = Fraction(max(tops_lb, default=0)) * EXACT_G["lb"]
    beyond = "cannot_tell" if None in highs_lb else "above"
    place = "below" if each_g < low_g else beyond if each_g > high_g else "within"
    if each["from_memory"] != any(one["evidence"] == "recalled" for one in weights):
        yield f"{each} is not known so"
    if not weighs(each["weight"], each_g) or each["lies"] != (place if weights else None):
        yield f"{each} is not {float(each_g)} g, {place}"


def _faults_of_balance(bench: Bench, balance: dict[str, float]) -> Iterator[str]:
    """Nothing is lost: in what is told, and against what was asked."""
    scale_g = bench.bought_g + (bench.bought_g - bench.left_g)
    sum_g = sum((Fraction(balance[name]) for name in ("parts_g", "loss_g", "unaccounted_g")), Fraction(0))
    if differs(balance["purchased_g"], sum_g, slack=scale_g * CLOSE):
        yield f"{balance} does not come to what was bought"
    uses = [part["use"] for part in bench.body["parts"]]
    lost_g = [part_g or Fraction(0) for use, part_g in zip(uses, bench.parts_g, strict=True) if use == "loss"]
    meant = {"purchased_g": bench.bought_g, "loss_g": sum(lost_g, Fraction(0)), "unaccounted_g": bench.left_g}
    for name, meant_g in meant.items():
        if differs(balance[name], meant_g, slack=scale_g * CLOSE):
            yield f"{name} of {balance} is not {float(meant_g)}"


def _faults_of_closure(bench: Bench, closure: dict[str, Any]) -> Iterator[str]:
    if (closure["verdict"], closure["code"]) not in verdicts_of(bench):
        yield f"{closure} is none of {verdicts_of(bench)}"
    if abs(bench.left_g) < bench.coarse_g and closure["code"] == "weight_missing":
        yield f"{closure} calls a loss what the scale cannot tell"
    crumb_g = CLOSE * bench.bought_g
    meant = {
        "difference": bench.left_g,
        "tolerance": bench.allowed * bench.bought_g,
        "resolution": bench.coarse_g or None,
        "left_over": bench.spare_g if closure["left_over"] is not None or bench.spare_g > crumb_g else None,
    }
    for name, meant_g in meant.items():
        told_at_all = closure[name] is not None
        if told_at_all != (meant_g is not None) or (meant_g is not None and not weighs(closure[name], meant_g)):
            yield f"{name} of {closure} is not {meant_g}"
    if not is_share(closure["difference_percent"], bench.left_g, bench.bought_g):
        yield f"{closure['difference_percent']} percent is not {float(bench.left_g)} g"


def _faults_of_shares(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    row = rows().get(bench.body.get("cut", ""), {})
    for stated, part in zip(bench.body["parts"], told["parts"], strict=True):
        meant = {
            frozenset(one["consists_of"])
            for one in row.get("parts", ())
            if stated.get("what") in one.get("consists_of", ())
        }
        if {frozenset(one["consists_of"]) for one in part["published"]} != meant:
            yield f"{part['published']} are not the shares of {meant}"
        for share in part["published"]:
            yield from _faults_of_share(bench, row, share)


def _faults_of_share(bench: Bench, row: dict[str, Any], share: dict[str, Any]) -> Iterator[str]:
    kinds = set(share["consists_of"])
    printed = [one for one in row["parts"] if set(one.get("consists_of", ())) == kinds]
    low, high = min(one["low_percent"] for one in printed), max(one["high_percent"] for one in printed)
    way = 0.25 * min(low, 100 - low) if low == high else 0.0
    if abs(share["low_percent"] - (low - way)) > 1e-3 or abs(share["high_percent"] - (high + way)) > 1e-3:
        yield f"{share} is not {low} to {high}"
    counting = [n for n, part in enumerate(bench.body["parts"]) if part.get("what") in kinds]
    weights = [bench.parts_g[n] for n in counting]
    found = {bench.body["parts"][n]["what"] for n in counting}
    known = None not in weights and (kinds - {"trim"} or kinds) <= found
    weighed_percent = float(100 * sum((one or Fraction(0) for one in weights), Fraction(0)) / bench.bought_g)
    places = _places(weighed_percent, low - way, high + way)
    if not known:
        places = ({"above"} & places) | ({"cannot_tell"} if places - {"above"} else set())
    if (share["your_percent"] is not None) != known or share["lies"] not in places:
        yield f"{share} does not lie there"
    elif known and abs(share["your_percent"] - weighed_percent) > 1e-6 + abs(weighed_percent) * 1e-9:
        yield f"{share['your_percent']} percent is not {counting}"
    ranged = any(one["low_percent"] < one["high_percent"] for one in printed)
    spread = "own_bound" if low == high else "published" if ranged else "several_figures"
    recalled = any(one["evidence"] == "recalled" for one in printed)
    if (share["spread"], share["from_memory"]) != (spread, recalled):
        yield f"{share} is {spread}, from memory: {recalled}"


def _places(percent: float, low: float, high: float) -> set[str]:
    near = {edge: abs(percent - bound) < 1e-6 for edge, bound in (("below", low), ("above", high))}
    place = "below" if percent < low else "above" if percent > high else "within"
    return {place} | ({"within", *(edge for edge in near if near[edge])} if any(near.values()) else set())
