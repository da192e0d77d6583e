"""Recipes that are written to be misread: nothing of them is met that is broken or cannot be known."""

from typing import Any

import pytest

from service.calculations.curing.check import CheckAnswer
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import BACON, DRY, LOIN, SAUSAGE, STRONG_SALT
from tests.calculations.curing.written import (
    EQUILIBRIUM,
    NEAT,
    amount,
    codes,
    line,
    nitrate,
    percent,
    pumped,
    recipe,
    salt_of,
    soaked,
    told,
)

Body = dict[str, Any]
FIVE_KILOS = {"meat": amount(5, "kg"), "ingredients": []}

HIDDEN = [
    "tinted powder #1", "Cure No. 2", "NaNO2", "KNO3", "INS 250", "E249a", "NPS", "nitre", "salitre", "salt-peter",
    "pink-1", "premix-5.88", "cure1", "curemix", "cured salt", "sal de cura", "sel rose", "celery extract",
    "fermented vegetable powder", "Pökelsalz", "curing_salt", "vegetable juice powder", "spinach powder",
    "Swiss chard powder",
    "beet juice powder", "Prague powder", "saletra", "nitrietzout", "sale rosa", "Rosa Salz", "Umrötesalz", "硝石",
]  # fmt: skip
"""Names under which nitrite or nitrate is sold somewhere (common practice, no source)."""


@pytest.mark.parametrize("name", HIDDEN)
def test_a_cure_among_the_spices_is_no_spice(book: RuleBook, name: str) -> None:
    """Under whatever name it hides, nothing is met and it is called out."""
    answer = told(book, recipe(ingredients=[line(name, 20)]))

    assert answer.verdicts.going_in != "met"
    assert "curing_salt_among_ingredients" in codes(answer)


TWINS = [
    "Himalayan pink salt", "celery-seed", "Kosher Salt", "lemon", "sugar", "currants", "Chardonnay", "fresh chard",
    "oregano 2", "cherry powder", "vegetable stock", "Prague ham spice", "pilchard", "Epicure blend",
]  # fmt: skip


@pytest.mark.parametrize("name", TWINS)
def test_a_spice_is_no_cure(book: RuleBook, name: str) -> None:
    """What is no curing salt raises no alarm."""
    assert codes(told(book, recipe(ingredients=[line(name, 20)]))) <= {"salt_in_seasonings"}


def test_a_saturated_pickle_tells_nothing(book: RuleBook) -> None:
    """1 kg of water dissolves 358.6 g of salt (26.395 percent, salometer tables): the rest dilutes nothing."""
    body = recipe(**FIVE_KILOS | {"ingredients": [line("salt", 2000)]}, method=pumped(amount(1000), 10))

    answer = told(book, {**body, "curing_salts": [salt_of(STRONG_SALT, 80)]})

    assert answer.verdicts.going_in == "cannot_tell"
    assert "pickle_over_saturated" in codes(answer)


def test_a_second_spoon_may_dilute(book: RuleBook) -> None:
    """10 tsp of cure, 2 cups of a sweet salt, 2 kg of water, 10 percent pump: the ends by hand."""
    sweet = {"sugar_percent": 50}
    salts = [salt_of(STRONG_SALT, 10, "tsp"), salt_of(sweet, 2, "cup")]
    body = recipe(meat=amount(10, "kg"), ingredients=[], method=pumped(amount(2000), 10), curing_salts=salts)

    finding = next(one for one in told(book, body).findings if one.rule == "us-nitrite-pickled-max")

    lightest_g, heaviest_g = 96 * 1.73, 96 * 8.7  # what nobody weighed is as light or as heavy as any salt
    assert finding.high == pytest.approx(87 * 0.0625 * 0.1 / (2000 + 87 + lightest_g) * 1e6, rel=1e-9)
    assert finding.low == pytest.approx(50 * 0.0625 * 0.1 / (2000 + 50 + heaviest_g) * 1e6, rel=1e-9)


