"""The arithmetic of a scaled recipe in words, and where its figures are printed."""

from collections.abc import Iterator

from service.calculations.measures.explaining import sources_of_pieces, sources_of_volume
from service.calculations.measures.sodium import SODIUM, SODIUM_CHLORIDE
from service.calculations.measures.spoons import Grams, Number
from service.calculations.seasoning.scaling.at_hand import VesselAtHand
from service.calculations.seasoning.scaling.limiting import Held, room_l_of, room_of
from service.calculations.seasoning.scaling.lines import Line
from service.calculations.seasoning.scaling.recipe import Counted
from service.calculations.seasoning.scaling.reckoning import Recipe
from service.calculations.seasoning.scaling.salting import SODIUM_OF_SALT

DENSITY_SOURCE = "Density of raw meat: 1.0635 to 1.0672 kg/l, a review of meat technology on a public page (reported)"
MOLAR_SOURCE = f"Salt from sodium: molar masses {SODIUM_CHLORIDE} and {SODIUM} g/mol (from memory)"


def steps_of(recipe: Recipe) -> Iterator[str]:
    """From what there is to the factor, line by line, to the salt."""
    for held in recipe.held:
        yield from _limit_lines(held, recipe)
    tightest = " and ".join(held.what for held in recipe.held if held.governs(recipe.by_ratio))
    yield f"The tightest is {tightest}: everything is multiplied by {_n(recipe.by_ratio)}."
    yield f"Meat: {_n(recipe.meat_g)} g x {_n(recipe.by_ratio)} = {_n(recipe.meat_g * recipe.by_ratio)} g."
    for line in recipe.lines:
        yield _line(line, recipe)
    yield from _salt_lines(recipe)


def _limit_lines(held: Held, recipe: Recipe) -> Iterator[str]:
    what, ratio = held.what[0].upper() + held.what[1:], held.factor.typical_ratio
    if isinstance(held.asked, VesselAtHand):
        limit, filled = held.asked, room_of(recipe.lines)
        yield (
            f"The vessel: {_n(limit.inside.inside_l)} l less {_n(limit.headspace_percent)} percent = "
            f"{_n(room_l_of(limit))} l. The recipe fills {_n(recipe.meat_g / 1000)} kg / "
            f"{_n(limit.meat_density_kg_per_l)} kg/l of meat + {_n(filled.typical_l)} l of all lines, a line that is "
            f"no liquid by volume as so much water. {_n(room_l_of(limit))} l / "
            f"{_n(room_l_of(limit) / ratio)} l = {_n(ratio)}."
        )
        return
    yield (
        f"{what}: {_n(held.at_hand)} {held.unit} at hand / {_n(held.at_hand / ratio)} {held.unit} in the recipe = "
        f"{_n(ratio)}{_between(held)}."
    )


def _between(held: Held) -> str:
    low_ratio, _, high_ratio = held.factor
    return "" if held.factor.is_one else f" by typical weights, {_n(low_ratio)} to {_n(high_ratio)} by their bands"


def _line(line: Line, recipe: Recipe) -> str:
    amount, now = line.written.amount, recipe.scaled(line.grams)
    stated = f"{_n(amount.count)} pieces" if isinstance(amount, Counted) else f"{_n(amount.value)} {amount.unit}"
    written = "" if stated.endswith(" g") else f" = {_band(line.grams)}"
    percent = 100 * line.grams.typical_g / recipe.meat_g
    return (
        f"Line {line.place}, {line.written.ingredient}: {stated}{written}, x {_n(recipe.by_ratio)} = {_band(now)}; "
        f"{_n(percent)} percent of the meat."
    )


def _salt_lines(recipe: Recipe) -> Iterator[str]:
    salted = [(line, salt) for line in recipe.lines if (salt := line.salt) and salt.high_g]
    for line, salt in salted:
        if not line.is_salt:
            yield (
                f"Salt in line {line.place}: {_n(100 * (line.salt_fraction or 0.0))} percent, "
                f"{_band(recipe.scaled(salt))}."
            )
    every = recipe.scaled(recipe.salting.every)
    sodium_g = every.typical_g * SODIUM_OF_SALT
    known = "" if recipe.salting.is_known else "at least "
    yield (
        f"Salt: {known}{_band(every)}, {_n(100 * recipe.salting.every.typical_g / recipe.meat_g)} percent of the meat; "
        f"sodium {_n(every.typical_g)} g x {SODIUM} / {SODIUM_CHLORIDE} = {_n(sodium_g)} g."
    )


def sources_of(recipe: Recipe) -> tuple[str, ...]:
    """Each figure once."""
    told = dict.fromkeys(source for line in recipe.lines for source in _sources_of_line(line))
    if any(isinstance(held.asked, VesselAtHand) for held in recipe.held):
        told[DENSITY_SOURCE] = None
    if recipe.salting.every.high_g:
        told[MOLAR_SOURCE] = None
    return tuple(told)


def _sources_of_line(line: Line) -> tuple[str, ...]:
    listed, amount = line.ingredient, line.written.amount
    if listed is None:
        return ()
    if line.by_measure:
        return sources_of_pieces(listed) if isinstance(amount, Counted) else sources_of_volume(listed)
    sodium = listed.sodium
    return (f"{sodium.source} ({sodium.evidence})",) if sodium else ()


def _band(grams: Grams) -> str:
    spread = "" if grams.low_g == grams.high_g else f" ({_n(grams.low_g)} to {_n(grams.high_g)})"
    return f"{_n(grams.typical_g)} g{spread}"


def _n(value: Number) -> str:
    """Six digits: as many as it takes to follow the sum by hand."""
    return f"{value:,.6g}"
