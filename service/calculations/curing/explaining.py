"""The arithmetic in words, line by line, with its numbers."""

from collections.abc import Iterable

from service.calculations.curing.amounts import Amounts, Recipe
from service.calculations.curing.pickle import percent_line
from service.calculations.curing.readings import Readings
from service.calculations.curing.salts import NITRITE_ION, POTASSIUM_NITRITE, SODIUM_NITRITE
from service.calculations.curing.taking_up import SOURCES as STAY_SOURCES
from service.calculations.curing.taking_up import stay_line
from service.rules.finding import Finding

FORMULA_SOURCE = (
    "FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995: "
    "dry p. 24, pumped p. 19, immersion p. 22 (reported)"
)

Number = int | float
"""A number of any unit, about to be written down."""


def sources_of(findings: Iterable[Finding], *, stays: bool = False) -> tuple[str, ...]:
    """The texts behind limits and formulas, each once; stays: a stay in a pickle was reckoned."""
    models = STAY_SOURCES if stays else ()
    return tuple(dict.fromkeys([*(finding.citation for finding in findings), FORMULA_SOURCE, *models]))


def steps_of(
    exact: Amounts, curing_salt_g: float, readings: Readings, findings: tuple[Finding, ...]
) -> tuple[str, ...]:
    """The arithmetic of a dose. curing_salt_g is what the pickle as weighed needs, before the scale's step."""
    recipe, weighed = readings.recipe, readings.amounts
    lines = [_green_line(recipe)]
    if recipe.bath:
        lines += [_pickle_line("Pickle before rounding", exact), _uptake_line(recipe, exact)]
    lines += [_cure_line(recipe, exact), *_percent_lines(recipe, exact, weighed)]
    if exact.accelerator_g:
        lines.append(_accelerator_line(recipe, exact, weighed))
    return (*lines, *_weighed_lines(recipe, weighed, curing_salt_g), *_check_lines(readings, findings))


def _g(mass_g: float) -> str:
    return f"{_n(mass_g)} g"


def _n(value: Number) -> str:
    """Four decimals at most: enough to follow the sum by hand."""
    return f"{value:,.4f}".rstrip("0").rstrip(".")


def _mg(mass_g: float) -> str:
    """A weight of nitrite, to eight digits, because much is divided by it."""
    return f"{mass_g:.8g} g"


def _share(value: Number) -> str:
    """A fraction, to nine digits."""
    return f"{value:.9g}"


def _green_line(recipe: Recipe) -> str:
    if recipe.green_g == recipe.meat_g:
        return f"Green weight: {_g(recipe.meat_g)} of raw meat."
    how = "weighed without skin" if recipe.weighed_skin else "skin taken as a tenth"
    return f"Green weight without skin: {_g(recipe.green_g)} of {_g(recipe.meat_g)} ({how})."


def _pickle_line(name: str, amounts: Amounts) -> str:
    parts = (
        ("water", amounts.water_g), ("salt", amounts.salt_g), ("sugar", amounts.sugar_g),
        ("curing salt", amounts.curing_salt_g), ("accelerator", amounts.accelerator_g),
        ("stock powder", amounts.stock_powder_g), ("other", amounts.dissolved_g),
    )  # fmt: skip
    summed = " + ".join(f"{_g(mass_g)} {part}" for part, mass_g in parts if mass_g)
    return f"{name}: {summed} = {_g(amounts.pickle_g)}."


def _uptake_line(recipe: Recipe, amounts: Amounts) -> str:
    bath = recipe.bath
    assert bath is not None
    skin = f" x {_g(recipe.meat_g)} / {_g(bath.green_g)}" if bath.green_g != recipe.meat_g else ""
    parts = []
    if bath.injected_g:
        parts.append(f"pump {_share(bath.injected_g / recipe.meat_g)}{skin}")
    if bath.pick_up_fraction:
        parts.append(f"pick-up {_share(bath.pick_up_fraction * bath.green_g / recipe.meat_g)}{skin}")
    if bath.equilibrium:
        cover_g = amounts.pickle_g - bath.injected_g
        parts.append(f"cover {_g(cover_g)} / ({_g(bath.green_g)} meat + {_g(cover_g)} cover)")
    summed, total = " + ".join(parts), _share(bath.uptake_fraction(amounts.pickle_g))
    equals = "" if summed.endswith(f" {total}") else f" = {total}"
    return f"Share of the pickle's strength that the meat gets: {summed}{equals}."