@pytest.mark.parametrize("cured_g", [6250, 5050])
def test_the_scale_is_believed_before_the_pump(book: RuleBook, cured_g: float) -> None:
    """A piece that gained 25 or 1 percent was not pumped to 10: nothing of its nitrite is met."""
    body = recipe(**FIVE_KILOS, method=pumped(amount(1000), 10), curing_salts=[salt_of(STRONG_SALT, 26)])

    answer = told(book, {**body, "weights": {"cured": amount(cured_g)}})

    assert answer.verdicts.going_in == "cannot_tell"
    assert "gain_contradicts_uptake" in codes(answer)


def test_a_crumb_of_nitrite_is_as_good_as_none(book: RuleBook) -> None:
    """A smoked sausage with a thousandth of a gram is told of botulism, like one without."""
    body = recipe(product={**SAUSAGE, "storage": "keep_frozen"}, method={"kind": "comminuted"}, smoked=True)

    answer = told(book, {**body, "curing_salts": [salt_of(STRONG_SALT, 0.001)]})

    assert "hardly_any_nitrite" in codes(answer)
    assert {"botulism", "too-little-is-dangerous"} <= {one.id for one in answer.cautions}


@pytest.mark.parametrize(
    ("salts", "code"),
    [
        (
            [salt_of(STRONG_SALT, 5.5), {"name": "sodium nitrite", "label": {}, "amount": amount(1)}],
            "may_be_pure_nitrite",
        ),
        ([salt_of({**NEAT, "strength_on_label": True}, 0.3)], "may_be_pure_nitrite"),
        ([salt_of({**STRONG_SALT, "strength_on_label": True}, 1), salt_of(percent(8), 1)], None),
    ],
    ids=["an empty label", "neat and confirmed", "confirmed for another salt"],
)
def test_a_label_is_believed_only_of_its_own_salt(book: RuleBook, salts: list[Body], code: str | None) -> None:
    """An empty label under a telling name, neat nitrite, or a strength confirmed of another salt: nothing is met."""
    answer = told(book, recipe(curing_salts=salts))

    assert answer.verdicts.going_in != "met"
    assert code is None or code in codes(answer)


def test_a_spoon_that_nobody_weighed_may_be_light(book: RuleBook) -> None:
    """A celery cure of 1.15 percent: 2.5 tsp at the 1.73 g of the lightest salt is no floor of 120."""
    cure = {"nitrite": {"salt": "sodium_nitrite", "percent": 1.15}, "other_percent": 90}

    answer = told(book, recipe(meat=amount(1, "kg"), curing_salts=[salt_of(cure, 2.5, "tsp")]))

    floor = next(one for one in answer.findings if one.rule == "us-nitrite-keeprefrigerated-min")
    assert floor.verdict == "cannot_tell"
    assert floor.low == pytest.approx(2.5 * 1.73 * 0.0115 * 1e3, rel=1e-9)


def rule(answer: CheckAnswer, id: str) -> str:
    """The verdict on one rule."""
    return next(one.verdict for one in answer.findings if one.rule == id)


def test_what_is_deadly_already_is_told_before_the_rest(book: RuleBook) -> None:
    """18.75 g of nitrite in 1.3 kg of pickle breaks the guard of 4,000 ppm, whatever the pump was."""
    body = recipe(**FIVE_KILOS, method=pumped(amount(1000), 3.999), curing_salts=[salt_of(STRONG_SALT, 300)])

    assert rule(told(book, body), "guard-pickle-strength") == "not_met"


def test_none_at_all_is_broken_by_an_unknown_amount(book: RuleBook) -> None:
    """For infants, and of nitrate in bacon, none may go in: the label is enough."""
    infants = recipe(product={**LOIN, "for_infants": True}, curing_salts=[{"label": STRONG_SALT}])
    bacon = recipe(product=BACON, curing_salts=[{"label": {**STRONG_SALT, **nitrate(4)}}])

    assert rule(told(book, infants), "us-nitrite-babyfood-max") == "not_met"
    assert rule(told(book, bacon), "us-nitrate-bacon-max") == "not_met"


