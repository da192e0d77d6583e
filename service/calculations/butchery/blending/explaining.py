"""The arithmetic of a blend, so that a person can follow it, and where it is printed."""

from collections.abc import Iterator
from math import isclose

from service.calculations.butchery.blending.finishing import FinishedBatch, Mixed, salt_inside_g
from service.calculations.butchery.blending.lawful import WATER_PER_PROTEIN_RATIO
from service.calculations.butchery.blending.limits import dot
from service.calculations.butchery.blending.solution import Solution
from service.calculations.butchery.blending.telling import Teller
from service.rules.vocabulary import BIRDS

SOURCES = (
    "Two materials to a fat target: Pearson square, trade teaching text",
    "Least cost: linear programming; Huangfu and Hall, Mathematical Programming Computation 10:119, 2018",
)
WATER_SOURCE = (
    "Added water is moisture less four times the protein: 9 CFR 318.22 (from memory); MCL 289.7113(b) (reported)"
)


def steps_of(solution: Solution, teller: Teller) -> tuple[str, ...]:
    """A line for each sum."""
    return (*_of_two(solution), *_of_fat(teller), *_of_cost(teller))


def _of_two(solution: Solution) -> Iterator[str]:
    """Two materials and one fat: the square."""
    materials, fat = solution.terms.in_play.materials, [one for one in solution.limits if one.code == "fat"]
    if len(materials) != 2 or len(fat) != 1 or fat[0].bound != "exactly":
        return
    fatter, leaner = sorted(materials, key=lambda material: -material.fat_percent)
    if fatter.fat_percent > leaner.fat_percent:
        high_percent, low_percent, wanted_percent = fatter.fat_percent, leaner.fat_percent, fat[0].value
        share = (wanted_percent - low_percent) / (high_percent - low_percent)
        yield (
            f"Share of {fatter.name}: ({wanted_percent:g} - {low_percent:g}) / ({high_percent:g} - {low_percent:g}) = "
            f"{share:.6g} of the block."
        )


def _of_fat(teller: Teller) -> Iterator[str]:
    used = [(each, g) for each, g in zip(teller.materials, teller.amounts_g, strict=True) if g]
    block_g = sum(g for _, g in used)
    yield f"Block: {' + '.join(f'{g:.6g} g {each.name}' for each, g in used)} = {block_g:.6g} g."
    parts = " + ".join(f"{g:.6g} g x {each.fat_percent:g} %" for each, g in used)
    fat_g = dot(tuple(each.fat_percent / 100 for each, _ in used), tuple(g for _, g in used))
    yield f"Fat: ({parts}) / {block_g:.6g} g = {100 * fat_g / block_g:.6g} %."


def _of_cost(teller: Teller) -> Iterator[str]:
    total = teller.total()
    if total.cost and total.cost_of_one:
        costs = " + ".join(f"{item.cost.amount} {item.name}" for item in teller.weigh() if item.cost)
        yield (
            f"Cost: {costs} = {total.cost.amount} {total.cost.currency}, {total.cost_of_one.amount} per {total.per}; "
            "each is rounded by itself."
        )


def steps_of_batch(mixed: Mixed, batch: FinishedBatch) -> Iterator[str]:
    """What goes on top of the block, and what the finished batch holds."""
    added = "".join(f" + {item.exact_g:.6g} g {item.what.replace('_', ' ')}" for item in mixed.added)
    yield from _of_salt(mixed)
    yield f"Batch: {mixed.block_g:.6g} g block{added} = {mixed.whole_g:.6g} g."
    finished_g, cooked_percent = mixed.finished_g, mixed.batch.cook_yield_percent
    if cooked_percent:
        cooked_g = mixed.whole_g * cooked_percent / 100
        yield f"After smoking or cooking: {mixed.whole_g:.6g} g x {cooked_percent:g} % = {cooked_g:.6g} g."
    if finished_g:
        left_g = mixed.fat_g - mixed.rendered_g
        how = ", as if none ran out" if mixed.may_render_g else ""
        less = f" - {mixed.rendered_g:.6g} g that run out" if mixed.rendered_g else ""
        share = f"({mixed.fat_g:.6g} g{less}) / {finished_g:.6g} g = {100 * left_g / finished_g:.6g} %"
        yield f"Fat of the batch{how}: {share}."
    if any("added_water" in finding.measure and finding.basis == "finished_product" for finding in batch.findings):
        yield from _of_water(mixed)


def _of_salt(mixed: Mixed) -> Iterator[str]:
    """What is asked for, less what is there already."""
    asked_percent, salt_g = mixed.batch.salt_percent, mixed.added_g("salt")
    if asked_percent is None:
        return
    inside_g = salt_inside_g(mixed.materials, mixed.amounts_g)
    cured_g = mixed.salt_g - salt_g - inside_g
    parts = ((inside_g, "inside the materials"), (cured_g, "in the curing salt"))
    less = "".join(f" - {mass_g:.6g} g {where}" for mass_g, where in parts if mass_g > 0)
    left_g = mixed.block_g * asked_percent / 100 - inside_g - cured_g
    shown = "" if isclose(left_g, salt_g, rel_tol=1e-6) else f"; on the scale {salt_g:.6g} g"
    told = shown if salt_g else "; none is added"
    yield f"Salt to add: {asked_percent:g} % of {mixed.block_g:.6g} g block{less} = {left_g:.6g} g{told}."


def _of_water(mixed: Mixed) -> Iterator[str]:
    """What a laboratory would find, where everything is known."""
    used, finished_g = mixed.of_used(), mixed.finished_g
    water = tuple([each.moisture_percent for each in used.materials])
    protein = tuple([each.protein_percent for each in used.materials])
    if finished_g is None or None in water or None in protein or used.animals & BIRDS:
        return
    water_g, protein_g = (dot(tuple([part or 0.0 for part in each]), used.amounts_g) / 100 for each in (water, protein))
    poured_g, lost_g = mixed.added_g("water"), mixed.lost_g - mixed.rendered_g
    added_g = water_g + poured_g - lost_g - WATER_PER_PROTEIN_RATIO * protein_g
    yield (
        f"Added water: {water_g:.6g} g in the meat + {poured_g:.6g} g poured in - {lost_g:.6g} g lost - "
        f"{WATER_PER_PROTEIN_RATIO:g} x {protein_g:.6g} g protein = {added_g:.6g} g: "
        f"{max(100 * added_g / finished_g, 0):.6g} % of {finished_g:.6g} g."
    )
    if mixed.may_render_g:
        most_percent = max(100 * (added_g + mixed.may_render_g) / finished_g, 0)
        yield (f"If {mixed.may_render_g:.6g} g of the loss are fat and not water, added water is {most_percent:.6g} %.")
