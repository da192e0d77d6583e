"""What a cutting test calls out, hands on and warns of, proved from what was asked and from the verdict."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from tests.calculations.butchery.cut_test_bodies import rows
from tests.calculations.butchery.cut_test_reckoning import CLOSE, Bench, closing_slips, exact_g, room_of, slips_within

BIRDS = {"chicken", "turkey", "duck", "goose", "other_bird"}
DOUBTS = {"part_heavier_than_whole", "left_over_unlikely", "unit_slip", "piece_unlikely", "cured_already"}


def closes_or_is_open(told: dict[str, Any]) -> bool:
    """Whether the weights can be right: only then do they bound anything."""
    closure = told["closure"]
    is_open = closure["code"] == "part_not_weighed" and closure["left_over"] is not None
    return closure["verdict"] == "met" or is_open


def faults_of_notes(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    """Call-outs, what follows, and cautions."""
    noted = [one["code"] for one in told["call_outs"]]
    for code, meant in _meant_call_outs(bench).items():
        if noted.count(code) != meant:
            yield f"{code} is called {noted.count(code)} times, not {meant}"
    if not _heavier(bench, CLOSE) <= noted.count("part_heavier_than_whole") <= _heavier(bench, -CLOSE):
        yield f"{noted} do not name the parts that are heavier than the whole"
    if not _repeated(bench, -CLOSE) <= noted.count("part_stated_twice") <= _repeated(bench, CLOSE):
        yield f"{noted} do not name what stands there twice"
    yield from _faults_of_left_over(bench, "left_over_unlikely" in noted)
    yield from _faults_of_slips(bench, told)
    yield from _faults_of_cure(bench, told)
    yield from _faults_of_cautions(bench, told)


def _meant_call_outs(bench: Bench) -> dict[str, int]:
    row, parts = rows().get(bench.body.get("cut", ""), {}), bench.body["parts"]
    done = any(part["use"] in ("waste", "stock") or part.get("what") == "bone" for part in parts)
    animal = bench.body.get("animal")
    return {
        "no_waste_from_bone_in": int(bool(row.get("bone_in")) and not done),
        "cured_already": int(row.get("kind") == "product" and any(part["use"] == "cure" for part in parts)),
        "piece_unlikely": int(_is_no_such_piece(bench, row)),
        "animal_contradicts_cut": int(bool(row) and animal is not None and animal != row["animal"]),
    }


def _is_no_such_piece(bench: Bench, row: dict[str, Any]) -> bool:
    """By the lightest and the heaviest published weight; twice the last, where a range has no top."""
    if "pieces" not in bench.body or not row.get("weights"):
        return False
    each_lb = float(bench.bought_g) / bench.body["pieces"] / 453.59237
    tops = [one["high_lb"] or one["low_lb"] for one in row["weights"]]
    is_open = any(one["high_lb"] is None for one in row["weights"])
    return each_lb < min(one["low_lb"] for one in row["weights"]) or each_lb > max(tops) * (2 if is_open else 1)


def _heavier(bench: Bench, crumb: Fraction) -> int:
    """How many parts weigh more than the whole, by more than the scale can tell."""
    step_g = exact_g(bench.body["scale_step"]) if "scale_step" in bench.body else Fraction(0)
    return sum(
        part_g > bench.bought_g * (1 + crumb) + step_g * (1 + len(part["weights"])) / 2
        for part, part_g in zip(bench.body["parts"], bench.parts_g, strict=True)
        if part_g is not None
    )


def _repeated(bench: Bench, crumb: Fraction) -> int:
    """Parts of one name and weight, and weighings of one part without one of which the test closes."""
    slack_g, too_much = (bench.allowed + crumb) * bench.bought_g, -bench.left_g - bench.coarse_g
    twice = 0
    if too_much <= (bench.allowed - crumb) * bench.bought_g:
        slack_g = (CLOSE + crumb) * bench.bought_g
    if bench.is_whole and too_much > -crumb * bench.bought_g:
        for part in bench.body["parts"]:
            weights_g = [float(exact_g(one)) for one in part["weights"]]
            doubled = {one_g for one_g in weights_g if weights_g.count(one_g) > 1}
            twice += sum(abs(bench.left_g + Fraction(one_g)) <= slack_g for one_g in doubled)
    return twice + _alike(bench)


def _alike(bench: Bench) -> int:
    named = [
        (" ".join(part["name"].casefold().split()), part_g)
        for part, part_g in zip(bench.body["parts"], bench.parts_g, strict=True)
        if part_g is not None
    ]
    return sum(
        any(name == other and abs(part_g - other_g) <= part_g * CLOSE for other, other_g in named[:number])
        for number, (name, part_g) in enumerate(named)
    )


def _faults_of_left_over(bench: Bench, called: bool) -> Iterator[str]:
    """Where nothing is left it is called out; at the bounds of what is published either is right."""
    (low, high), left = _room(bench), float(bench.left_g / bench.bought_g)
    is_open = not bench.is_whole and any(part_g is not None for part_g in bench.parts_g)
    coarse, slack = float(bench.coarse_g / bench.bought_g), float(bench.allowed)
    beyond = max(left - coarse - high - slack, low - slack - left - coarse, -left - coarse)
    nothing = bench.left_g + bench.coarse_g <= 0
    if called and not (is_open and beyond > -CLOSE):
        yield f"{left} left over lies between {low} and {high}"
    if not called and is_open and (nothing or beyond > CLOSE):
        yield f"{left} left over does not lie between {low} and {high}, and nothing is said"


def _room(bench: Bench) -> tuple[float, float]:
    return room_of(bench, rows().get(bench.body.get("cut", ""), {}).get("parts", []))


def _faults_of_slips(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    slips = [one for one in told["call_outs"] if one["code"] == "unit_slip"]
    unlikely = any(one["code"] == "left_over_unlikely" for one in told["call_outs"])
    due, room = told["closure"]["verdict"] == "not_met" or unlikely, _room(bench)
    inside = bench.is_whole and not due
    likely = slips_within(bench, CLOSE) if inside else closing_slips(bench, room, CLOSE) if due else set()
    named = {tuple(one["parts"]) for one in slips}
    if not named <= likely:
        yield f"{named} would not close the test"
    surely = slips_within(bench, -CLOSE) if inside else closing_slips(bench, room, -CLOSE) if due else set()
    if surely and not slips:
        yield f"another unit at {surely} would close the test, and nothing is said"


def _faults_of_cure(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    """Each cured part that was weighed is handed on or asked about, and none out of a test of which there is doubt."""
    stated, follows = bench.body["parts"], [(one["code"], tuple(one["parts"])) for one in told["follows"]]
    cured = [part for part in stated if part["use"] == "cure" and part.get("weights")]
    doubt = bool(DOUBTS & {one["code"] for one in told["call_outs"]}) or not closes_or_is_open(told)
    twice = {name for one in told["call_outs"] if one["code"] == "part_stated_twice" for name in one["parts"]}
    names = tuple(dict.fromkeys(part["name"] for part in cured))
    meant = [("weight_not_told", names)] if doubt and cured else []
    asks, near = _asks(bench, told), _too_coarse
    for part in [] if doubt else cured:
        bare = part["name"] in twice or near(bench, part)
        asked = "ask_about_skin_or_bone" if asks or part.get("what") in ("skin", "bone") else "meat_for_the_cure"
        meant.append(("weight_not_told" if bare else asked, (part["name"],)))
    kinds = ("ask_about_skin_or_bone", "meat_for_the_cure", "weight_not_told")
    if [one for one in follows if one[0] in kinds] != meant:
        yield f"{follows} do not hand on {meant}"
    if any(code == "weigh_the_rest" for code, _ in follows) == bench.is_whole:
        yield f"{follows} do not ask for what was not weighed"


def _too_coarse(bench: Bench, part: dict[str, Any]) -> bool:
    """Whether half a step for each weighing is more than a tenth of it."""
    step_g = exact_g(bench.body["scale_step"]) if "scale_step" in bench.body else Fraction(0)
    part_g = sum((exact_g(one) for one in part["weights"]), Fraction(0))
    return step_g * len(part["weights"]) / 2 > part_g / 10


def _asks(bench: Bench, told: dict[str, Any]) -> bool:
    """Whether skin or bone may still be in the meat: none is a part, or less than is published is."""
    row, stated = rows().get(bench.body.get("cut", ""), {}), bench.body["parts"]
    shares = [share for part in told["parts"] for share in part["published"]]
    few = {kind for one in shares if one["lies"] == "below" for kind in one["consists_of"]}
    few -= {kind for one in shares if one["lies"] in ("within", "above") for kind in one["consists_of"]}
    skins = [part_g for part, part_g in zip(stated, bench.parts_g, strict=True) if part.get("what") == "skin"]
    token = bool(skins) and None not in skins and sum(one or 0 for one in skins) < bench.bought_g / 100
    skin = any("skin" in one.get("consists_of", ()) for one in row.get("parts", ())) and row["animal"] == "pork"
    put_by = [part for part in stated if part["use"] in ("waste", "stock")]
    boned = bool(put_by) or any(part.get("what") == "bone" for part in stated)
    fewer = "bone" in few and all(part.get("what") for part in put_by)
    return bool(skin and (not skins or token or "skin" in few)) or bool(row.get("bone_in") and (not boned or fewer))


def _faults_of_cautions(bench: Bench, told: dict[str, Any]) -> Iterator[str]:
    row = rows().get(bench.body.get("cut", ""), {})
    animals = {animal for animal in (bench.body.get("animal"), row.get("animal")) if animal}
    ground = any(part["use"] == "grind" for part in bench.body["parts"])
    meant = {
        "grinding-record": ground and (not animals or bool(animals & {"beef", "veal"})),
        "poultry": bool(animals & BIRDS),
        "game-and-pork-parasites": "game" in animals,
        "pork-cured-raw": "pork" in animals and any(part["use"] in ("cure", "grind") for part in bench.body["parts"]),
        "raw-meat-hygiene": True, "sharp-knives": True, "local-code": True,
    }  # fmt: skip
    ids = {one["id"] for one in told["cautions"]}
    if ids != {id for id, due in meant.items() if due}:
        yield f"{ids} are not the cautions of {animals}, ground: {ground}"
    due = "beef" in animals and ground and row.get("kind") != "product"
    if ("grinding_record_due" in {one["code"] for one in told["follows"]}) != due:
        yield f"a grinding record is {'due' if due else 'not due'}"
