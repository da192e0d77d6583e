"""The rule data against what is printed outside this project, and against its own vocabulary."""

import re
from datetime import date
from pathlib import Path
from typing import get_args

import pytest

from service.quantities.quantity import WATER_G_PER_ML
from service.quantities.units import factor
from service.rules.book import RuleBook
from service.rules.rule import DatedValue, Rule
from service.rules.vocabulary import Basis, Bound, Circumstance, Expression, Jurisdiction, Measure, ProductClass, Stage

OZ_TO_100_LB_PPM = 1e6 / 16 / 100
ATOMIC_WEIGHT = {"Na": 22.990, "K": 39.098, "N": 14.007, "O": 15.999}  # CIAAW, conventional
SODIUM_NITRITE = ATOMIC_WEIGHT["Na"] + ATOMIC_WEIGHT["N"] + 2 * ATOMIC_WEIGHT["O"]
POTASSIUM_NITRITE = ATOMIC_WEIGHT["K"] + ATOMIC_WEIGHT["N"] + 2 * ATOMIC_WEIGHT["O"]
EXPECTED = (Path(__file__).parent / "expected_ids.txt").read_text("utf-8").split()


def number(book: RuleBook, id: str) -> float:
    """The number of a rule that never changed."""
    (only,) = book.rule(id).values
    assert only.value is not None
    return only.value


def values(book: RuleBook) -> list[tuple[Rule, DatedValue]]:
    """Every dated value with its rule."""
    return [(rule, dated) for rule in book.rules.values() for dated in rule.values]


def test_every_limit_is_held(book: RuleBook):
    """The book holds exactly the limits of the list."""
    assert list(book.rules) == sorted(EXPECTED)


def test_every_caution_and_curing_salt_is_held(book: RuleBook):
    """Fifty-six warnings, of the trade, of the rules and of this project, and thirteen curing salts."""
    assert len(book.cautions) == 56
    assert {"reported-source", "amendment-not-read", "early-warning", "nitrite-toxic"} <= book.cautions.keys()
    assert len(book.premixes) == 13


def test_every_ingredient_has_its_source(book: RuleBook):
    """Seventy-nine ingredients; what was recalled says so, and what is this project's own bound says so."""
    cited = [(one.evidence, one.source) for ingredient in book.ingredients.values() for one in ingredient.readings] + [
        (one.piece.band_evidence, one.piece.band_source) for one in book.ingredients.values() if one.piece
    ]

    assert len(book.ingredients) == 79
    assert all(("own bound" in source) == (evidence == "own") for evidence, source in cited)
    assert all("from memory" in source for evidence, source in cited if evidence == "recalled")


def test_every_cut_has_its_source(book: RuleBook):
    """Every figure says how it is known: what was recalled says that it is from memory."""
    numbers = [(one.item_evidence, one.item_source) for one in book.cuts.values() if one.item_source]
    readings = [(each.evidence, each.source) for one in book.cuts.values() for each in one.readings]

    assert len(numbers) >= 40
    assert all(("from memory" in source) == (evidence == "recalled") for evidence, source in (*numbers, *readings))


def test_usual_yields_are_those_of_their_sources(book: RuleBook):
    """A pick-up has none. Smoking: 56.0 and 59.3 percent (Kerth, Wall and Grayson-Holter, abstract, read)."""
    usual = book.usual_yields

    assert {one.stage for one in usual.values()} == {"trim", "cook", "slice"}
    assert [usual[id].typical_percent for id in ("usual-trim", "usual-smoke", "usual-slice")] == [85, None, 97]
    assert usual["usual-smoke"].low_percent == 56.0
    assert 59.3 <= usual["usual-smoke"].high_percent < 61
    assert all(("from memory" in one.source) == (one.evidence == "recalled") for one in usual.values())


def test_water_is_as_heavy_as_the_service_reckons(book: RuleBook):
    """A spoon, a tablespoon and a cup of water are those of the density that pickles are reckoned with."""
    water = book.ingredients["water"].readings[0]
    figures = (water.teaspoon_g, water.tablespoon_g, water.cup_g)

    assert figures == pytest.approx([WATER_G_PER_ML * factor(unit) for unit in ("tsp", "tbsp", "cup")], rel=1e-6)


# 9 CFR 424.21(c), chart, Curing Agents and Curing accelerators: ounces to 100 lb.
@pytest.mark.parametrize(
    ("id", "ounces"),
    [
        ("us-nitrite-comminuted-max", 1 / 4),
        ("us-nitrite-drycured-max", 1),
        ("us-nitrate-comminuted-max", 2 + 3 / 4),
        ("us-nitrate-drycured-max", 3 + 1 / 2),
        ("us-accel-asc-max", 3 / 4),
        ("us-accel-ery-max", 3 / 4),
        ("us-accel-naasc-max", 7 / 8),
        ("us-accel-naery-max", 7 / 8),
    ],
)
def test_ounces_to_100_lb_are_the_limit(book: RuleBook, id: str, ounces: float):
    """A limit printed in ounces to 100 lb is held at the full figure in ppm."""
    assert number(book, id) == pytest.approx(ounces * OZ_TO_100_LB_PPM, rel=1e-12)


