"""Which cautions belong to a dose: each has its trigger here and its words in the rule data."""

from typing import NamedTuple

from service.calculations.curing.amounts import Amounts, Recipe
from service.calculations.curing.classes import ProductKind
from service.calculations.curing.methods import Way
from service.calculations.curing.readings import Figures, Reading, Substances, nitrite_on
from service.rules.book import Binding, RuleBook
from service.rules.finding import Finding

FLOOR_RULE = "us-nitrite-keeprefrigerated-min"
"""Under the design band of this floor the warnings against a weak cure are printed, wherever the kitchen is."""
LEFT_RULE = "us-nitrite-finished-max"
"""Over this limit on what may be left in a finished product, what goes in is worth a word."""
PROTECTIVE_SALT_PERCENT = 2.5
"""Salt under which a weak cure is warned of as a matter of botulism (common food-safety guidance, from memory)."""
OUT_IN_TIME = "take-out-in-time"
"""Printed wherever a limit is kept because the piece comes out of its pickle."""
COARSE_SHARE = 0.05
"""Rounding that changes an amount by more than this is worth a word (own bound)."""

ALWAYS = (
    "nitrite-toxic", "strength-from-label", "nitrite-emergency", "keep-cold-while-curing", "raw-meat-hygiene",
    "vulnerable-people", "local-code",
)  # fmt: skip


FLOORS_WITH_SALT = ("ca-nitrite-min",)
"""Floors whose source prints them together with 2.5 percent of salt."""


class Watch(NamedTuple):
    """What to watch for in every dose of one kind."""

    standing: tuple[str, ...]
    """Cautions that belong to all of them."""
    least_ppm: Reading
    """The lowest reading of the nitrite, as sodium nitrite."""
    weak_ppm: float
    """Under this it is too little."""
    most_ppm: Reading
    """The highest reading of what is in the meat."""
    left_ppm: float
    """Over this more goes in than may be left."""
    floor_with_salt: bool
    """Whether a floor binds whose source asks for salt beside it."""


def watch_for(product: ProductKind, way: Way, substances: Substances, binding: Binding, book: RuleBook) -> Watch:
    """What to watch for in doses of this kind."""
    floor, left = book.rule(FLOOR_RULE).values[-1], book.rule(LEFT_RULE).values[-1]
    return Watch(
        standing=(*ALWAYS, *of_product(product), *_of_way(way, substances)),
        least_ppm=nitrite_on("green_weight", substances, expressed_as="sodium_nitrite", least=True),
        weak_ppm=floor.design_floor or 0.0,
        most_ppm=nitrite_on("any_reading", substances, expressed_as="sodium_nitrite"),
        left_ppm=left.value or 0.0,
        floor_with_salt=any(rule.id in FLOORS_WITH_SALT for rule in binding.rules),
    )


def of_product(product: ProductKind) -> tuple[str, ...]:
    if product.kind in ("bacon", "corned_beef"):
        return ("bacon-special",) if product.kind == "bacon" else ()
    if product.kind == "poultry" or product.part == "poultry":
        return ("poultry",)
    return ("game-and-pork-parasites",) if product.part in ("game", "mixed") else ()


def _of_way(way: Way, substances: Substances) -> tuple[str, ...]:
    if not way.in_pickle:
        return () if way.method == "comminuted" else ("foil-salt-acid",)
    wet = ("foil-salt-acid", "hot-brine", "no-brine-reuse")
    return (*wet, "accelerator-apart") if substances.accelerator else wet


def caution_ids(
    watch: Watch, recipe: Recipe, figures: Figures, findings: tuple[Finding, ...], *, salt_percent: float, coarse: bool
) -> list[str]:
    """Every caution whose trigger holds. salt_percent is what the piece ends with; coarse is the word on the scale."""
    ids = [*watch.standing, *_of_recipe(recipe), *_of_nitrite(watch, figures, salt_percent=salt_percent)]
    if coarse:
        ids.append("coarse-scale")
    for finding in findings:
        ids += finding.cautions
    return ids


def _of_recipe(recipe: Recipe) -> list[str]:
    ids = []
    if recipe.water_by_volume:
        ids.append("weigh-ice")
    if recipe.bath and recipe.bath.stayed:
        ids.append(OUT_IN_TIME)
    if recipe.wanted.salt_percent is None:
        ids.append("salt-not-stated")
    if recipe.stock_powder_g or recipe.dissolved_g or recipe.other_g:
        ids.append("allergens")
    return ids


def _of_nitrite(watch: Watch, figures: Figures, *, salt_percent: float) -> list[str]:
    ids = []
    weak = (figures[watch.least_ppm] or 0.0) < watch.weak_ppm
    if weak:
        ids.append("too-little-is-dangerous")
    if (weak or watch.floor_with_salt) and salt_percent < PROTECTIVE_SALT_PERCENT:
        ids.append("botulism")
    if (figures[watch.most_ppm] or 0.0) > watch.left_ppm:
        ids.append("more-than-may-remain")
    return ids


def is_coarse(exact: Amounts, weighed: Amounts) -> bool:
    """Whether rounding to the scale changed an amount by so much that it is worth a word."""
    for wanted_g, shown_g in zip(exact.rounded_g, weighed.rounded_g, strict=True):
        if abs(shown_g - wanted_g) > COARSE_SHARE * wanted_g > 0:
            return True
    return False
