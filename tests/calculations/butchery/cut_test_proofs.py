"""A cutting test reckoned in fractions from what was asked, and the table as text: what every answer is held to."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from tests.calculations.butchery.cut_test_bodies import rows
from tests.calculations.butchery.cut_test_reckoning import (
    AS_MEAT,
    CLOSE,
    EXACT_G,
    Bench,
    bench_of,
    closing_slips,
    differs,
    exact_g,
    is_share,
    verdicts_of,
    weighs,
)  # fmt: skip

GROUPS = {"meat": AS_MEAT, "usable": AS_MEAT | {"render", "stock"}, "waste": {"waste"}, "loss": {"loss"}}
BIRDS = {"chicken", "turkey", "duck", "goose", "other_bird"}


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """A refusal is true where no row has the id, and every id that it names is one."""
    if problem["code"] != "unknown_cut" or body.get("cut") in rows():
        return [f"{problem['code']} is not so: {body.get('cut')}"]
    offered = problem["nearest"].partition("GET")[0].strip(". ")
    return [f"{id} is no cut" for id in offered.split(", ") if id and id not in rows()]


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
        *_faults_of_notes(bench, told),
        *_faults_of_cautions(bench, told),
    ]


def _faults_of_parts(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    weighed_g = bench.bought_g - bench.left_g
    for stated, part, part_g in zip(bench.body["parts"], told["parts"], bench.parts_g, strict=True):
        if (part["name"], part["use"], part["what"]) != (stated["name"], stated["use"], stated.get("what")):
            yield f"{part} is not {stated}"
        if part_g is None:
            numbers = [part[name] for name in ("weight", "of_purchased_percent", "of_weighed_percent")]
            if numbers != [None] * 3 or not weighs(part["at_most"], bench.spare_g):
                yield f"{part} was not weighed, and is at most {float(bench.spare_g)}"
        elif (
            part["at_most"] is not None
            or not weighs(part["weight"], part_g)
            or not is_share(part["of_purchased_percent"], part_g, bench.bought_g)
            or not is_share(part["of_weighed_percent"], part_g, weighed_g)
        ):
            yield f"{part} is not {float(part_g)} g"


def _faults_of_totals(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    used = [part["use"] for part in bench.body["parts"]]
    if {one["use"]: one["parts"] for one in told["by_use"]} != {use: used.count(use) for use in used}:
        yield f"{told['by_use']} are not {used}"
    totals = [({one["use"]}, one["total"]) for one in told["by_use"]]
    for uses, total in (*totals, *((GROUPS[name], total) for name, total in told["yields"].items())):
        ours = [part_g for use, part_g in zip(used, bench.parts_g, strict=True) if use in uses]
        weighed_g = sum((part_g for part_g in ours if part_g is not None), Fraction(0))
        most_g = weighed_g + (bench.spare_g if None in ours else 0)
        if not (weighs(total["weight"], weighed_g) and weighs(total["at_most"], most_g)):
            yield f"{uses}: {total} is not {float(weighed_g)} to {float(most_g)} g"
        sides = ((total["percent"], weighed_g), (total["at_most_percent"], most_g))
        if not all(is_share(percent, side_g, bench.bought_g) for percent, side_g in sides):
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
    high_g = None if None in highs_lb else Fraction(max(highs_lb, default=0)) * EXACT_G["lb"]
    place = "below" if each_g < low_g else "above" if high_g is not None and each_g > high_g else "within"
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
    meant = {
        "difference": bench.left_g,
        "tolerance": bench.allowed * bench.bought_g,
        "resolution": bench.coarse_g or None,
        "left_over": None if bench.is_whole else bench.spare_g,
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
    if not known:
        if (share["your_percent"], share["lies"]) != (None, "cannot_tell"):
            yield f"{share} is told of parts that are not known"
    elif not is_share(share["your_percent"], sum((one or Fraction(0) for one in weights), Fraction(0)), bench.bought_g):
        yield f"{share['your_percent']} percent is not {counting}"
    elif share["lies"] not in _places(share["your_percent"], low - way, high + way):
        yield f"{share} does not lie there"


def _places(percent: float, low: float, high: float) -> set[str]:
    near = {edge: abs(percent - bound) < 1e-6 for edge, bound in (("below", low), ("above", high))}
    place = "below" if percent < low else "above" if percent > high else "within"
    return {place} | ({"within", *(edge for edge in near if near[edge])} if any(near.values()) else set())


def _faults_of_notes(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    noted = [one["code"] for one in told["call_outs"]]
    for code, meant in _meant_call_outs(bench).items():
        if noted.count(code) != meant:
            yield f"{code} is called {noted.count(code)} times, not {meant}"
    if not _heavier(bench, CLOSE) <= noted.count("part_heavier_than_whole") <= _heavier(bench, -CLOSE):
        yield f"{noted} do not name the parts that are heavier than the whole"
    yield from _faults_of_slips(bench, told)
    followed = {one["code"] for one in told["follows"]}
    green = "green_weight_for_the_cure" in followed
    if green and told["closure"]["verdict"] == "not_met":
        yield "a green weight comes out of a test that does not close"
    if ("weigh_the_rest" in followed) == bench.is_whole:
        yield f"{followed} do not ask for what was not weighed"


def _meant_call_outs(bench: Bench) -> dict[str, int]:
    row, parts = rows().get(bench.body.get("cut", ""), {}), bench.body["parts"]
    done = any(part["use"] in ("waste", "stock") or part.get("what") == "bone" for part in parts)
    animal = bench.body.get("animal")
    return {
        "part_stated_twice": _repeated(bench),
        "no_waste_from_bone_in": int(bool(row.get("bone_in")) and not done),
        "animal_contradicts_cut": int(bool(row) and animal is not None and animal != row["animal"]),
    }


def _heavier(bench: Bench, crumb: Fraction) -> int:
    """How many parts weigh more than the whole, by more than the scale can tell."""
    step_g = exact_g(bench.body["scale_step"]) if "scale_step" in bench.body else Fraction(0)
    return sum(
        part_g > bench.bought_g * (1 + crumb) + step_g * (1 + len(part["weights"])) / 2
        for part, part_g in zip(bench.body["parts"], bench.parts_g, strict=True)
        if part_g is not None
    )


def _repeated(bench: Bench) -> int:
    named = [
        (" ".join(part["name"].casefold().split()), part_g)
        for part, part_g in zip(bench.body["parts"], bench.parts_g, strict=True)
        if part_g is not None
    ]
    return sum(
        any(name == other and abs(part_g - other_g) <= part_g * CLOSE for other, other_g in named[:number])
        for number, (name, part_g) in enumerate(named)
    )


def _faults_of_slips(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    slips = [one for one in told["call_outs"] if one["code"] == "unit_slip"]
    if slips and (told["closure"]["verdict"] != "not_met" or not bench.is_whole):
        yield f"{slips} of a test that is not off, or not whole"
    named = {one["parts"][0] if one["parts"] else None for one in slips}
    if not named <= closing_slips(bench, CLOSE):
        yield f"{named} would not close the test"
    if told["closure"]["verdict"] == "not_met" and bench.is_whole:
        surely = closing_slips(bench, -CLOSE)
        if surely and not slips:
            yield f"another unit at {surely} would close the test, and nothing is said"


def _faults_of_cautions(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    row = rows().get(bench.body.get("cut", ""), {})
    animals = {animal for animal in (bench.body.get("animal"), row.get("animal")) if animal}
    ground = any(part["use"] == "grind" for part in bench.body["parts"])
    meant = {
        "grinding-record": ground and (not animals or bool(animals & {"beef", "veal"})),
        "poultry": bool(animals & BIRDS),
        "game-and-pork-parasites": bool(animals & {"pork", "game"}),
        "raw-meat-hygiene": True, "sharp-knives": True, "local-code": True,
    }  # fmt: skip
    ids = {one["id"] for one in told["cautions"]}
    if ids != {id for id, due in meant.items() if due}:
        yield f"{ids} are not the cautions of {animals}, ground: {ground}"
    due = "beef" in animals and ground and row.get("kind") != "product"
    if ("grinding_record_due" in {one["code"] for one in told["follows"]}) != due:
        yield f"a grinding record is {'due' if due else 'not due'}"
