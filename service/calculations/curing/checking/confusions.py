"""Typical confusions, named when undoing one turns an odd figure into a usual one."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from service.calculations.curing.checking.as_written import (
    WrittenCuringSalt,
    WrittenImmersion,
    WrittenMethod,
    WrittenPump,
)
from service.calculations.curing.checking.contents import Contents, CuringSaltLine
from service.calculations.curing.checking.plain_numbers import plain
from service.calculations.curing.checking.uptakes import basis_of, uptakes_of
from service.calculations.curing.checking.vessel import Pot
from service.calculations.curing.methods import Comminuted, Dry, PickUp
from service.quantities.quantity import G_PER_OZ
from service.quantities.units import factor

USUAL_PPM = (100.0, 200.0)
"""Ingoing nitrite that recipes aim at (9 CFR 424.21(c): 120 to 200 ppm; Health Canada: 100 to 200)."""
ONE_TO_25_PPM = 156.25
"""One ounce of the strong curing salt to 25 pounds of meat (home books and spice merchants)."""
STRONG_PERCENT, WEAK_PERCENT = 6.25, 0.5
"""The two curing salts that are taken for each other: a twelfth apart (labels, see premixes)."""
LARGEST_FRACTION_PERCENT = 0.1
"""A stated nitrite percentage up to this looks like a fraction: 0.0625 for 6.25 (own bound)."""
LARGEST_UPTAKE_FRACTION_PERCENT = 1.0
"""Likewise for a pump or pick-up: 0.1 for 10 percent (own bound)."""
PURE_PPM = (40.0, 700.0)
"""Weight of the salt itself per meat at which it looks as if it were neat nitrite (own bounds)."""


@dataclass(frozen=True, slots=True)
class Sum:
    """The sum of a recipe with one curing salt, by middle weights: enough to try other readings of its words on."""

    cure_g: float
    spread_ratio: float
    """The most that the curing salt may weigh, by its middle weight."""
    strength_percent: float
    meat_g: float
    pickle_less_water_g: float
    water_g: float
    uptake_percent: float | None
    """Pump or pick-up; None where meat and pickle come to equilibrium, or there is no pickle."""

    @property
    def is_usual(self) -> bool:
        """Whether any weight of the spoon makes it one of the usual figures."""
        return self.ppm * self.spread_ratio >= USUAL_PPM[0] and self.ppm * (2 - self.spread_ratio) <= USUAL_PPM[1]

    @property
    def is_one_to_25(self) -> bool:
        """Whether it is the home books' rule of one ounce to 25 pounds."""
        return abs(self.ppm - ONE_TO_25_PPM) < 0.05 * ONE_TO_25_PPM

    @property
    def ppm(self) -> float:
        """What it comes to."""
        nitrite_g = self.cure_g * self.strength_percent / 100
        pickle_g = self.water_g + self.pickle_less_water_g
        if self.uptake_percent is not None:
            return nitrite_g * self.uptake_percent / 100 * 1e6 / pickle_g
        return nitrite_g * 1e6 / (self.meat_g + (pickle_g if self.water_g else 0.0))


def sum_of(pot: Pot, line: CuringSaltLine, method: WrittenMethod) -> Sum | None:
    """The sum, where the curing salt, its nitrite and, for a pickle, the water are known."""
    label, weight = line.written.label, line.weight
    if weight is None or label is None or label.nitrite is None:
        return None
    if not isinstance(method, Dry | Comminuted) and method.water is None:
        return None
    others = [one.weight for one in pot.contents.lines or () if one.weight and one.role != "solid"]
    cure_g = (weight.low_g + weight.high_g) / 2
    return Sum(
        cure_g=cure_g,
        spread_ratio=weight.high_g / cure_g,
        strength_percent=label.nitrite.percent,
        meat_g=pot.green_g,
        pickle_less_water_g=cure_g + pot.accelerator.low_g + sum((one.low_g + one.high_g) / 2 for one in others),
        water_g=0.0 if isinstance(method, Dry | Comminuted) else pot.water_g,
        uptake_percent=_uptake_percent(method),
    )


