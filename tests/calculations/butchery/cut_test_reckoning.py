"""A cutting test as it was asked, in exact fractions, and what its verdict has to be."""

from fractions import Fraction
from typing import Any, NamedTuple

EXACT_G = {
    "g": Fraction(1), "kg": Fraction(1000), "oz": Fraction("28.349523125"), "lb": Fraction("453.59237"),
}  # fmt: skip
AS_MEAT = {"cure", "cook", "sell", "grind", "keep"}
TAKEN_FOR = {("kg", "lb"), ("kg", "g"), ("lb", "kg"), ("lb", "oz"), ("oz", "g"), ("oz", "lb"), ("g", "oz"), ("g", "kg")}
USUAL_PERCENT = Fraction(2)
CLOSE = Fraction(1, 10**9)
"""Of what was bought: so near to a bound either verdict is right, because weights are held in binary."""


class Bench(NamedTuple):
    """A cutting test in exact grams."""

    body: dict[str, Any]
    bought_g: Fraction
    parts_g: list[Fraction | None]
    allowed: Fraction
    coarse_g: Fraction

    @property
    def left_g(self) -> Fraction:
        """What was bought, less all that was weighed."""
        return self.bought_g - sum(part_g for part_g in self.parts_g if part_g is not None)

    @property
    def is_whole(self) -> bool:
        """Whether every part was weighed."""
        return None not in self.parts_g

    @property
    def spare_g(self) -> Fraction:
        """What parts that were not weighed can come to."""
        return Fraction(0) if self.is_whole else max(self.left_g + self.coarse_g, Fraction(0))


def exact_g(mass: dict[str, Any]) -> Fraction:
    """A weight as it was written."""
    return Fraction(mass["value"]) * EXACT_G[mass["unit"]]


def bench_of(body: dict[str, Any]) -> Bench:
    """What was asked, in fractions."""
    weights = [part.get("weights") or [] for part in body["parts"]]
    step_g = exact_g(body["scale_step"]) if "scale_step" in body else Fraction(0)
    return Bench(
        body,
        exact_g(body["purchased"]),
        [sum((exact_g(one) for one in each), Fraction(0)) if each else None for each in weights],
        Fraction(body.get("tolerance_percent", USUAL_PERCENT)) / 100,
        (1 + sum(map(len, weights))) * step_g / 2,
    )


def differs(told: float, meant: Fraction, *, slack: Fraction) -> bool:
    """Whether a number is another one."""
    return abs(Fraction(told) - meant) > slack


def weighs(weight: dict[str, Any], meant_g: Fraction) -> bool:
    """Whether a weight is told as it is, to the digits that are shown."""
    shown = {"g": Fraction("0.0501"), "oz": Fraction("0.00501"), "lb": Fraction("0.000501")}[weight["unit"]]
    slack = (shown + abs(meant_g) / EXACT_G[weight["unit"]] * CLOSE) * EXACT_G[weight["unit"]]
    return abs(Fraction(weight["value"]) * EXACT_G[weight["unit"]] - meant_g) <= slack


def is_share(percent: float, part_g: Fraction, whole_g: Fraction) -> bool:
    """Whether a percentage is this share, to its six decimals."""
    meant = 100 * part_g / whole_g
    return abs(Fraction(percent) - meant) <= Fraction(1, 10**6) + abs(meant) * CLOSE


def verdicts_of(bench: Bench) -> set[tuple[str, str]]:
    """The verdict and its code; two of them where the difference is at a bound."""
    off_g, allowed_g, crumb_g = abs(bench.left_g), bench.allowed * bench.bought_g, CLOSE * bench.bought_g
    told = set()
    for nudge_g in (-crumb_g, crumb_g):
        is_off = off_g - bench.coarse_g > allowed_g + nudge_g
        if is_off and bench.left_g < 0:
            told.add(("not_met", "too_much_weight"))
        elif not bench.is_whole:
            told.add(("cannot_tell", "part_not_weighed"))
        elif is_off:
            told.add(("not_met", "weight_missing"))
        else:
            closes = off_g + bench.coarse_g <= allowed_g + nudge_g
            told.add(("met", "closes") if closes else ("cannot_tell", "scale_too_coarse"))
    return told


def closing_slips(bench: Bench, room: tuple[float, float], crumb: Fraction) -> set[tuple[str, ...]]:
    """The parts of every reading in other units that would close the test; none of them where it is the purchase."""
    closing: set[tuple[str, ...]] = set()
    weighed_g, bought, parts = bench.bought_g - bench.left_g, bench.body["purchased"], bench.body["parts"]
    for unit, instead in TAKEN_FOR:
        more_g, whole_g = EXACT_G[instead] - EXACT_G[unit], Fraction(bought["value"]) * EXACT_G[instead]
        if bought["unit"] == unit and _comes_together(bench, whole_g, weighed_g, room, crumb):
            closing.add(())
        stated = [(part["name"], _in_unit(part, unit)) for part in parts]
        names = tuple(dict.fromkeys(name for name, values in stated if values))
        read_g = weighed_g + sum(sum(values) for _, values in stated) * more_g
        if len(names) > 1 and _comes_together(bench, bench.bought_g, read_g, room, crumb):
            closing.add(names)
        for name, value in ((name, one) for name, values in stated for one in {sum(values), *values} - {0}):
            fits = _comes_together(bench, bench.bought_g, weighed_g + value * more_g, room, crumb)
            if fits and value * EXACT_G[instead] >= 5:
                closing.add((name,))
    return closing


