"""Proves an answer about a chain from the request alone: every combination of low and high shares, one at a time."""

from collections.abc import Iterator
from itertools import product
from math import ceil, floor, isclose
from typing import Any

from tests.calculations.butchery.chain_law import faults_of_law, green_point, rules_for
from tests.calculations.butchery.chain_shares import Three, begins, mass_g, rows, shares, states, wanted_g
from tests.calculations.measures.pantry import GRAMS

STEPS = {"g": 10, "oz": 100, "lb": 1000}
Points = list[float]


def points(body: dict[str, Any], chosen: tuple[float | None, ...]) -> Points:
    """The weight before the first stage and after each, with one share chosen for every stage."""
    stages = body["stages"]
    if body["task"]["kind"] == "bought":
        told = [wanted_g(body)]
        for stage, share in zip(stages, chosen, strict=True):
            told.append(mass_g(stage["weighed"]) if "weighed" in stage else told[-1] * (share or 1.0))
        return told
    told = [wanted_g(body)]
    for share in reversed(chosen):
        told.append(told[-1] / (share or 1.0))
    return told[::-1]


def every(body: dict[str, Any]) -> tuple[list[Points], Points]:
    """The points of every combination of ends, and the usual ones."""
    known = shares(body)
    ends = [sorted({share[0], share[2]}) if share else [None] for share in known]
    return [points(body, one) for one in product(*ends)], points(
        body, tuple(share[1] if share else None for share in known)
    )


