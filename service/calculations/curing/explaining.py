"""The arithmetic in words, and the warnings that belong to it."""

from service.calculations.curing.amounts import Amounts, Recipe
from service.calculations.curing.pickle import percent_line
from service.calculations.curing.products import Bacon, Poultry, Product
from service.calculations.curing.readings import Readings
from service.rules.book import RuleBook
from service.rules.finding import Finding
from service.rules.rule import Caution

FORMULA_SOURCE = (
    "FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995: "
    "dry p. 24, pumped p. 19, immersion p. 22 (reported)"
)
LOW_NITRITE_PPM = 118.0
"""Under this ingoing sodium nitrite the warnings against a weak cure are printed: the 120 ppm of the FSIS handbook,
p. 12 (reported), less this project's design band for rounding down.
"""

Number = int | float
"""A number of any unit, about to be written down."""

ALWAYS = (
    "nitrite-toxic", "strength-from-label", "nitrite-emergency", "keep-cold-while-curing", "raw-meat-hygiene",
    "vulnerable-people", "local-code",
)  # fmt: skip
WET = ("hot-brine", "no-brine-reuse", "foil-salt-acid")


def cautions_for(
    product: Product, readings: Readings, findings: tuple[Finding, ...], book: RuleBook
) -> tuple[Caution, ...]:
    """Every caution whose trigger holds, each once."""
    ids = [*ALWAYS, *_of_product(product), *_of_recipe(readings)]
    ids += [caution for finding in findings for caution in finding.cautions]
    return book.cautions_of(ids)


def _of_product(product: Product) -> tuple[str, ...]:
    if isinstance(product, Bacon):
        return ("bacon-special",)
    if isinstance(product, Poultry):
        return ("poultry",)
    wild = product.kind in ("whole_muscle", "sausage") and product.species == "game"
    raw_pork = product.kind != "corned_beef" and product.species in ("pork", "mixed") and product.finish != "cooked"
    return ("game-and-pork-parasites",) if wild or raw_pork else ()


def _of_recipe(readings: Readings) -> tuple[str, ...]:
    recipe = readings.recipe
    wet = WET if recipe.bath else ()
    accelerator = recipe.wanted.accelerator
    acid = ("accelerator-apart",) if recipe.bath and accelerator and accelerator.kind.endswith("_acid") else ()
    sodium_nitrite_ppm = readings.nitrite_ppm(basis="green_weight", expressed_as="sodium_nitrite") or 0.0
    weak = ("too-little-is-dangerous", "botulism") if sodium_nitrite_ppm < LOW_NITRITE_PPM else ()
    return (*wet, *acid, *weak)