def slips_within(bench: Bench, crumb: Fraction) -> set[tuple[str, ...]]:
    """Cured parts that alone stand in a unit, while with that of another number the test closes three times better."""
    named: set[tuple[str, ...]] = set()
    weighed_g = bench.bought_g - bench.left_g
    if abs(bench.left_g) <= bench.coarse_g + bench.bought_g * (CLOSE if crumb < 0 else 0):
        return set()
    for part in bench.body["parts"]:
        numbers = [one for other in bench.body["parts"] if other is not part for one in other.get("weights") or []]
        others = {one["unit"] for one in [bench.body["purchased"], *numbers]}
        for unit, instead in TAKEN_FOR if part["use"] == "cure" else ():
            values = _in_unit(part, unit)
            if unit in others or instead not in others:
                continue
            for value in {sum(values), *values} - {0}:
                left_g = bench.bought_g - weighed_g - value * (EXACT_G[instead] - EXACT_G[unit])
                better = abs(left_g) <= abs(bench.left_g) / 3 + crumb * bench.bought_g
                if better and value * EXACT_G[instead] >= 5:
                    named.add((part["name"],))
    return named


def _in_unit(part: dict[str, Any], unit: str) -> list[Fraction]:
    return [Fraction(one["value"]) for one in part.get("weights") or [] if one["unit"] == unit]


def _comes_together(
    bench: Bench, whole_g: Fraction, weighed_g: Fraction, room: tuple[float, float], crumb: Fraction
) -> bool:
    left, slack = (whole_g - weighed_g) / whole_g, bench.allowed + crumb
    if bench.is_whole:
        return abs(left) <= slack
    return left > -crumb and Fraction(room[0]) - slack <= left <= Fraction(room[1]) + slack


def room_of(bench: Bench, rows: list[dict[str, Any]]) -> tuple[float, float]:
    """From where to where what is left over may lie, of what was bought, by what is published of the parts of a cut.

    Where nothing is: a tenth for losses, a quarter for waste, half for anything else and for all together.
    """
    zipped = list(zip(bench.body["parts"], bench.parts_g, strict=True))
    stated = [(part.get("what"), part_g) for part, part_g in zipped]
    kinds = {part["what"] for part, part_g in zipped if part_g is None and part.get("what") and part["use"] != "loss"}
    spans = spans_of(rows)
    covers = _covers(list(spans), kinds) if kinds else []
    own = _own([part for part, part_g in zipped if part_g is None], is_published=bool(covers))
    if not covers:
        return 0.0, own
    lows, highs = [], []
    for cover in covers:
        inside = [part_g for what, part_g in stated if part_g is not None and any(what in one for one in cover)]
        weighed_percent = float(100 * sum(inside, Fraction(0)) / bench.bought_g)
        complete = [one for one in cover if (one - {"trim"} or one) <= {what for what, _ in stated}]
        lows.append((sum(spans[one][0] for one in complete) - weighed_percent) / 100)
        highs.append((sum(spans[one][1] for one in cover) - weighed_percent) / 100)
    return max(min(lows), 0.0), max(*highs, min(max(highs) + own, 0.5))


def _own(unweighed: list[dict[str, Any]], *, is_published: bool) -> float:
    uses = {one["use"] for one in unweighed if one["use"] == "loss" or not one.get("what") or not is_published}
    return min(sum({"loss": 0.1, "waste": 0.25}.get(use, 0.5) for use in uses), 0.5)


def _covers(shares: list[frozenset[str]], kinds: set[str]) -> list[list[frozenset[str]]]:
    """Every share that holds all the kinds; else all that hold one of them, where they do so once each."""
    touching = [one for one in shares if one & kinds]
    held = [kind for one in touching for kind in one]
    disjoint = len(held) == len(set(held)) and kinds <= set(held)
    return [[one] for one in shares if kinds <= one] or ([touching] if disjoint else [])


def spans_of(rows: list[dict[str, Any]]) -> dict[frozenset[str], tuple[float, float]]:
    """The least and the most that is published of what was weighed together; around one figure a quarter."""
    spans: dict[frozenset[str], tuple[float, float]] = {}
    for row in rows:
        if row.get("consists_of"):
            low, high = spans.get(frozenset(row["consists_of"]), (100.0, 0.0))
            spans[frozenset(row["consists_of"])] = min(low, row["low_percent"]), max(high, row["high_percent"])
    ways = {kinds: 0.25 * min(low, 100 - low) if low == high else 0.0 for kinds, (low, high) in spans.items()}
    return {kinds: (low - ways[kinds], high + ways[kinds]) for kinds, (low, high) in spans.items()}
