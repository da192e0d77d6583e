"""Which cautions belong to a dose: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.curing.amounts import Amounts
from service.calculations.curing.figures import DoseFigures
from service.calculations.curing.products import Bacon, CornedBeef, Product
from service.calculations.curing.readings import Readings
from service.rules.finding import Finding

LOW_NITRITE_PPM = 118.0
"""Under this ingoing sodium nitrite the warnings against a weak cure are printed: the 120 ppm of the FSIS handbook,
p. 12 (reported), less this project's design band for rounding down.
"""
LEFT_AT_MOST_PPM = 200.0
"""Sodium nitrite that may be left in a finished product in the United States: 9 CFR 424.21(c) (read)."""
PROTECTIVE_SALT_PERCENT = 2.5
"""Salt under which a weak cure is warned of as a matter of botulism (common food-safety guidance, from memory)."""
COARSE_SHARE = 0.05
"""Rounding that changes an amount by more than this is worth a word (own bound)."""

ALWAYS = (
    "nitrite-toxic", "strength-from-label", "nitrite-emergency", "keep-cold-while-curing", "raw-meat-hygiene",
    "vulnerable-people", "local-code",
)  # fmt: skip


def caution_ids(
    product: Product, exact: Amounts, readings: Readings, figures: DoseFigures, findings: tuple[Finding, ...]
) -> Iterator[str]:
    """Every caution whose trigger holds."""
    yield from ALWAYS
    yield from _of_product(product)
    yield from _of_recipe(readings)
    yield from _of_figures(readings, figures, findings)
    if _is_coarse(exact, readings.amounts):
        yield "coarse-scale"
    for finding in findings:
        yield from finding.cautions


def _of_product(product: Product) -> Iterator[str]:
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


def _of_figures(readings: Readings, figures: DoseFigures, findings: tuple[Finding, ...]) -> Iterator[str]:
    least_ppm = readings.nitrite_ppm(basis="green_weight", expressed_as="sodium_nitrite", least=True) or 0.0
    weak = least_ppm < LOW_NITRITE_PPM
    if weak:
        yield "too-little-is-dangerous"
    with_salt = any(finding.rule in FLOORS_WITH_SALT for finding in findings)
    if (weak or with_salt) and figures.salt_in_piece_percent < PROTECTIVE_SALT_PERCENT:
        yield "botulism"
    most_ppm = readings.nitrite_ppm(basis="any_reading", expressed_as="sodium_nitrite") or 0.0
    if most_ppm > LEFT_AT_MOST_PPM:
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
