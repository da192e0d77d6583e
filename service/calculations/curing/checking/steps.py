"""The arithmetic of a check in words, line by line, with its numbers."""

from collections.abc import Iterator

from service.calculations.curing.checking.assessing import Case
from service.calculations.curing.checking.contents import Contents, CuringSaltLine, Span
from service.calculations.curing.checking.figures import Between, CheckFigures
from service.calculations.curing.checking.side_by_side import ReadingName
from service.calculations.curing.taking_up import stay_line

Number = int | float
"""A number of any unit, about to be written down."""


def check_steps(case: Case, contents: Contents, figures: CheckFigures) -> tuple[str, ...]:
    """The sums that led to the figures."""
    return (*_meat_lines(case), *_cure_lines(contents), *_pickle_lines(case, figures), *_reading_lines(case, figures))


def _meat_lines(case: Case) -> Iterator[str]:
    if case.pot is None:
        yield "Green weight: not stated."
    elif case.pot.green_g == case.pot.meat_g:
        yield f"Green weight: {_n(case.pot.meat_g)} g of raw meat."
    else:
        yield f"Green weight without skin: {_n(case.pot.green_g)} g of {_n(case.pot.meat_g)} g."


def _cure_lines(contents: Contents) -> Iterator[str]:
    for line in contents.curing_salts or ():
        name = line.written.name or f"Curing salt {line.place + 1}"
        weight = _g(line.weight) if line.weight else "an amount that was not stated"
        how = (
            " (all that such a spoon is known to hold)"
            if line.weight and line.weight.low_g != line.weight.high_g
            else ""
        )
        yield f"{name}: {weight}{how}{_nitrite_in(line)}."


def _nitrite_in(line: CuringSaltLine) -> str:
    label, weight = line.written.label, line.weight
    if label is None or weight is None:
        return ", of a strength that was not stated" if label is None else ""
    parts = (("nitrite", label.nitrite_fraction), ("nitrate", label.nitrate_fraction))
    return "".join(f"; x {share:.9g} = {_g(weight.times(share))} of {substance}" for substance, share in parts if share)


def _pickle_lines(case: Case, figures: CheckFigures) -> Iterator[str]:
    if figures.pickle_weight is not None and case.pot is not None:
        whole = _span(figures.pickle_weight)
        yield f"Pickle: {_n(case.pot.water_g)} g of water with all that is dissolved in it, {whole}."
    if figures.pickle_salt is not None:
        yield f"Salt of the pickle: {_span(figures.pickle_salt)} of its weight."
    bath = case.uptake.baths[0] if case.uptake.known else None
    if bath is not None and bath.stayed:
        yield stay_line(bath.stayed)


def _reading_lines(case: Case, figures: CheckFigures) -> Iterator[str]:
    """Each reading as a sum, as the salt of the label."""
    by_weight = ("sodium_nitrite", "nitrite_salt_by_weight", "sodium_nitrate", "nitrate_salt_by_weight")
    shown = {(one.substance, one.reading): one for one in reversed(figures.readings) if one.expressed_as in by_weight}
    for (substance, reading), one in reversed(shown.items()):
        ppm = f"{_n(one.low)} ppm" if one.low == one.high else f"{_n(one.low)} to {_n(one.high)} ppm"
        yield f"{reading.replace('_', ' ').capitalize()}: {_sum(case, figures, substance, reading)} = {ppm}."


def _sum(case: Case, figures: CheckFigures, substance: str, reading: ReadingName) -> str:
    pot, pickle = case.pot, figures.pickle_weight
    meat = f"{_n(pot.green_g)} g meat" if pot else "meat"
    whole = f"{_span(pickle)} pickle" if pickle else "the pickle"
    dry = case.uptake.known and case.uptake.baths[0] is None
    divided = {
        "on_the_meat": f"/ {meat}", "in_the_batch": f"/ {_batch(case)}" if dry else "", "pickle": f"/ {whole}",
        "after_stay": f"x {_share(case)} / ({meat} + {whole}), no less than what is stated to be taken up,",
        "equilibrium": f"/ ({meat} + {whole})",
        "meat_and_water": f"/ ({meat} + {_n(pot.water_g) if pot else ''} g water)",
    }  # fmt: skip
    return f"{substance} {divided.get(reading) or f'x {_uptake(case)} / {whole}'}"


def _batch(case: Case) -> str:
    """All that goes into the meat, meat included; what is not stated is counted as decision 0009 says."""
    weights_g = sorted(one.meat_g + one.pickle_g + one.other_g for one in (vessel.amounts for vessel in case.vessels()))
    span = _n(weights_g[0]) if weights_g[0] == weights_g[-1] else f"{_n(weights_g[0])} to {_n(weights_g[-1])}"
    return f"{span} g of everything"


def _uptake(case: Case) -> str:
    """The share of the pickle that is taken up, per weight of meat."""
    shares = [bath.taken_up_g / bath.green_g for bath in case.uptake.baths if bath is not None and bath.taken_up_g]
    taken = f"{min(shares):.9g}" if min(shares) == max(shares) else f"{min(shares):.9g} to {max(shares):.9g}"
    covered = any(bath is not None and bath.equilibrium and bath.injected_g for bath in case.uptake.baths)
    return f"({taken} + cover / (meat + cover))" if covered else taken


def _share(case: Case) -> str:
    """How much of the way to equilibrium is gone when the piece comes out."""
    bath = case.uptake.baths[0] if case.uptake.stays else None
    if bath is None or bath.stayed is None:
        return ""
    share = f"{bath.stayed.share_fraction:.6g}"
    return f"(pump and {share} of the way from it)" if bath.injected_g else share


UNITS = {"g": "g", "percent": "percent", "deg": "degrees"}


def _span(between: Between) -> str:
    unit = UNITS[between.unit]
    if between.low == between.high:
        return f"{_n(between.low)} {unit}"
    return f"{_n(between.low)} to {_n(between.high)} {unit}"


def _g(weight: Span) -> str:
    low_g, high_g = weight.low_g, weight.high_g
    return f"{low_g:.7g} g" if low_g == high_g else f"{low_g:.7g} to {high_g:.7g} g"


def _n(value: Number) -> str:
    return f"{value:,.4f}".rstrip("0").rstrip(".")
