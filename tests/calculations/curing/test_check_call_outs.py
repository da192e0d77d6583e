"""What is called out: each code by one recipe, and not by a near twin of it."""

from typing import Any

import pytest

from service.calculations.curing.checking.calling_out import CALL_OUTS
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import BACON, DRY, LOIN, STRONG_SALT
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
MATURED = {**LOIN, "finish": "matured"}
SECOND_SALT = {**STRONG_SALT, **nitrate(4)}
BELLY = {"kind": "bacon", "skin": "on"}


def rubbed(label: Body | None, *quantity: Any, **changes: Any) -> Body:
    """The dry loin of 2.2 kg with this curing salt."""
    return recipe(**{"curing_salts": [salt_of(label, *quantity)], **changes})


def brined(water: Body, cure_g: float, **changes: Any) -> Body:
    """A loin of 2.2 kg left in its pickle, with so much curing salt."""
    return rubbed(STRONG_SALT, cure_g, **{"method": soaked(water, EQUILIBRIUM), **changes})


def salted(*lines: Body, **changes: Any) -> Body:
    """The loin without any curing salt."""
    return recipe(**{"curing_salts": [], "ingredients": [line("pickling-salt", 60), *lines], **changes})


PICKED_UP = {"kind": "pick_up", "percent": 30}


def taken_out_of(cold_c: float) -> Body:
    """A pick-up after two days in a pickle of this temperature."""
    shape = {"kind": "measured", "thickness": amount(90, "mm"), "length": amount(240, "mm")}
    stay = {"shape": shape, "pieces": 1, "temperature": amount(cold_c, "degC"), "lasts": amount(2, "d")}
    return {**PICKED_UP, "stay": stay}


def called(name: str) -> Body:
    """A recipe whose curing salt has a name and no label."""
    return recipe(curing_salts=[{"amount": amount(5.5), "name": name}])


def beside_unread(cure_g: float) -> Body:
    """So much of the strong salt, and a pinch of something without a label."""
    return recipe(curing_salts=[salt_of(STRONG_SALT, cure_g), {"name": "Lot 3", "amount": amount(1)}])