def test_a_piece_takes_up_no_more_than_there_is(book: RuleBook) -> None:
    """1.8125 g of nitrite on 10 kg is 181 ppm at the most, however large a pick-up is assumed: no alarm."""
    method = {**pumped(amount(1000), 6), "kind": "injected_then_covered"}
    salts = [salt_of(STRONG_SALT, 29)]
    body = recipe(meat=amount(10, "kg"), ingredients=[line("table-salt", 150)], method=method, curing_salts=salts)

    answer = told(book, body)

    assert "do_not_eat" not in codes(answer)
    assert max(one.high for one in answer.figures.readings if one.decides) <= 181.25 + 1e-4


def test_a_pickle_that_is_half_told_may_suffice(book: RuleBook) -> None:
    """Where the rest of a pickle is not stated, it is not called too little."""
    body = recipe(meat=amount(10.5, "kg"), method=pumped(amount(1000), 10), curing_salts=[salt_of(STRONG_SALT, 25)])
    del body["ingredients"]

    assert "not_enough_pickle" not in codes(told(book, body))


def test_a_level_inside_the_range_is_open(book: RuleBook) -> None:
    """4 tsp of a potassium salt in pumped bacon: 148 ppm lies inside the range, so that nothing can be told."""
    potassium = {"nitrite": {"salt": "potassium_nitrite", "percent": 6.25}}
    body = recipe(product=BACON, **FIVE_KILOS, method=pumped(amount(1000), 10))

    answer = told(book, {**body, "curing_salts": [salt_of(potassium, 4, "tsp")]})

    assert rule(answer, "us-bacon-pumped-knitrite") == "cannot_tell"


def test_an_accelerator_among_the_spices_is_counted_nowhere(book: RuleBook) -> None:
    """25,000 ppm of erythorbate by its name among the ingredients is not met by an empty list of accelerators."""
    answer = told(book, recipe(method=DRY, ingredients=[line("sodium erythorbate", 55)], accelerators=[]))

    assert answer.verdicts.going_in == "cannot_tell"


def test_hours_are_no_equilibrium(book: RuleBook) -> None:
    """Ten hours in a pickle prove no minimum; six days, with all else the same, do."""
    body = recipe(method=soaked(amount(2000), EQUILIBRIUM), curing_salts=[salt_of(STRONG_SALT, 10)])
    hours, days = ({**body, "cured_for": {"value": value, "unit": unit}} for value, unit in ((10, "h"), (6, "d")))

    assert rule(told(book, hours), "us-nitrite-keeprefrigerated-min") == "cannot_tell"
    assert rule(told(book, days), "us-nitrite-keeprefrigerated-min") == "met"


def test_an_unknown_pump_may_be_made_up_by_the_cover(book: RuleBook) -> None:
    """A small piece in much pickle: whatever the pump was, meat and pickle may come to one, so no floor is broken."""
    method = {"kind": "injected_then_covered", "water": amount(10, "kg"), "cover": EQUILIBRIUM}
    body = recipe(meat=amount(1, "kg"), ingredients=[], method=method, curing_salts=[salt_of(STRONG_SALT, 22)])

    floor = next(one for one in told(book, body).findings if one.rule == "us-nitrite-keeprefrigerated-min")

    assert floor.verdict == "cannot_tell"
    assert floor.high == pytest.approx(22 * 0.0625 / (1000 + 10000 + 22) * 1e6, rel=1e-9)


def test_a_pump_of_more_than_there_is_tells_nothing(book: RuleBook) -> None:
    """Half of 5 kg is not pumped from 150 g of pickle, whatever becomes of the cover."""
    method = {"kind": "injected_then_covered", "pump_percent": 50, "water": amount(100)}

    answer = told(book, recipe(**FIVE_KILOS, method=method, curing_salts=[salt_of(STRONG_SALT, 20)]))

    assert "not_enough_pickle" in codes(answer)
    assert answer.figures.readings == ()