def sources_of(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """The texts behind limits and formulas, each once."""
    return tuple(dict.fromkeys([*(finding.citation for finding in findings), FORMULA_SOURCE]))


def steps_of(exact: Amounts, readings: Readings) -> tuple[str, ...]:
    """The arithmetic of a dose, a line each, with its numbers."""
    recipe, weighed = readings.recipe, readings.amounts
    lines = [_green_line(recipe)]
    if recipe.bath:
        lines += [_pickle_line(weighed), _uptake_line(readings)]
    lines += [_cure_line(recipe, exact, weighed), *_percent_lines(recipe, exact, weighed)]
    if exact.accelerator_g:
        lines.append(_accelerator_line(recipe, exact, weighed))
    return (*lines, *_check_lines(readings))


def _g(mass_g: float) -> str:
    return f"{_n(mass_g)} g"


def _n(value: Number) -> str:
    """Four decimals at most: enough to follow the sum by hand."""
    return f"{value:,.4f}".rstrip("0").rstrip(".")


def _green_line(recipe: Recipe) -> str:
    if recipe.green_g == recipe.meat_g:
        return f"Green weight: {_g(recipe.meat_g)} of raw meat."
    share = recipe.green_g / recipe.meat_g
    return f"Green weight without skin: {_g(recipe.meat_g)} x {_n(share)} = {_g(recipe.green_g)}."


def _pickle_line(weighed: Amounts) -> str:
    parts = (
        ("water", weighed.water_g), ("salt", weighed.salt_g), ("sugar", weighed.sugar_g),
        ("curing salt", weighed.curing_salt_g), ("accelerator", weighed.accelerator_g),
        ("stock powder", weighed.stock_powder_g), ("other", weighed.other_g),
    )  # fmt: skip
    summed = " + ".join(f"{_g(mass_g)} {name}" for name, mass_g in parts if mass_g)
    return f"Pickle as weighed: {summed} = {_g(weighed.pickle_g)}."


def _uptake_line(readings: Readings) -> str:
    bath, pickle_g = readings.recipe.bath, readings.amounts.pickle_g
    assert bath is not None
    parts = []
    if bath.injected_g:
        parts.append(f"pump {_n(bath.injected_fraction)}")
    if bath.pick_up_fraction:
        parts.append(f"pick-up {_n(bath.pick_up_fraction)}")
    if bath.equilibrium:
        cover_g = pickle_g - bath.injected_g
        parts.append(f"cover {_g(cover_g)} / ({_g(bath.green_g)} green + {_g(cover_g)} cover)")
    summed = " + ".join(parts)
    total = _n(bath.uptake_fraction(pickle_g))
    return (
        f"Share of the pickle's strength that the meat gets: {summed}{'' if summed.endswith(total) else f' = {total}'}."
    )


def _cure_line(recipe: Recipe, exact: Amounts, weighed: Amounts) -> str:
    wanted, strength = recipe.wanted, _n(recipe.cure.nitrite_fraction)
    shown = f"{_g(exact.curing_salt_g)}; on the scale {_g(weighed.curing_salt_g)}"
    if wanted.target_ppm is None:
        return f"Curing salt: {_share(recipe, wanted.curing_salt_percent)} = {shown}."
    if recipe.bath is None:
        return f"Curing salt: {_n(wanted.target_ppm)} ppm x {_g(recipe.green_g)} / {strength} = {shown}."
    uptake = _n(recipe.bath.uptake_fraction(exact.pickle_g))
    return (
        f"Curing salt: {_n(wanted.target_ppm)} ppm x {_g(exact.pickle_g)} of pickle before rounding "
        f"/ ({strength} x {uptake}) = {shown}."
    )


def _share(recipe: Recipe, percent: float | None) -> str:
    """A percentage and what it is reckoned on."""
    if recipe.bath is None:
        return f"{_n(percent or 0)} % of {_g(recipe.meat_g)} meat"
    if recipe.bath.immersed:
        return f"{_n(percent or 0)} % of ({_g(recipe.meat_g)} meat + {_g(recipe.water_g)} water)"
    pump_percent = 100 * recipe.bath.injected_g / recipe.meat_g
    of_pickle = _n((percent or 0) / pump_percent * 100)
    return f"{_n(percent or 0)} % of the meat, in a pump of {_n(pump_percent)} %, so {of_pickle} % of the pickle"


def _percent_lines(recipe: Recipe, exact: Amounts, weighed: Amounts) -> list[str]:
    wanted, cure = recipe.wanted, recipe.cure
    rows = (
        ("Salt", wanted.salt_percent, cure.salt_fraction, recipe.stock_salt_g, exact.salt_g, weighed.salt_g),
        ("Sugar", wanted.sugar_percent, cure.sugar_fraction, 0.0, exact.sugar_g, weighed.sugar_g),
    )
    return [
        f"{name}: {_share(recipe, percent)} = {_g(percent_line(recipe, percent).at_g(exact.pickle_g))}"
        f"{_less(cure_g=exact.curing_salt_g * fraction, stock_g=stock_g)} = {_g(plain_g)}; on the scale {_g(shown_g)}."
        for name, percent, fraction, stock_g, plain_g, shown_g in rows
        if percent is not None
    ]


def _less(*, cure_g: float, stock_g: float) -> str:
    """What is inside other ingredients already."""
    parts = (("curing salt", cure_g), ("stock powder", stock_g))
    return "".join(f", less {_g(mass_g)} in the {name}" for name, mass_g in parts if mass_g)


def _accelerator_line(recipe: Recipe, exact: Amounts, weighed: Amounts) -> str:
    accelerator = recipe.wanted.accelerator
    assert accelerator is not None
    hydrate = (
        f" x {_n(accelerator.weighed_per_anhydrous_ratio)} (monohydrate)" if accelerator.form == "monohydrate" else ""
    )
    reckoned = "like the curing salt" if recipe.bath else f"on {_g(recipe.green_g)}"
    name = accelerator.kind.replace("_", " ").capitalize()
    shown = f"{_g(exact.accelerator_g)}; on the scale {_g(weighed.accelerator_g)}"
    return f"{name}: {_n(accelerator.ppm)} ppm{hydrate} {reckoned} = {shown}."


def _check_lines(readings: Readings) -> list[str]:
    """The sum the other way round, from what is weighed."""
    recipe, weighed = readings.recipe, readings.amounts
    nitrite = f"{_g(weighed.curing_salt_g)} x {_n(recipe.cure.nitrite_fraction)} = {_g(readings.nitrite_g)} of nitrite"
    ppm = _n(readings.nitrite_g * readings.bases.green_ppm)
    if recipe.bath is None:
        return [f"Check: {nitrite}; / {_g(recipe.green_g)} = {ppm} ppm."]
    uptake = _n(recipe.bath.uptake_fraction(weighed.pickle_g))
    lines = [f"Check: {nitrite}; x {uptake} / {_g(weighed.pickle_g)} = {ppm} ppm."]
    if readings.bases.system_ppm is None:
        return lines
    whole_ppm = _n(readings.nitrite_g * readings.bases.system_ppm)
    system = f"{_g(recipe.green_g)} meat + {_g(weighed.pickle_g)} pickle"
    return [*lines, f"Whole system: {_g(readings.nitrite_g)} / ({system}) = {whole_ppm} ppm."]
