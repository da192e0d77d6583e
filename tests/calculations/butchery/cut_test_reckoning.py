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


def closing_slips(bench: Bench, crumb: Fraction) -> set[str | None]:
    """The names of parts of which one number, or all of one unit, would close the test in another unit."""
    closing: set[str | None] = set()
    for unit, instead in TAKEN_FOR:
        if bench.body["purchased"]["unit"] == unit:
            whole_g = Fraction(bench.body["purchased"]["value"]) * EXACT_G[instead]
            if abs(whole_g - (bench.bought_g - bench.left_g)) <= (bench.allowed + crumb) * whole_g:
                closing.add(None)
        for part in bench.body["parts"]:
            values = [Fraction(one["value"]) for one in part.get("weights") or [] if one["unit"] == unit]
            for value in {sum(values), *values} if values else ():
                left_g = bench.left_g - value * (EXACT_G[instead] - EXACT_G[unit])
                heavy = value * EXACT_G[instead] >= 5
                if heavy and abs(left_g) <= (bench.allowed + crumb) * bench.bought_g:
                    closing.add(part["name"])
    return closing