def _cure_line(recipe: Recipe, exact: Amounts) -> str:
    wanted, strength, cure = recipe.wanted, _share(recipe.cure.nitrite_fraction), _g(exact.curing_salt_g)
    if wanted.target_ppm is None:
        return f"Curing salt: {_of(recipe, wanted.curing_salt_percent)} = {cure}."
    if recipe.bath is None:
        return f"Curing salt: {_n(wanted.target_ppm)} ppm x {_g(recipe.green_g)} / {strength} = {cure}."
    uptake = _share(recipe.bath.uptake_fraction(exact.pickle_g))
    return f"Curing salt: {_n(wanted.target_ppm)} ppm x {_g(exact.pickle_g)} pickle / ({strength} x {uptake}) = {cure}."


def _of(recipe: Recipe, percent: float | None) -> str:
    """A percentage and what it is reckoned on."""
    if recipe.bath is None:
        return f"{_n(percent or 0)} % of {_g(recipe.meat_g)} meat"
    if recipe.bath.immersed:
        return f"{_n(percent or 0)} % of ({_g(recipe.meat_g)} meat + {_g(recipe.water_g)} water)"
    pump_percent = 100 * recipe.bath.injected_g / recipe.meat_g
    of_pickle = f"{(percent or 0) / pump_percent * 100:.9g}"
    return f"{_n(percent or 0)} % of the meat, in a pump of {_n(pump_percent)} %, so {of_pickle} % of the pickle"


def _percent_lines(recipe: Recipe, exact: Amounts, weighed: Amounts) -> list[str]:
    wanted, cure = recipe.wanted, recipe.cure
    rows = (
        ("Salt", wanted.salt_percent, cure.salt_fraction, recipe.stock_salt_g, exact.salt_g, weighed.salt_g),
        ("Sugar", wanted.sugar_percent, cure.sugar_fraction, 0.0, exact.sugar_g, weighed.sugar_g),
    )
    return [
        f"{name}: {_of(recipe, percent)} = {_g(percent_line(recipe, percent).at_g(exact.pickle_g))}"
        f"{_less(plain_g, cure_g=exact.curing_salt_g * fraction, stock_g=stock_g)}; on the scale {_g(shown_g)}."
        for name, percent, fraction, stock_g, plain_g, shown_g in rows
        if percent is not None
    ]


def _less(plain_g: float, *, cure_g: float, stock_g: float) -> str:
    """What is inside other ingredients already, and what is left to weigh."""
    parts = (("curing salt", cure_g), ("stock powder", stock_g))
    less = "".join(f", less {_g(mass_g)} in the {name}" for name, mass_g in parts if mass_g)
    return f"{less} = {_g(plain_g)}" if less else ""


def _accelerator_line(recipe: Recipe, exact: Amounts, weighed: Amounts) -> str:
    accelerator = recipe.wanted.accelerator
    assert accelerator is not None
    ratio = accelerator.weighed_per_anhydrous_ratio
    hydrate = f" x {_share(ratio)} (monohydrate)" if ratio != 1 else ""
    uptake = _share(recipe.bath.uptake_fraction(exact.pickle_g)) if recipe.bath else ""
    on = f"{_g(exact.pickle_g)} pickle / {uptake}" if recipe.bath else _g(recipe.green_g)
    name = accelerator.kind.replace("_", " ").capitalize()
    shown = f"{_g(exact.accelerator_g)}; on the scale {_g(weighed.accelerator_g)}"
    return f"{name}: {_n(accelerator.ppm)} ppm{hydrate} x {on} = {shown}."