TWINS: list[tuple[str, str, Body, Body]] = [
    # code, what differs, the recipe that is called out, its twin that is not
    ("do_not_eat", "1,000 ppm and a hair less", rubbed(STRONG_SALT, 35.2), rubbed(STRONG_SALT, 35.19)),
    ("may_be_pure_nitrite", "a label of 100 percent", rubbed(NEAT, 0.3), rubbed(STRONG_SALT, 4.8)),
    ("strength_not_stated", "no label", rubbed(None, 5.5), rubbed(STRONG_SALT, 5.5)),
    ("may_be_pure_nitrite", "its name", called("sodium nitrite"), called("pink salt")),
    ("may_be_pure_nitrite", "its name in other letters", called("n\u0456trite"), called("P\u00f6kelsalz")),
    (
        "over_a_recalled_limit",
        "8 g of saltpetre, and 1 g",
        recipe(method=soaked(amount(2000), EQUILIBRIUM), curing_salts=[salt_of(nitrate(100), 8)]),
        recipe(method=soaked(amount(2000), EQUILIBRIUM), curing_salts=[salt_of(nitrate(100), 1)]),
    ),
    (
        "gain_contradicts_uptake",
        "10 percent by the scale, and 29",
        recipe(method=soaked(amount(2000), PICKED_UP), weights={"cured": amount(2.42, "kg")}),
        recipe(method=soaked(amount(2000), PICKED_UP), weights={"cured": amount(2.838, "kg")}),
    ),
    (
        "not_at_equilibrium",
        "ten hours, and six days",
        recipe(method=soaked(amount(2000), EQUILIBRIUM), cured_for={"value": 10, "unit": "h"}),
        recipe(method=soaked(amount(2000), EQUILIBRIUM), cured_for={"value": 6, "unit": "d"}),
    ),
    (
        "stay_not_credited",
        "five degrees, and a hair more",
        recipe(method=soaked(amount(2000), taken_out_of(5.001))),
        recipe(method=soaked(amount(2000), taken_out_of(5.0))),
    ),
    ("may_be_pure_nitrite", "a third of a gram to 2.2 kg", rubbed(STRONG_SALT, 0.33), rubbed(STRONG_SALT, 5.5)),
    ("do_not_eat", "30 g of saltpetre to 2.2 kg, and 5 g", rubbed(nitrate(100), 30), rubbed(nitrate(100), 5)),
    ("do_not_eat", "beside a salt that nobody read", beside_unread(100), beside_unread(5.5)),
    ("hardly_any_nitrite", "a gram, and 5.5", rubbed(STRONG_SALT, 1), rubbed(STRONG_SALT, 5.5)),
    (
        "accelerator_among_ingredients",
        "among the spices",
        recipe(ingredients=[line("sodium erythorbate", 3, dissolves=True)]),
        recipe(ingredients=[line("pickling-salt", 50)]),
    ),
    ("no_nitrite", "no curing salt", salted(), recipe()),
    ("no_nitrite", "not known is not none", salted(), recipe(curing_salts=None)),
    ("smoked_or_hung_without_nitrite", "smoked", salted(smoked=True), salted(smoked=False)),
    ("smoked_or_hung_without_nitrite", "hung", salted(product=MATURED), salted(product={**LOIN, "finish": "cooked"})),
    ("smoked_or_hung_without_nitrite", "cured", salted(smoked=True), recipe(smoked=True)),
    ("nitrate_alone", "no nitrite beside it", rubbed(nitrate(100), 2), rubbed(SECOND_SALT, 5.5)),
    ("nitrate_in_bacon", "bacon", rubbed(SECOND_SALT, 5.5, product=BACON), rubbed(SECOND_SALT, 5.5, product=MATURED)),
    ("nitrate_in_bacon", "nitrate", rubbed(SECOND_SALT, 5.5, product=BACON), rubbed(STRONG_SALT, 5.5, product=BACON)),
    (
        "nitrate_in_a_short_or_cooked_cure",
        "29 and 30 days",
        rubbed(SECOND_SALT, 5.5, cured_for={"value": 29, "unit": "d"}),
        rubbed(SECOND_SALT, 5.5, cured_for={"value": 30, "unit": "d"}),
    ),
    (
        "nitrate_in_a_short_or_cooked_cure",
        "what hangs afterwards has its time",
        rubbed(SECOND_SALT, 5.5, cured_for={"value": 14, "unit": "d"}),
        rubbed(SECOND_SALT, 5.5, product=MATURED, cured_for={"value": 14, "unit": "d"}),
    ),
    (
        "nitrate_in_a_short_or_cooked_cure",
        "cooked",
        rubbed(SECOND_SALT, 5.5, product={**LOIN, "finish": "cooked"}, cured_for={"value": 60, "unit": "d"}),
        rubbed(SECOND_SALT, 5.5, product=MATURED, cured_for={"value": 60, "unit": "d"}),
    ),
    ("nitrate_in_the_mix", "4 percent of nitrate", rubbed(SECOND_SALT, 5.5), rubbed(STRONG_SALT, 5.5)),
    (
        "curing_salt_among_ingredients",
        "pink salt and pink peppercorns",
        recipe(ingredients=[line("pink salt", 12)]),
        recipe(ingredients=[line("pink peppercorns", 12)]),
    ),
    (
        "curing_salt_among_ingredients",
        "by its id",
        recipe(ingredients=[line("curing-salt-6-25", 12)]),
        recipe(ingredients=[line("table-salt", 12)]),
    ),
    (
        "curing_salt_among_ingredients",
        "cure and curry",
        recipe(ingredients=[line("cure #1", 12)]),
        recipe(ingredients=[line("curry powder", 12)]),
    ),
    (
        "curing_salt_among_ingredients",
        "two additives by number",
        recipe(ingredients=[line("E 250", 12)]),
        recipe(ingredients=[line("E 330", 12)]),
    ),
    (
        "curing_salt_among_ingredients",
        "celery powder brings nitrite, the seed does not",
        recipe(ingredients=[line("celery powder", 12)]),
        recipe(ingredients=[line("celery-seed", 12)]),
    ),
    (
        "salt_in_seasonings",
        "stock powder and pepper",
        recipe(ingredients=[line("bouillon", 12)]),
        recipe(ingredients=[line("black-pepper-ground", 12)]),
    ),
    (
        "skin_weight_contradicts",
        "a third of skin and a tenth",
        recipe(product={**BELLY, "skin_free": amount(1.4, "kg")}),
        recipe(product={**BELLY, "skin_free": amount(2.0, "kg")}),
    ),
    (
        "storage_contradicts_finish",
        "sold raw, kept on a shelf",
        recipe(product={**LOIN, "finish": "fresh", "storage": "shelf_stable"}),
        recipe(product={**LOIN, "finish": "fresh"}),
    ),
    (
        "not_enough_pickle",
        "220 g are to be pumped",
        recipe(method=pumped(amount(150), 10)),
        recipe(method=pumped(amount(180), 10)),
    ),
    (
        "pickle_over_saturated",
        "36 and 35 parts of salt to 100 of water",
        brined(amount(1000), 5.5, ingredients=[line("pickling-salt", 360)]),
        brined(amount(1000), 5.5, ingredients=[line("pickling-salt", 350)]),
    ),
    (
        "label_over_a_hundred",
        "sugar",
        rubbed({**STRONG_SALT, "sugar_percent": 94}, 5.5),
        rubbed({**STRONG_SALT, "sugar_percent": 93.75}, 5.5),
    ),
    ("no_rule_in_force", "a place of which nothing was read", recipe(jurisdiction="GB"), recipe()),
    ("no_rule_in_force", "the day before the text", recipe(on="1999-12-22"), recipe(on="1999-12-23")),
    ("fraction_for_percent", "0.0625 for 6.25", rubbed(percent(0.0625), 5.5), rubbed(percent(6.25), 5.5)),
    (
        "fraction_for_percent",
        "a pump of 0.12 for 12",
        recipe(method=pumped(amount(1000), 0.12)),
        recipe(method=pumped(amount(1000), 12)),
    ),
    ("weak_salt_at_strong_rate", "0.5 and 6.25 percent", rubbed(percent(0.5), 5.5), rubbed(percent(6.25), 5.5)),
    ("strong_salt_at_weak_rate", "6.25 and 0.5 percent", rubbed(percent(6.25), 60), rubbed(percent(0.5), 60)),
    (
        "fluid_ounce_for_ounce",
        "2 tablespoons and as much by weight",
        rubbed(STRONG_SALT, 2, "tbsp", meat=amount(11, "kg")),
        rubbed(STRONG_SALT, 1, "oz", meat=amount(11, "kg")),
    ),
    ("litres_for_gallons", "4 l and 4 gal", brined(amount(4, "l"), 45), brined(amount(4, "gal"), 45)),
    ("gallons_for_litres", "4 gal and 4 l", brined(amount(4, "gal"), 14), brined(amount(4, "l"), 14)),
]


