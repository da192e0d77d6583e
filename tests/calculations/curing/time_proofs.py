"""Proves an answer about a cure time, and a refusal, from the request alone: thin shells, balances and bounds."""

from collections.abc import Iterator
from math import exp, inf, pi, sqrt
from typing import Any

from tests.calculations.curing.piece_bodies import MM, axes_of, is_no_piece
from tests.calculations.curing.shells import ENDLESS, Body, speed_mm2_per_h
from tests.calculations.curing.soak_bodies import at_c, meat_g
from tests.calculations.curing.soak_proofs import bands, ordered
from tests.calculations.curing.time_bodies import (
    at_rest_g,
    before_last,
    brought_g,
    days_of,
    final_of,
    pumped_g,
    stages_of,
    water_g,
)
from tests.calculations.measures.pantry import GRAMS

CLOSE = 4e-3
"""Of the final salt: what shells, groups of modes and printed digits may differ by."""
DISSOLVING_D = {"quick": 0.0, "typical": 1.0, "slow": 2.0}
"""Days until a rub has dissolved (common practice, no source)."""
LONGEST_D = 400.0
"""No days beyond it are told."""
STEP_D = 0.006
"""Half of the last digit of a day, and a little."""


def faults_of_time(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """What is wrong with an answer; empty when it is proved."""
    disordered = [f"{place} is no band: {band}" for place, band in bands(told) if not ordered(band)]
    proofs = (_faults_of_books, _faults_of_centre, _faults_of_days, _faults_of_looks, _faults_of_pull)
    return [*disordered, *(fault for proof in proofs for fault in proof(body, told))]


def percent_of(body: dict[str, Any], salt_g: float) -> float:
    """By green weight."""
    return 100 * salt_g / meat_g(body)


def _faults_of_books(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Final salt over the water of meat and bath, and over everything by weight; exact where no brine came before."""
    final, band = final_of(body), told["final_salt"]["meat_water"]
    low, high = percent_of(body, final.low_g), percent_of(body, final.high_g)
    poured = any(one["kind"] == "brine" and one["amount"]["unit"] not in GRAMS for one in stages_of(body))
    close = 1e-3 + (5e-3 * high if poured else 0.0)
    if not low - close <= band["low"] <= band["high"] <= high + close:
        yield f"final salt {band} is not between {low} and {high}"
    stage, whole = body["stage"], told["final_salt"]["whole_system_percent"]
    whole_low, whole_high = (_whole_system_percent(body, held_g) for held_g in before_last(body))
    if not whole_low - close <= whole <= whole_high + close:
        yield f"whole system {whole} is not between {whole_low} and {whole_high}"
    ratio = None if stage["kind"] == "endless_brine" else brought_g(stage, body)[1] / water_g(body)
    told_ratio = told["final_salt"]["bath_to_meat_ratio"]
    if (ratio is None) != (told_ratio is None):
        yield f"a bath of {told_ratio} for {stage}"
    if ratio is not None and told_ratio is not None and abs(ratio - told_ratio) > 1e-4 + 5e-3 * ratio * poured:
        yield f"a bath of {told_ratio} times the water of the meat is {ratio}"


def _whole_system_percent(body: dict[str, Any], held_g: float) -> float:
    """Salt by weight of meat, with all that it holds, and bath."""
    stage = body["stage"]
    if stage["kind"] == "endless_brine":
        return float(stage["salt_percent"])
    (salt_g, bath_g), (brine_g, pumped_salt_g) = brought_g(stage, body), pumped_g(body)
    taken_g = max(held_g - pumped_salt_g, 0.0)
    return 100 * (held_g + salt_g) / (meat_g(body) + brine_g + taken_g + salt_g + bath_g)


def _faults_of_centre(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """What is waited for is the share of the printed final salt, and it is in the centre on the typical day."""
    target, final = told["target"], told["final_salt"]["meat_water"]["typical"]
    is_share = target["kind"] == "share_of_final"
    wanted = final * target["percent"] / 100 if is_share else target["percent"]
    if target != body.get("target", {"kind": "share_of_final", "percent": 80}):
        yield f"another target: {target}"
    if abs(told["target_salt"]["typical"] - wanted) > 1.1e-3:
        yield f"{told['target_salt']} is waited for, not {wanted}"
    if told["profile"] and "injection" not in body and not body.get("earlier"):
        centre = told["profile"][-1]["salt"]["typical"]
        if abs(centre - wanted) > 1e-2 * max(final, wanted) + 2e-3:
            yield f"{centre} in the centre on the typical day, {wanted} is wanted"


def _faults_of_days(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """A piece of one axis, cut into shells, has its target on the day of each reading, and not before."""
    if len(axes_of(body)) != 1:
        return
    for side, readings in {"low": ("quick", "slow"), "typical": ("typical",), "high": ("slow", "quick")}.items():
        faults = [list(_faults_of_day(body, told, side, reading)) for reading in readings]
        yield from min(faults, key=len)


def _faults_of_day(body: dict[str, Any], told: dict[str, Any], side: str, reading: str) -> Iterator[str]:
    day_d, final = told["days"][side], _final_ratio(body, reading)
    wanted = _wanted_ratio(body, told["target"], final)
    soon, late = (_after(body, reading, max(day_d + step, 0.0))[1] for step in (-STEP_D, STEP_D))
    close = CLOSE * max(final, wanted)
    began_d = sum(days_of(one["lasts"]) for one in body.get("earlier", ()))
    is_early = day_d > max(began_d, DISSOLVING_D[reading]) + 2 * STEP_D
    if late < wanted - close or (soon > wanted + close and is_early):
        yield f"{side} day {day_d}: {soon} to {late} in the centre, {wanted} is waited for"


def _wanted_ratio(body: dict[str, Any], target: dict[str, Any], final: float) -> float:
    if target["kind"] == "share_of_final":
        return float(final * target["percent"] / 100)
    return float(target["percent"] / 100 * meat_g(body) / water_g(body))


def _after(body: dict[str, Any], reading: str, day_d: float) -> tuple[float, float]:
    """Salt per water of the whole piece, what lies on it counted, and of its centre, on a day."""
    piece = Body(*axes_of(body)[0], pumped_g(body)[1] / water_g(body))
    left_d, gone_mm2 = day_d, 0.0
    lasts = [*(days_of(one["lasts"]) for one in body.get("earlier", ())), inf]
    for stage, lasts_d in zip(stages_of(body), lasts, strict=True):
        gone_mm2 += _lie(piece, body, stage, reading, min(left_d, lasts_d))
        left_d -= lasts_d
        if left_d <= 1e-9:
            break
    return piece.mean, piece.centre - _missing_between_stitches(body, gone_mm2)


def _missing_between_stitches(body: dict[str, Any], gone_mm2: float) -> float:
    """Salt per water that is not yet half way between two stitches: each is an image of the other (from memory)."""
    if "injection" not in body:
        return 0.0
    spacing = body["injection"].get("needle_spacing", {"value": 25, "unit": "mm"})
    spacing_mm, pumped = spacing["value"] * MM[spacing["unit"]], pumped_g(body)[1] / water_g(body)
    if gone_mm2 <= 0:
        return float(pumped)
    images = sum(exp(-(((number + 0.5) * spacing_mm) ** 2) / (4 * gone_mm2)) for number in range(-60, 60))
    return float(pumped * max(1 - spacing_mm * images / sqrt(4 * pi * gone_mm2), 0.0))


def _lie(piece: Body, body: dict[str, Any], stage: dict[str, Any], reading: str, for_d: float) -> float:
    """The piece lies in this stage; told is diffusivity times the time in which anything moved."""
    salt_g, bath_g = brought_g(stage, body)
    ratio, strength = bath_g / water_g(body), salt_g / (bath_g or water_g(body))
    if stage["kind"] == "endless_brine":
        ratio, strength = ENDLESS, stage["salt_percent"] / (100 - stage["salt_percent"])
    delay_d = DISSOLVING_D[reading] if stage["kind"] == "dry" else 0.0
    speed = speed_mm2_per_h(reading, at_c(stage["temperature"]))
    way_mm2 = max(for_d - delay_d, 0.0) * 24 * speed
    piece.lie(ratio, strength, way_mm2)
    return way_mm2


def _final_ratio(body: dict[str, Any], reading: str) -> float:
    before_d = sum(days_of(one["lasts"]) for one in body.get("earlier", ()))
    held = _after(body, reading, before_d)[0] if before_d else pumped_g(body)[1] / water_g(body)
    return at_rest_g(body["stage"], body, held * water_g(body)) / water_g(body)


def _faults_of_looks(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Looks are those that were asked for; a weighed dry cure is whole from the start; shells say the same."""
    if [round(days_of(one), 3) for one in body.get("look_after", ())] != [one["after_d"] for one in told["looks"]]:
        yield f"looks of {[one['after_d'] for one in told['looks']]}"
    final = told["final_salt"]["meat_water"]["typical"]
    most = max(final, percent_of(body, before_last(body).high_g))
    for look in told["looks"]:
        if [stage["kind"] for stage in stages_of(body)] == ["dry"] and abs(look["mean"]["typical"] - final) > 1.1e-3:
            yield f"{look['mean']} of {final} after {look['after_d']} days"
        if len(axes_of(body)) == 1:
            mean, centre = _after(body, "typical", look["after_d"])
            pairs = ((look["mean"]["typical"], mean), (look["centre"]["typical"], centre))
            if any(abs(a - percent_of(body, b * water_g(body))) > 2 * CLOSE * most + 1e-3 for a, b in pairs):
                yield f"{look} is {mean} and {centre} of the water"


def _faults_of_pull(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """The window begins on the slow day; it is closed where it ends before; only an endless brine oversalts."""
    pull, days = told["pull"], told["days"]
    closed = pull["latest_d"] is not None and pull["latest_d"] < pull["earliest_d"]
    if pull["earliest_d"] != days["high"] or (pull["forecast"] == "at_risk") != closed:
        yield f"{pull} for {days}"
    if told["over_cure"]["possible"] != any(one["kind"] == "endless_brine" for one in stages_of(body)):
        yield f"{told['over_cure']} in {body['stage']}"
    pumped = ["injected"] if "injection" in body else []
    if [one["kind"] for one in told["stages"]] != pumped + [one["kind"] for one in stages_of(body)]:
        yield f"other stages: {told['stages']}"
    if any(day % 2 or not 0 < day < days["high"] for day in told["turn_after_d"]):
        yield f"turns on {told['turn_after_d']} of {days}"


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    code, no_piece = problem["code"], is_no_piece(body, problem["code"])
    proved = no_piece if no_piece is not None else _is_so(body, code)
    return [] if proved and problem.get("nearest") else [f"{code} is not so, or nothing is near: {body}"]


def _is_so(body: dict[str, Any], code: str) -> bool:
    """Whether a reason that is not about the piece holds."""
    colds = [at_c(one["temperature"]) for one in stages_of(body)]
    stated = [*(one["lasts"] for one in body.get("earlier", ())), *body.get("look_after", ())]
    proofs = {
        "too_cold": lambda: min(colds) < -1 or any(_freezes(one) for one in stages_of(body)),
        "too_warm": lambda: max(colds) > 5,
        "stage_too_long": lambda: max(days_of(one) for one in stated) > 400,
        "needles_out_of_range": lambda: not 15 <= _needles_mm(body) <= 100,
        "undissolved_salt": lambda: final_of(body).high_g > 26.395 / 73.605 * water_g(body),
        "longer_than_curing": lambda: _takes_longer(body),
        "no_salt": lambda: final_of(body).high_g == 0,
        "target_above_bath": lambda: _target_g(body) >= final_of(body).low_g * (1 - 1e-9),
        "bath_too_strong": lambda: _target_g(body) <= final_of(body).high_g * 0.05 * (1 + 1e-9),
    }
    return code in proofs and proofs[code]()


def _takes_longer(body: dict[str, Any]) -> bool:
    """A piece of one axis has not arrived after 400 days; of several, its longest way alone has far to go then."""
    ways = axes_of(body)
    if len(ways) > 1:
        return max(reach_mm for _, reach_mm in ways) > 60
    final, target = _final_ratio(body, "slow"), body.get("target", {"kind": "share_of_final", "percent": 80})
    return _after(body, "slow", LONGEST_D)[1] < _wanted_ratio(body, target, final)


def _freezes(stage: dict[str, Any]) -> bool:
    """Brine freezes 0.55 to 0.8 degC lower for each percent of salt, at -21.1 degC at the lowest (from memory)."""
    return "brine" in stage["kind"] and at_c(stage["temperature"]) <= -0.5 * stage["salt_percent"]


def _needles_mm(body: dict[str, Any]) -> float:
    spacing = body["injection"].get("needle_spacing", {"value": 25, "unit": "mm"})
    return float(spacing["value"] * MM[spacing["unit"]])


def _target_g(body: dict[str, Any]) -> float:
    """Salt that the whole meat would hold as strong as the centre is to be; a share proves nothing."""
    target = body.get("target", {"kind": "share_of_final"})
    return float(target["percent"] / 100 * meat_g(body)) if target["kind"] == "centre_salt" else float("nan")