def _weighed_lines(recipe: Recipe, weighed: Amounts, curing_salt_g: float) -> list[str]:
    """The curing salt once more, for what the scale shows of the rest."""
    shown = f"{_g(curing_salt_g)}, rounded down to {_g(weighed.curing_salt_g)}"
    if recipe.bath is None:
        return [f"Curing salt on the scale: {shown}."]
    return [
        _pickle_line("Pickle as weighed", weighed),
        f"Curing salt again, in step with the salt and sugar as weighed: {shown}.",
    ]


def _check_lines(readings: Readings, findings: tuple[Finding, ...]) -> list[str]:
    """The sum the other way round, from what is weighed, on every basis that a rule asked for."""
    recipe, weighed, bases = readings.recipe, readings.amounts, readings.bases
    strength = _share(recipe.cure.nitrite_fraction)
    nitrite = f"{_g(weighed.curing_salt_g)} x {strength} = {_mg(readings.nitrite_g)} of nitrite"
    reached = f"{_n(readings.nitrite_g * bases.green_ppm)} ppm"
    if recipe.bath is None:
        lines = [f"Check: {nitrite}; / {_g(recipe.green_g)} = {reached}."]
    else:
        uptake = _share(recipe.bath.uptake_fraction(weighed.pickle_g))
        lines = [f"Check: {nitrite}; x {uptake} / {_g(weighed.pickle_g)} = {reached}."]
    if bases.system_ppm is not None:
        system = f"{_g(recipe.green_g)} meat + {_g(weighed.pickle_g)} pickle"
        lines.append(
            f"Whole system: {_mg(readings.nitrite_g)} / ({system}) = {_n(readings.nitrite_g * bases.system_ppm)} ppm."
        )
    lines += _stay_lines(readings)
    asked = {finding.basis for finding in findings if finding.measure in ("nitrite", "nitrate")}
    if asked & {"whole_batch", "product_at_addition"}:
        lines += _batch_lines(readings)
    return lines


def _stay_lines(readings: Readings) -> list[str]:
    """How much of the whole system can be in the piece when it comes out."""
    bath, bases = readings.recipe.bath, readings.bases
    if bath is None or bath.stayed is None or bases.system_ppm is None or bases.after_stay_ppm is None:
        return []
    system, taken = (_n(readings.nitrite_g * one_g_ppm) for one_g_ppm in (bases.system_ppm, bases.green_ppm))
    pumped = _n(readings.nitrite_g * bases.green_ppm * bath.injected_g / bath.taken_up_g)
    share = f"{bath.stayed.share_fraction:.6g}"
    moved = f"{pumped} + {share} x ({system} - {pumped})" if bath.injected_g else f"{share} x {system}"
    most = _n(readings.nitrite_g * bases.after_stay_ppm)
    bounds = f"no less than the {taken} ppm that are stated to be taken up, no more than the whole system"
    return [stay_line(bath.stayed), f"After the stay: {moved} ppm, {bounds} = {most} ppm."]


def _batch_lines(readings: Readings) -> list[str]:
    """On the whole product at the moment of addition, as the salt and as the ion."""
    recipe, bases = readings.recipe, readings.bases
    molar = SODIUM_NITRITE if recipe.cure.nitrite.salt == "sodium_nitrite" else POTASSIUM_NITRITE
    ppm = readings.nitrite_g * bases.batch_ppm
    share = bases.batch_ppm * bases.batch_g / 1e6
    goes_in = f"{_mg(readings.nitrite_g)} of nitrite" + (f" x {_share(share)} that goes in" if share < 1 else "")
    ion = f"as the ion x {_n(NITRITE_ION)} / {_n(molar)} = {_n(ppm * NITRITE_ION / molar)} ppm"
    lines = [f"Whole batch: {goes_in} / {_g(bases.batch_g)} = {_n(ppm)} ppm; {ion}."]
    if readings.nitrate_g:
        nitrate = f"{_mg(readings.nitrate_g)} of nitrate" + (f" x {_share(share)}" if share < 1 else "")
        lines.append(f"Nitrate: {nitrate} / {_g(bases.batch_g)} = {_n(readings.nitrate_g * bases.batch_ppm)} ppm.")
    return lines