def _uptake_percent(method: WrittenMethod) -> float | None:
    if isinstance(method, WrittenPump):
        return method.pump_percent
    basis = basis_of(method)
    return basis.percent if isinstance(basis, PickUp) and isinstance(method, WrittenImmersion) else None


@dataclass(frozen=True, slots=True)
class Confusion:
    """Two things that were perhaps taken for each other."""

    code: str
    message: str


def fractions_in(contents: Contents, method: WrittenMethod) -> Iterator[Confusion]:
    """Percentages so small that a fraction was written, whatever the figure comes to."""
    for percent in (label.nitrite.percent for label in contents.labels if label.nitrite):
        if percent <= LARGEST_FRACTION_PERCENT:
            yield Confusion(
                "fraction_for_percent",
                f"A curing salt of {percent:g} percent is weaker than any; a fraction was perhaps written for "
                f"{100 * percent:g} percent.",
            )
    for percent in uptakes_of(method):
        if percent <= LARGEST_UPTAKE_FRACTION_PERCENT:
            yield Confusion(
                "fraction_for_percent",
                f"A pump or pick-up of {percent:g} percent looks like a fraction; {100 * percent:g} percent is usual.",
            )


def confusions_in(told: Sum, salt: WrittenCuringSalt, method: WrittenMethod) -> Iterator[Confusion]:
    """Every confusion that would explain the figure."""
    for code, suspect, meant in _suspects(told, salt, method):
        if meant.is_usual and (not told.is_usual or (code == "fluid_ounce_for_ounce" and meant.is_one_to_25)):
            yield Confusion(
                code, f"{suspect} As written it comes to {plain(told.ppm)} ppm; so read, to {plain(meant.ppm)}."
            )


Suspect = tuple[str, str, Sum]


def _suspects(told: Sum, salt: WrittenCuringSalt, method: WrittenMethod) -> Iterator[Suspect]:
    yield from _of_strength(told)
    yield from _of_ounces(told, salt)
    yield from _of_water(told, method)


def _of_strength(told: Sum) -> Iterator[Suspect]:
    stated = told.strength_percent
    if stated <= LARGEST_FRACTION_PERCENT:
        return
    if stated <= 2 * WEAK_PERCENT:
        text = f"The amount is that of a curing salt of {STRONG_PERCENT:g} percent; this one has {stated:g}."
        yield "weak_salt_at_strong_rate", text, replace(told, strength_percent=STRONG_PERCENT)
    else:
        text = f"The amount is that of a nitrited salt of {WEAK_PERCENT:g} percent; this one has {stated:g}."
        yield "strong_salt_at_weak_rate", text, replace(told, strength_percent=WEAK_PERCENT)


def _of_ounces(told: Sum, salt: WrittenCuringSalt) -> Iterator[Suspect]:
    """A whole number of fluid ounces, however it is spooned, was perhaps meant as ounces by weight."""
    amount = salt.amount
    if amount is None or not amount.is_volume:
        return
    ounces = amount.ml / factor("fl_oz")
    whole = round(ounces) >= 1 and abs(ounces - round(ounces)) < 1e-6
    if amount.unit == "fl_oz" or (whole and amount.unit in ("tbsp", "tsp")):
        text = (
            f"{amount.value:g} {amount.unit} is {ounces:g} oz by volume, 6 teaspoons each; an ounce by weight is "
            f"{G_PER_OZ:.4g} g, about 5 teaspoons of curing salt."
        )
        yield "fluid_ounce_for_ounce", text, replace(told, cure_g=ounces * G_PER_OZ, spread_ratio=1.0)


def _of_water(told: Sum, method: WrittenMethod) -> Iterator[Suspect]:
    water = None if isinstance(method, Dry | Comminuted) else method.water
    if water is None or water.unit not in ("l", "gal"):
        return
    other = "gal" if water.unit == "l" else "l"
    ratio = factor(other) / factor(water.unit)
    text = f"{water.value:g} {water.unit} of water was perhaps meant as {water.value:g} {other}."
    code = "litres_for_gallons" if water.unit == "l" else "gallons_for_litres"
    yield code, text, replace(told, water_g=told.water_g * ratio)