@pytest.mark.parametrize(("code", "what", "named", "twin"), TWINS, ids=[f"{row[0]}: {row[1]}" for row in TWINS])
def test_each_call_out_and_its_twin(book: RuleBook, code: str, what: str, named: Body, twin: Body) -> None:
    """The recipe is called out under this code once, with a sentence; its twin is not."""
    answer = told(book, named)

    messages = [one.message for one in answer.call_outs if one.code == code]
    assert len(messages) == 1, what
    assert len(messages[0]) > 40, what
    assert code not in codes(told(book, twin)), what


def test_every_call_out_has_its_twins() -> None:
    """No code is without a recipe that provokes it."""
    assert {row[0] for row in TWINS} == CALL_OUTS.keys()


def test_a_complete_recipe_is_not_called_out(book: RuleBook) -> None:
    """A weighed recipe that keeps every limit provokes nothing."""
    answer = told(book, recipe())

    assert answer.verdicts.going_in == "met"
    assert answer.call_outs == ()


CAUTIONS = [
    ("do-not-eat", rubbed(STRONG_SALT, 35.2), rubbed(STRONG_SALT, 35.19)),
    ("botulism", salted(smoked=True), recipe(smoked=True)),
    ("botulism", salted(), recipe()),
    ("too-little-is-dangerous", rubbed(nitrate(100), 2), recipe()),
    ("too-little-is-dangerous", rubbed(STRONG_SALT, 4.2), rubbed(STRONG_SALT, 4.3)),
    ("weigh-not-spoon", rubbed(STRONG_SALT, 1, "tsp"), recipe()),
    ("nitrite-toxic", recipe(curing_salts=None), salted()),
]


@pytest.mark.parametrize(
    ("caution", "named", "twin"), CAUTIONS, ids=[f"{n}-{row[0]}" for n, row in enumerate(CAUTIONS)]
)
def test_each_danger_has_its_caution(book: RuleBook, caution: str, named: Body, twin: Body) -> None:
    """What is dangerous is said first among the cautions too; its twin is spared the words."""
    given, spared = ({one.id for one in told(book, body).cautions} for body in (named, twin))

    assert caution in given
    assert caution not in spared


def test_the_name_proves_nothing(book: RuleBook) -> None:
    """Whatever a salt is called, only its label counts; a name as of curing salt changes the words."""
    bare = recipe(curing_salts=[{"amount": amount(5.5)}])
    pink, plain = ({**bare, "curing_salts": [{"amount": amount(5.5), "name": name}]} for name in ("pink salt", "Lot 3"))

    answers = [told(book, body) for body in (bare, pink, plain)]

    assert {one.verdicts.going_in for one in answers} == {"cannot_tell"}
    assert all(codes(one) == {"strength_not_stated"} for one in answers)
    assert len({one.call_outs[0].message for one in answers}) == 3


def test_an_unread_salt_is_told_at_the_usual_strengths(book: RuleBook) -> None:
    """5.5 g on 2.2 kg is the home books' 1 oz to 25 lb: 156.25 ppm at 6.25 percent (printed as 156), 12.5 at 0.5."""
    message = told(book, recipe(curing_salts=[{"amount": amount(5.5)}])).call_outs[0].message

    assert "At 6.25 percent this recipe would come to 156.2 ppm (on the meat)." in message
    assert "At 0.5 percent this recipe would come to 12.5 ppm (on the meat)." in message


def test_a_verdict_names_what_it_hangs_on(book: RuleBook) -> None:
    """The rules that are broken, else those that are open, come with the verdict and first among the findings."""
    broken, opened = told(book, rubbed(STRONG_SALT, 25)), told(book, recipe(meat=None))

    assert broken.verdicts.going_in_by == ("guard-meat-nitrite-stop", "us-nitrite-drycured-max")
    assert [one.rule for one in broken.findings[:2]] == list(broken.verdicts.going_in_by)
    assert set(opened.verdicts.going_in_by) >= {"us-nitrite-drycured-max", "us-nitrite-keeprefrigerated-min"}


def test_dry_is_not_saturated(book: RuleBook) -> None:
    """There is no pickle to saturate where salt is rubbed on."""
    assert codes(told(book, recipe(method=DRY, ingredients=[line("pickling-salt", 900)]))) == set()