def faults_of_chain(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """What is wrong with an answer; empty when it is proved."""
    all_of_them, usual = every(body)
    return [
        *_faults_of_weights(body, told, all_of_them, usual),
        *_faults_of_shares(body, told, all_of_them, usual),
        *_faults_of_counts(body, told, all_of_them, usual),
        *_faults_of_defaults(body, told),
        *_faults_of_words(body, told, usual),
        *faults_of_law(body, told, all_of_them, usual),
    ]


def _spans(band: dict[str, Any], true: list[float], usual: float, *, steps: float, unit: float = 1.0) -> bool:
    """Whether a told band holds everything, no wider than a step, with what is usual inside."""
    low, high, near = min(true) / unit, max(true) / unit, 1 / steps
    slack = 1e-6 * near + 1e-9 * max(abs(low), abs(high))
    return (
        low - near - slack <= band["low"] <= low + slack
        and high - slack <= band["high"] <= high + near + slack
        and abs(band["typical"] - usual / unit) <= near / 2 + slack
    )


def _holds(band: dict[str, Any], true: list[float], usual: float) -> bool:
    unit = band["unit"]
    return _spans(band, true, usual, steps=STEPS[unit], unit=GRAMS[unit])


def _faults_of_weights(body: dict[str, Any], told: dict[str, Any], ways: list[Points], usual: Points) -> Iterator[str]:
    """Purchased, sold, and what is there and lost at each stage."""
    named = [(told["purchased"], 0), (told["sold"], -1), *((one["weight"], one["number"]) for one in told["stages"])]
    for band, point in named:
        if not _holds(band, [way[point] for way in ways], usual[point]):
            yield f"{band} at {point}: {min(way[point] for way in ways)} to {max(way[point] for way in ways)} g"
    known = shares(body)
    for one in told["stages"]:
        here, share = one["number"], known[one["number"] - 1]
        is_planned = "weighed" in body["stages"][here - 1] and share is not None
        if is_planned != (one["planned"] is not None):
            yield f"stage {here} is planned as {one['planned']}"
        if share and one["planned"]:
            plans = [way[here - 1] * end for way in ways for end in share]
            if not _holds(one["planned"], plans, usual[here - 1] * share[1]):
                yield f"{one['planned']} is not what stage {here} was to leave"
        if not _holds(one["lost"], [way[here - 1] - way[here] for way in ways], usual[here - 1] - usual[here]):
            yield f"{one['lost']} is not what stage {here} takes"
    if [one["stage"] for one in told["stages"]] != [stage["kind"] for stage in body["stages"]]:
        yield "other stages are told than were asked for"


def _faults_of_shares(body: dict[str, Any], told: dict[str, Any], ways: list[Points], usual: Points) -> Iterator[str]:
    """Of what entered, of what was bought, of the green weight: each with the names of both its weights."""
    names, green = states(body), green_point(body, ways)
    for one in told["stages"]:
        here = one["number"]
        bases = {
            "left": here - 1,
            "of_purchased": 0,
            "of_green": green if green is not None and green <= here else None,
        }
        for name, base in bases.items():
            if (one[name] is None) != (base is None):
                yield f"{name} of stage {here} is {one[name]}"
            if base is None or one[name] is None:
                continue
            true = [100 * way[here] / way[base] for way in ways]
            if not _spans(one[name], true, 100 * usual[here] / usual[base], steps=100):
                yield f"{name} of stage {here}: {one[name]}, {min(true)} to {max(true)}"
            whole = "as_purchased" if name == "of_purchased" else names[base]
            if (one[name]["part"], one[name]["of_weight"]) != (names[here], whole):
                yield f"{name} of stage {here} is {one[name]['part']} of {one[name]['of_weight']}"
        yield from _faults_of_point(body, one, usual)


def _faults_of_point(body: dict[str, Any], one: dict[str, Any], usual: Points) -> Iterator[str]:
    """A point more left in one stage, bought anew for the same end."""
    here, told = one["number"], one["a_point_saves"]
    if ("weighed" in body["stages"][here - 1]) != (told is None):
        yield f"stage {here} is weighed, or a point of it is worth {told}"
    if told is not None:
        share = usual[here] / usual[here - 1]
        saved = usual[0] - usual[0] * share / (share + 0.01)
        if (
            abs(told["value"] * GRAMS[told["unit"]] - saved)
            > 0.51 * GRAMS[told["unit"]] / STEPS[told["unit"]] + 1e-9 * saved
        ):
            yield f"a point of stage {here} is worth {told}, not {saved} g"


def _faults_of_counts(body: dict[str, Any], told: dict[str, Any], ways: list[Points], usual: Points) -> Iterator[str]:
    """Whole portions and whole pieces: rounded once, at the end."""
    task, portions = body["task"], told["portions"]
    if ("portion" in task) != (portions is not None):
        yield f"portions: {portions}"
    elif task["kind"] == "portions_wanted" and {portions[side] for side in ("low", "typical", "high")} != {
        task["how_many"]
    }:
        yield f"{portions} of {task}"
    elif task["kind"] == "bought" and portions is not None:
        each, ends = mass_g(task["portion"]), [way[-1] for way in ways]
        for side, weight in (("low", min(ends)), ("typical", usual[-1]), ("high", max(ends))):
            counts = [floor(weight / each * (1 - 1e-9)), floor(weight / each * (1 + 1e-9) + 1e-9)]
            if not counts[0] <= portions[side] <= counts[1]:
                yield f"{weight} g in portions of {each} g are {portions}"
    buy = {"low": min(way[0] for way in ways), "typical": usual[0], "high": max(way[0] for way in ways)}
    ranges = _ranges(body)
    if len(ranges) != len(told["pieces"]):
        yield f"{len(told['pieces'])} ranges of pieces, not {len(ranges)}"
    for (low, high), option in zip(ranges, told["pieces"], strict=False):
        of = {"low": high, "typical": (low + high) / 2, "high": low}
        for one in option["buy"]:
            count = buy[one["case"]] / of[one["case"]]
            if not ceil(count * (1 - 1e-9) - 1e-9) <= one["pieces"] <= max(1, ceil(count * (1 + 1e-9))):
                yield f"{count} pieces, told as {one}"


def _ranges(body: dict[str, Any]) -> list[tuple[float, float]]:
    if body["task"]["kind"] == "bought":
        return []
    if "pieces" in body:
        return [(mass_g(body["pieces"]["low"]), mass_g(body["pieces"]["high"]))]
    weights = rows("cuts.yaml").get(body.get("cut", ""), {}).get("weights", [])
    return [
        (one["low_lb"] * GRAMS["lb"], one["high_lb"] * GRAMS["lb"]) for one in weights if one["high_lb"] is not None
    ]


def _faults_of_defaults(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Each share that nobody stated is told, with what it was taken from, and no other."""
    asked = [n for n, stage in enumerate(body["stages"], 1) if "change" not in stage and "weighed" not in stage]
    if [one["stage"] for one in told["defaults"]] != asked:
        yield f"defaults of {[one['stage'] for one in told['defaults']]}, not of {asked}"
    known = shares(body)
    for one in told["defaults"]:
        share: Three | None = known[one["stage"] - 1]
        ends = tuple(one[side] / 100 for side in ("low", "typical", "high"))
        if share is None or not all(isclose(mine, its, rel_tol=1e-4) for mine, its in zip(ends, share, strict=True)):
            yield f"{one} is not {share}"
        if not one["readings"] or not all(reading["source"] and reading["evidence"] for reading in one["readings"]):
            yield f"{one} without a source"
    for one in told["stages"]:
        if (one["share_from"] in ("cut", "usual")) != (one["number"] in asked):
            yield f"stage {one['number']} says that it is {one['share_from']}"


def _faults_of_words(body: dict[str, Any], told: dict[str, Any], usual: Points) -> Iterator[str]:
    """Cautions, brevity, and what is called out by its numbers."""
    ids, kinds = {one["id"] for one in told["cautions"]}, {stage["kind"] for stage in body["stages"]}
    due = {"local-code"} | ({"yield-is-not-doneness"} if "cook" in kinds else set())
    due |= {"pump-is-no-dose"} if "cure" in kinds else set()
    if not due <= ids:
        yield f"cautions {due - ids} are not there"
    if bool(told["steps"]) != (body.get("detail", "full") == "full") or bool(told["sources"]) != bool(told["steps"]):
        yield "brief and full are mixed up"
    codes = {one["code"] for one in told["call_outs"]}
    due_codes = {
        "pick_up_counted_twice": _adds_twice(body, usual),
        "no_weight_rule": "standard" in body and not rules_for(body),
        "bone_in_portions": _sells_bone(body),
    }
    for code, is_due in due_codes.items():
        if (code in codes) != is_due:
            yield f"{code} in {codes} of a piece that is bought {begins(body)}"


def _adds_twice(body: dict[str, Any], usual: Points) -> bool:
    """Whether a cure usually adds weight to what was cured before; of a batch, planned and not weighed."""
    unstated = {name: value for name, value in body.items() if name != "bought_as"}
    comes_cured = "cured" in (begins(body), begins(unstated))
    adding = [
        stage
        for place, stage in enumerate(body["stages"])
        if stage["kind"] == "cure" and usual[place + 1] > usual[place] * (1 + 1e-9)
    ]
    return bool(adding) if comes_cured else any("weighed" not in stage for stage in adding[1:])


def _sells_bone(body: dict[str, Any]) -> bool:
    """Whether a cut with bone in it is sliced or sold in portions, and nothing is cut off that may be the bone."""
    cut = rows("cuts.yaml").get(body.get("cut", ""), {})
    taken_out = any(
        stage["kind"] == "trim" or (stage["kind"] == "other" and stage.get("takes") != "moisture")
        for stage in body["stages"]
    )
    served = "portion" in body["task"] or any(stage["kind"] == "slice" for stage in body["stages"])
    return bool(cut.get("bone_in")) and served and not taken_out and begins(body) != "trimmed"
