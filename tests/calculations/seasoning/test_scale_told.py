"""What a scaled recipe says of its salt, and what a factor does not say."""

from typing import Any

import pytest

from service.calculations.seasoning.scale import SCALE
from service.rules.book import RuleBook
from tests.calculations.seasoning.scale_bodies import amount, limiting, line, meat_at_hand, vessel
from tests.calculations.seasoning.test_scale import HALF, PAPRIKA, SALT, WATER, answer_to, codes, ids


def test_spooned_salt_is_warned_of(book: RuleBook):
    """Whichever the crystal; weighed salt and a spoon of something else are not."""
    spooned = answer_to(book, line("fine-sea-salt", 3, "tbsp"), at_hand=HALF)
    weighed = answer_to(book, SALT, PAPRIKA, at_hand=HALF)

    assert "weigh-not-spoon" in ids(spooned)
    assert [one.lines for one in spooned.advice if one.code == "spooned_salt"] == [(1,)]
    assert "weigh-not-spoon" not in ids(weighed)
    assert "spooned_salt" not in codes(weighed)


def test_salt_of_powders_counts(book: RuleBook):
    """A recipe without salt of its own says that its salt is borrowed."""
    told = answer_to(book, line("bouillon", 2, "tbsp"), at_hand=HALF)

    assert told.salt.of_salts.high == 0
    assert told.salt.of_others.typical == told.salt.weight.typical == pytest.approx(13.88 / 2, abs=0.01)
    assert "salt_from_powders" in codes(told)
    assert "salt_from_powders" not in codes(answer_to(book, SALT, line("bouillon", 2, "tbsp"), at_hand=HALF))


def test_a_line_of_unknown_salt_leaves_the_total_open(book: RuleBook):
    """What is known is an at least, nothing stands on the high side, and the line is named."""
    told = answer_to(book, SALT, line("House rub", 60, "g"), at_hand=HALF)

    assert told.salt.verdict == "cannot_tell"
    assert [(one.line, one.ingredient) for one in told.salt.not_known] == [(2, "House rub")]
    assert (told.salt.weight.low, told.salt.weight.typical, told.salt.weight.high) == (45, 45, None)
    assert (told.salt.percent_of_meat.high_percent, told.salt.sodium.high, told.lines[1].salt) == (None, None, None)
    assert "sodium_not_known" in codes(told)


@pytest.mark.parametrize("label", [{"salt_percent": 20}, {"sodium_mg_per_100g": 20 / 58.44 * 22.99 * 1000}])
def test_a_label_closes_it(book: RuleBook, label: dict[str, float]):
    """20 percent of salt, or the sodium of as much: 60 g bring 12 g, halved 6."""
    told = answer_to(book, SALT, line("House rub", 60, "g", label=label), at_hand=HALF)

    assert told.salt.verdict == "known"
    assert told.salt.of_others.typical == pytest.approx(6)
    assert told.salt.weight.high == pytest.approx(51)


def test_a_label_comes_before_the_table(book: RuleBook):
    """A salt with 60 percent of salt is 60 percent salt; it is still salt of the recipe's own."""
    told = answer_to(book, line("kosher-salt", 100, "g", label={"salt_percent": 60}), at_hand=HALF)

    assert told.salt.of_salts.typical == 30
    assert told.salt.of_others.typical == 0


@pytest.mark.parametrize("name", ["salt", "Rock salt", "coarse sea salt", "Himalayan pink salt"])
def test_plain_salt_by_weight_is_salt(book: RuleBook, name: str):
    """Whatever it is called, where the name says salt and nothing else."""
    assert answer_to(book, line(name, 90, "g"), at_hand=HALF).salt.of_salts.typical == 45


def test_what_is_known_of_a_kind_is_used(book: RuleBook):
    """A spice brings none; dry milk of the table, whose sodium nobody wrote down, is not known."""
    told = answer_to(book, PAPRIKA, line("nonfat-dry-milk", 50, "g"), at_hand=HALF)

    assert [one.ingredient for one in told.salt.not_known] == ["nonfat-dry-milk"]


@pytest.mark.parametrize(("kg", "is_far"), [(0.5, False), (0.49, True), (50, False), (50.1, True)])
def test_a_far_factor_wants_a_trial(book: RuleBook, kg: float, is_far: bool):
    """Beyond ten times and a tenth."""
    assert ("trial_batch" in codes(answer_to(book, SALT, at_hand=[meat_at_hand(kg)]))) is is_far


def test_smoke_and_heat_do_not_scale(book: RuleBook):
    """It is said of every factor but one."""
    assert "smoke_and_heat" in codes(answer_to(book, SALT, at_hand=HALF))
    assert "smoke_and_heat" not in codes(answer_to(book, SALT, at_hand=[meat_at_hand(5000, "g")]))


@pytest.mark.parametrize(("litres", "is_brine"), [(1.2, False), (1.3, True)])
def test_a_brine_is_told_of_its_water(book: RuleBook, litres: float, is_brine: bool):
    """From a quarter of the meat on; less of it is mixed in. Without salt there is no brine."""
    water = line("water", litres, "l")

    assert ("brine_by_water" in codes(answer_to(book, water, SALT, at_hand=HALF))) is is_brine
    assert "brine_by_water" not in codes(answer_to(book, water, PAPRIKA, at_hand=HALF))


@pytest.mark.parametrize(("litres", "covers"), [(2.5, False), (2.6, True)])
def test_a_little_water_may_not_cover(book: RuleBook, litres: float, covers: bool):
    """5 kg are 4.72 l; packed at 65 percent they leave 2.54 l for the brine."""
    told = answer_to(book, line("water", litres, "l"), SALT, at_hand=[vessel(10)])

    assert ("may_not_cover" in codes(told)) is not covers
    assert {"hot-brine", "no-brine-reuse", "foil-salt-acid", "weigh-ice"} <= ids(told)


@pytest.mark.parametrize(
    ("one", "is_warned"),
    [(line("soy-sauce", 1, "cup"), True), (line("Rye crumbs", 9, "g"), True), (SALT, False), (WATER, False)],
)
def test_a_seasoning_may_carry_an_allergen(book: RuleBook, one: dict[str, Any], is_warned: bool):
    """Anything but salt, sugar and water; the call that judges labels is named."""
    told = answer_to(book, one, at_hand=HALF)

    assert ("allergens" in ids(told)) is is_warned
    assert any("POST /v1/labels/statement" in advice.text for advice in told.advice) is is_warned


def test_every_code_is_reached(book: RuleBook):
    """No code is declared that no request of these brings about."""
    told = [
        answer_to(book, line("table-salt", 1, "tbsp"), line("Rub", 1, "g"), WATER, at_hand=[vessel(0.1)]),
        answer_to(book, line("bouillon", 1, "tbsp"), at_hand=[limiting("bouillon", 1, "g")], scale_step=amount(5, "g")),
        answer_to(
            book, line("bouillon", 5, "kg", label={"salt_percent": 20}), SALT, at_hand=HALF, scale_step=amount(40, "g")
        ),
    ]

    assert set().union(*map(codes, told)) == set(SCALE.codes)
