"""Which cautions belong to a dose: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.curing.amounts import Amounts
from service.calculations.curing.figures import DoseFigures
from service.calculations.curing.products import Bacon, CornedBeef, Product
from service.calculations.curing.readings import Readings
from service.rules.book import RuleBook
from service.rules.finding import Finding

FLOOR_RULE = "us-nitrite-keeprefrigerated-min"
"""Under the design band of this floor the warnings against a weak cure are printed, wherever the kitchen is."""
LEFT_RULE = "us-nitrite-finished-max"
"""Over this limit on what may be left in a finished product, what goes in is worth a word."""
PROTECTIVE_SALT_PERCENT = 2.5
"""Salt under which a weak cure is warned of as a matter of botulism (common food-safety guidance, from memory)."""
COARSE_SHARE = 0.05
"""Rounding that changes an amount by more than this is worth a word (own bound)."""

ALWAYS = (
    "nitrite-toxic", "strength-from-label", "nitrite-emergency", "keep-cold-while-curing", "raw-meat-hygiene",
    "vulnerable-people", "local-code",
)  # fmt: skip


def caution_ids(
    product: Product,
    exact: Amounts,
    readings: Readings,
    figures: DoseFigures,
    findings: tuple[Finding, ...],
    book: RuleBook,
) -> Iterator[str]:
    """Every caution whose trigger holds."""
    yield from ALWAYS
    yield from of_product(product)
    yield from _of_recipe(readings)
    yield from _of_figures(readings, figures, findings, book)
    if _is_coarse(exact, readings.amounts):
        yield "coarse-scale"
    for finding in findings:
        yield from finding.cautions


def of_product(product: Product) -> Iterator[str]:
    if isinstance(product, Bacon):
        yield "bacon-special"
    if isinstance(product, Bacon | CornedBeef):
        return
    species = product.species
    if product.kind == "poultry" or species == "poultry":
        yield "poultry"
    if species in ("game", "mixed"):
        yield "game-and-pork-parasites"


def _of_recipe(readings: Readings) -> Iterator[str]:
    recipe = readings.recipe
    if not recipe.comminuted:
        yield "foil-salt-acid"
    if recipe.bath:
        yield from ("hot-brine", "no-brine-reuse")
        if recipe.wanted.accelerator:
            yield "accelerator-apart"
    if recipe.water_by_volume:
        yield "weigh-ice"
    if recipe.wanted.salt_percent is None:
        yield "salt-not-stated"
    if recipe.stock_powder_g or recipe.dissolved_g or recipe.other_g:
        yield "allergens"


def _of_figures(
    readings: Readings, figures: DoseFigures, findings: tuple[Finding, ...], book: RuleBook
) -> Iterator[str]:
    floor, left = book.rule(FLOOR_RULE).values[-1], book.rule(LEFT_RULE).values[-1]
    least_ppm = readings.nitrite_ppm(basis="green_weight", expressed_as="sodium_nitrite", least=True) or 0.0
    weak = least_ppm < (floor.design_floor or 0.0)
    if weak:
        yield "too-little-is-dangerous"
    with_salt = any(finding.rule in FLOORS_WITH_SALT for finding in findings)
    if (weak or with_salt) and figures.salt_in_piece_percent < PROTECTIVE_SALT_PERCENT:
        yield "botulism"
    most_ppm = readings.nitrite_ppm(basis="any_reading", expressed_as="sodium_nitrite") or 0.0
    if most_ppm > (left.value or 0.0):
        yield "more-than-may-remain"


FLOORS_WITH_SALT = ("ca-nitrite-min",)
"""Floors whose source prints them together with 2.5 percent of salt."""


def _is_coarse(exact: Amounts, weighed: Amounts) -> bool:
    pairs = (
        (exact.curing_salt_g, weighed.curing_salt_g),
        (exact.salt_g, weighed.salt_g),
        (exact.sugar_g, weighed.sugar_g),
        (exact.accelerator_g, weighed.accelerator_g),
    )
    return any(abs(shown_g - wanted_g) > COARSE_SHARE * wanted_g for wanted_g, shown_g in pairs if wanted_g > 0)