def test_pounds_to_100_gallons_are_the_limit(book: RuleBook):
    """9 CFR 424.21(c): 2 lb to 100 gal of pickle, 10 lb to the gallon, pumped to 10 % is 200 ppm."""
    assert number(book, "us-nitrite-pickled-max") == pytest.approx(2 / (100 * 10) * 0.10 * 1e6)


def test_eight_ounces_are_half_a_percent(book: RuleBook):
    """9 CFR 424.21(c): 8 oz of glucono delta-lactone or of sodium acid pyrophosphate to 100 lb."""
    assert number(book, "us-accel-gdl") == pytest.approx(8 * OZ_TO_100_LB_PPM / 1e4)
    assert number(book, "us-accel-sapp") == pytest.approx(8 * OZ_TO_100_LB_PPM / 1e4)


# 9 CFR 424.22(b)(1)-(3) prints both salts as whole numbers: 120 and 148, 120 and 148, 200 and 246.
@pytest.mark.parametrize(
    ("sodium", "potassium"),
    [
        ("us-bacon-pumped-nitrite-max", "us-bacon-pumped-knitrite"),
        ("us-bacon-immersion-max", "us-bacon-immersion-kmax"),
        ("us-bacon-dry-max", "us-bacon-dry-kmax"),
    ],
)
def test_potassium_nitrite_is_held_by_its_own_weight(book: RuleBook, sodium: str, potassium: str):
    """The same nitrite as the heavier potassium salt, cut off to a whole number as the regulation does."""
    same_nitrite_ppm = number(book, sodium) * POTASSIUM_NITRITE / SODIUM_NITRITE

    assert number(book, potassium) == int(same_nitrite_ppm)


# FSIS Directive 7620.3, rind-on bacon (reported): the limit less 10 %.
@pytest.mark.parametrize(
    ("with_skin", "without_skin"),
    [
        ("us-bacon-skinon-pumped", "us-bacon-pumped-nitrite-max"),
        ("us-bacon-skinon-immersion", "us-bacon-immersion-max"),
        ("us-bacon-skinon-dry", "us-bacon-dry-max"),
        ("us-bacon-skinon-ascorbate", "us-bacon-pumped-ascorbate-max"),
    ],
)
def test_skin_takes_a_tenth(book: RuleBook, with_skin: str, without_skin: str):
    """By the weight with skin the limit is a tenth lower."""
    assert number(book, with_skin) == pytest.approx(0.9 * number(book, without_skin))


# 9 CFR 319.104(a), 319.105(a): least meat protein, fat free, by kind and name, in percent.
@pytest.mark.parametrize(
    ("kind", "percents"),
    [
        ("cooked_ham_or_loin", {"named_common": 20.5, "named_with_natural_juices": 18.5, "named_water_added": 17.0}),
        ("cooked_shoulder", {"named_common": 20.0, "named_with_natural_juices": 18.0, "named_water_added": 16.5}),
        ("uncooked_cured_ham_or_loin", {"named_common": 18.0}),
        ("uncooked_cured_shoulder", {"named_common": 17.5}),
        ("ham_patty", {"named_common": 19.5, "named_with_natural_juices": 17.5, "named_water_added": 16.0}),
    ],
)
def test_protein_by_kind_and_name(book: RuleBook, kind: str, percents: dict[str, float]):
    """Each name of each kind of ham has its least protein."""
    held = {
        rule.when[0]: rule.values[0].value
        for rule in book.rules.values()
        if rule.measure == "protein_fat_free" and kind in rule.applies_to
    }

    assert held == percents


# 9 CFR 319.80, .100 - .103, .106, .107, .141, .142, .160, .180: percent, and 1 lb a piece.
@pytest.mark.parametrize(
    ("id", "figure", "bound"),
    [
        ("us-cornedbeef-brisket-gain", 20, "maximum"),
        ("us-cornedbeef-other-gain", 10, "maximum"),
        ("us-cornedbeef-canned", 70, "maximum"),
        ("us-cornedbeef-piece", 1, "minimum"),
        ("us-tongue-gain", 10, "maximum"),
        ("us-bacon-weight", 100, "maximum"),
        ("us-countryham-loss", 18, "minimum"),
        ("us-countryham-salt", 4, "minimum"),
        ("us-countryham-brine", 10, "minimum"),
        ("us-frank-fat", 30, "maximum"),
        ("us-frank-fatwater", 40, "maximum"),
        ("us-freshpork-fat", 50, "maximum"),
        ("us-freshbeef-fat", 30, "maximum"),
        ("us-smokedpork-water", 3, "maximum"),
        ("us-barbecue-weight", 70, "maximum"),
    ],
)
def test_product_standards_are_held(book: RuleBook, id: str, figure: float, bound: str):
    """Weight, fat, salt and water of standardised products, from the side on which they bind."""
    assert number(book, id) == figure
    assert book.rule(id).bound == bound


# UK SI 2007/1778 Sch. 1 (as made), the table of Directive 2006/52/EC: most residue, as sodium nitrite, in mg/kg.
@pytest.mark.parametrize(
    ("id", "residue"),
    [
        ("eu-old-wiltbacon-nitrite", 175),
        ("eu-old-entremeada-nitrite", 175),
        ("eu-old-wiltham-nitrite", 100),
        ("eu-old-rohnass-nitrite", 50),
        ("eu-old-tongue-nitrite", 50),
        ("eu-old-drybacon-nitrite", 175),
        ("gb-drybacon-nitrite", 175),
        ("eu-old-dryham-nitrite", 100),
        ("eu-old-jamon-nitrite", 100),
        ("eu-old-rohtrocken-nitrite", 50),
        ("eu-old-rohkombi-nitrite", 50),
        ("eu-old-jellied-nitrite", 50),
    ],
)
def test_traditional_products_are_held_by_what_is_left(book: RuleBook, id: str, residue: float):
    """The old European limits on traditional products speak of what is left, not of what goes in."""
    assert number(book, id) == residue
    assert book.rule(id).stage == "residual"


@pytest.mark.parametrize(
    "bacon",
    ["us-bacon-pumped-nitrite-min", "us-bacon-pumped-knitrite", "us-bacon-pumped-ascorbate-min"],
)
def test_the_design_band_is_one_ratio(book: RuleBook, bacon: str):
    """A rounded dose may fall by the same share under each level: 118 of 120 ppm, this project's own band."""
    (level,) = book.rule(bacon).values

    assert level.value is not None
    assert level.design_floor == pytest.approx(level.value * 118 / 120, abs=0.2)


def test_every_number_is_cited(book: RuleBook):
    """Each value names where it is written, or says that it is this project's own guard."""
    for rule, dated in values(book):
        own = dated.citation.startswith("This project's own guard")

        assert own == (dated.force == "guard"), rule.id
        assert own or re.search(r"CFR|Reg\.|Directive|Codex|Canada|CFIA|Code|Ministry|Memorandum|EFSA", dated.citation)


def test_a_text_that_was_read_has_its_date(book: RuleBook):
    """What was read in the regulations of the United States says of which date."""
    undated = [
        rule.id
        for rule, dated in values(book)
        if dated.evidence == "read" and dated.text_as_of is None and rule.jurisdiction == "US"
    ]

    assert undated == []


def test_what_is_from_memory_says_so(book: RuleBook):
    """The note of a recalled value tells an inspector why it proves nothing."""
    silent = [
        rule.id
        for rule, dated in values(book)
        if dated.evidence == "recalled" and not re.search(r"memory|[Dd]erived|inferred|not seen|confirmed", dated.note)
    ]

    assert silent == []


def test_no_guard_is_under_a_law(book: RuleBook):
    """The stop per weight of meat lies above every limit on nitrite going in."""
    ceilings = [
        dated.value
        for rule, dated in values(book)
        if rule.measure == "nitrite" and rule.stage == "ingoing" and rule.bound == "maximum" and dated.force == "law"
    ]

    assert max(ceiling for ceiling in ceilings if ceiling is not None) < number(book, "guard-meat-nitrite-stop")


def test_every_word_is_in_the_vocabulary(book: RuleBook):
    """No rule uses a word that the closed lists do not have."""
    for rule, dated in values(book):
        assert set(rule.applies_to) <= set(get_args(ProductClass)), rule.id
        assert {*rule.when, *rule.unless} <= set(get_args(Circumstance)), rule.id
        assert set(rule.except_in) <= set(get_args(Jurisdiction)), rule.id
        assert rule.measure in get_args(Measure)
        assert rule.stage in get_args(Stage)
        assert rule.bound in get_args(Bound)
        assert dated.expressed_as in get_args(Expression)
        assert dated.basis in (None, *get_args(Basis))


def test_no_value_is_of_the_future(book: RuleBook):
    """Every first day is a day on which its text was known."""
    assert all(dated.since is None or dated.since <= date(2025, 10, 9) for _, dated in values(book))
