"""What a scaled recipe tells, warns of and advises."""

import re
from typing import Any

import pytest

from service.calculations.refusals import Impossible
from service.calculations.seasoning.scale import SCALE, ScaleAnswer, ScaleRequest, scale
from service.calculations.seasoning.scaling.telling import ScaledLine
from service.rules.book import RuleBook
from tests.calculations.seasoning.scale_bodies import amount, limiting, line, meat_at_hand, recipe, vessel

SALT = line("table-salt", 90, "g")
PAPRIKA = line("paprika-ground", 3, "tbsp")
WATER = line("water", 2, "l")
DOUBLE = [meat_at_hand(10)]
HALF = [meat_at_hand(2.5)]


def answer_to(book: RuleBook, *lines: dict[str, Any], at_hand: list[dict[str, Any]], **more: Any) -> ScaleAnswer:
    """The answer to a recipe for five kilograms."""
    return scale(ScaleRequest.model_validate(recipe(*lines, at_hand=at_hand, **more)), book)


def first_line(book: RuleBook, one: dict[str, Any], at_hand: list[dict[str, Any]], **more: Any) -> ScaledLine:
    """The first line of the answer."""
    return answer_to(book, one, at_hand=at_hand, **more).lines[0]


def codes(answer: ScaleAnswer) -> set[str]:
    """The codes of its advice."""
    return {one.code for one in answer.advice}


def ids(answer: ScaleAnswer) -> set[str]:
    """The ids of its cautions."""
    return {one.id for one in answer.cautions}


def test_a_weighed_line_has_no_spread(book: RuleBook):
    """90 g doubled is 180 g, 1.8 percent of the meat, on every side."""
    told = first_line(book, SALT, DOUBLE)

    assert (told.weight.low, told.weight.typical, told.weight.high) == (180, 180, 180)
    assert (told.percent_of_meat.low_percent, told.percent_of_meat.high_percent) == (1.8, 1.8)
    assert told.salt == told.weight


def test_a_spoon_keeps_its_band(book: RuleBook):
    """SR28: a tablespoon of salt is 18 g; the lightest of the table 3 x 5.9 g, the heaviest 304 g / 16."""
    told = first_line(book, line("table-salt", 4, "tbsp"), HALF).weight

    assert (told.low, told.typical, told.high) == (35.4, 36, 38)


def test_the_tightest_of_three_governs(book: RuleBook):
    """Half the meat, a third of the paprika, a vessel that holds twice: a third of everything, and what is left."""
    limits = [meat_at_hand(2.5), limiting("paprika-ground", 1, "tbsp"), vessel(30)]

    told = answer_to(book, SALT, PAPRIKA, WATER, at_hand=limits)

    assert told.factor_ratio == pytest.approx(1 / 3)
    assert [one.governs for one in told.limits] == [False, True, False]
    assert told.limits[0].left_over.low == told.limits[0].left_over.high == pytest.approx(2.5 - 5 / 3, rel=1e-5)
    assert told.limits[1].left_over.typical == 0


def test_a_vessel_holds_meat_and_liquid_under_its_head_space(book: RuleBook):
    """By hand: 10 l less 10 percent; 5 kg / 1.06 kg/l + 2 l + 90 g as so much water of 0.9982 g/ml."""
    told = answer_to(book, SALT, WATER, at_hand=[vessel(10)])

    assert told.factor_ratio == pytest.approx(9 / (5 / 1.06 + 2 + 0.09 / 0.9982), rel=1e-9)
    assert told.limits[0].at_hand.value == 9


def test_a_stated_density_and_head_space_are_taken(book: RuleBook):
    """A fat belly of 1.0 kg/l and no head-space: 10 l / (5 l + 2 l)."""
    told = answer_to(book, WATER, at_hand=[vessel(10, headspace_percent=0, meat_density_kg_per_l=1.0)])

    assert told.factor_ratio == pytest.approx(10 / 7)


def test_a_limit_in_the_measure_of_the_recipe_is_exact(book: RuleBook):
    """One of three tablespoons is a third, whatever a spoon weighs; 2 of 6 cloves likewise."""
    spoons = answer_to(book, PAPRIKA, at_hand=[limiting("paprika-ground", 1, "tbsp")])
    cloves = answer_to(book, line("garlic-clove", 6), at_hand=[limiting("garlic-clove", 2)])

    for told in (spoons, cloves):
        factor = told.limits[0].factor
        assert factor.low_ratio == factor.high_ratio == pytest.approx(1 / 3)
    assert cloves.limits[0].at_hand.unit == "clove"


def test_a_limit_in_another_measure_has_a_band(book: RuleBook):
    """SR28: a tablespoon of paprika is 6.8 g. 13.6 g are two of three by that, and the band says what else."""
    told = answer_to(book, PAPRIKA, at_hand=[limiting("Paprika Ground", 13.6, "g")])

    factor = told.limits[0].factor
    assert factor.low_ratio < factor.typical_ratio < factor.high_ratio
    assert factor.typical_ratio == pytest.approx(2 / 3, rel=5e-3)
    assert "measured_two_ways" in codes(told)


def test_lines_of_one_ingredient_are_limited_together(book: RuleBook):
    """Water on two lines, 1 l and 1000 g, of which 1 kg is there: 998.2 g to the litre."""
    told = answer_to(
        book, line("water", 1, "l"), line("Water", 1000, "g"), at_hand=[limiting("WATER", 999.1, "g")], units="us"
    )

    assert told.factor_ratio == pytest.approx(0.5)


def test_a_scale_shows_its_nearest_step(book: RuleBook):
    """90 g x 0.5 is 45 g; on a scale of 2 g it shows 44 or 46, and the unit is the scale's."""
    told = first_line(book, line("table-salt", 91, "g"), HALF, scale_step=amount(2, "g"))

    assert told.to_weigh is not None
    assert (told.to_weigh.value, told.to_weigh.unit) == (46, "g")
    assert first_line(book, SALT, HALF).to_weigh is None


def test_less_than_a_step_is_not_weighed(book: RuleBook):
    """1 g of mace to a tenth on a scale of 1 g: nothing to weigh, and what to do about it."""
    told = answer_to(book, SALT, line("mace-ground", 1, "g"), at_hand=[meat_at_hand(0.5)], scale_step=amount(1, "g"))

    assert told.lines[1].to_weigh is None
    assert [one.lines for one in told.advice if one.code == "under_scale_step"] == [(2,)]
    assert "coarse-scale" in ids(told)


@pytest.mark.parametrize(
    ("one", "at_hand", "near"),
    [
        (PAPRIKA, DOUBLE, (0.375 * 16, "tbsp", 0)),
        (line("water", 2, "cup"), HALF, (1, "cup", 0)),
        (line("cumin-seed", 1, "tsp"), [meat_at_hand(6.3)], (1.25, "tsp", -0.8)),
        (line("garlic-clove", 5), HALF, (2.5, "clove", 0)),
        (line("water", 700, "ml"), [meat_at_hand(5.1)], (715, "ml", 0.1)),
        (line("water", 1, "gal"), HALF, (2, "qt", 0)),
    ],
)
def test_a_spoon_is_told_near_a_spoon(book: RuleBook, one: Any, at_hand: Any, near: tuple[float, str, float]):
    """As a courtesy, in the measures of the recipe, with how far it is off."""
    told = first_line(book, one, at_hand).nearest_measure

    assert told is not None
    assert (told.value, told.unit) == near[:2]
    assert told.off_percent == pytest.approx(near[2], abs=0.051)


@pytest.mark.parametrize(
    "one",
    [
        line("table-salt", 2, "tbsp"),
        line("light-flake-kosher-salt", 1, "cup"),
        line("kosher-salt", 1, "cup", label={"salt_percent": 60}),
        line("celery-salt", 2, "tsp"),
        line("bouillon", 2, "tbsp"),
        line("paprika-ground", 2, "tbsp", label={"salt_percent": 51}),
        line("paprika-ground", 20, "g"),
    ],
)
def test_salt_is_never_told_by_the_spoon(book: RuleBook, one: dict[str, Any]):
    """Nor what is mostly salt, nor what was weighed."""
    assert first_line(book, one, HALF).nearest_measure is None


def test_brief_leaves_out_arithmetic_and_sources(book: RuleBook):
    """Everything else stays."""
    full, brief = (answer_to(book, SALT, PAPRIKA, WATER, at_hand=HALF, detail=detail) for detail in ("full", "brief"))

    assert full.steps
    assert full.sources
    assert (brief.steps, brief.sources) == ((), ())
    assert (brief.lines, brief.salt, brief.advice, brief.cautions) == (
        full.lines,
        full.salt,
        full.advice,
        full.cautions,
    )


def test_the_arithmetic_can_be_followed(book: RuleBook):
    """Each limit, the factor, each line and the salt have their line."""
    limits = [vessel(10), meat_at_hand(2.5), limiting("garlic-clove", 3)]
    steps = answer_to(book, SALT, WATER, line("garlic-clove", 9), at_hand=limits).steps

    text = "\n".join(steps)
    assert "The meat: 2.5 kg at hand / 5 kg in the recipe = 0.5." in text
    assert "Garlic-clove: 3 clove at hand / 9 clove in the recipe = 0.333333." in text
    assert "10 l less 10 percent = 9 l" in text
    assert "The tightest is garlic-clove: everything is multiplied by 0.333333." in text
    assert "Line 1, table-salt: 90 g, x 0.333333 = 30 g; 1.8 percent of the meat." in text


def test_us_units_are_ounces_and_pounds(book: RuleBook):
    """And the room of a vessel gallons."""
    told = answer_to(book, SALT, WATER, at_hand=[vessel(10)], units="us")

    assert (told.meat.unit, told.weight.unit, told.lines[0].weight.unit) == ("lb", "lb", "oz")
    assert told.limits[0].at_hand.unit == "gal"
    assert told.limits[0].at_hand.value == pytest.approx(9 / 3.785411784, rel=1e-5)


REFUSED = [
    ("unknown_ingredient", recipe(line("kosher", 1, "cup"), at_hand=HALF), "kosher-salt"),
    ("unknown_ingredient", recipe(line("clove", 3), at_hand=HALF), "garlic-clove"),
    ("unknown_ingredient", recipe(line("Rye crumbs", 1, "cup"), at_hand=HALF), "State its weight"),
    ("unknown_ingredient", recipe(line("Rub", 9, "g"), at_hand=[limiting("rub", 1, "cup")]), "State its weight"),
    ("no_volume_figure", recipe(line("bay-leaf", 1, "cup"), at_hand=HALF), "in pieces"),
    ("no_piece_figure", recipe(line("mace-ground", 4), at_hand=HALF), "by volume"),
    ("carries_nitrite", recipe(SALT, line("cure #1", 12, "g"), at_hand=HALF), "POST /v1/curing/dose"),
    ("may_be_curing_salt", recipe(SALT, line("pink salt", 12, "g"), at_hand=HALF), "rock salt"),
    ("label_contradicts", recipe({**SALT, "label": {"salt_percent": 0.98}}, at_hand=HALF), "Leave the label out"),
    ("no_such_line", recipe(SALT, at_hand=[limiting("paprika", 12, "g")]), "table-salt"),
    ("stated_twice", recipe(SALT, at_hand=[*HALF, *DOUBLE]), "one limit"),
]


@pytest.mark.parametrize(("code", "body", "nearest"), REFUSED)
def test_what_is_not_scaled_is_refused_with_what_can_be_stated(
    book: RuleBook, code: str, body: dict[str, Any], nearest: str
):
    """Each refusal has its code, and names the nearest thing."""
    with pytest.raises(Impossible) as refused:
        scale(ScaleRequest.model_validate(body), book)

    assert refused.value.code == code
    assert nearest in str(refused.value.nearest)


def test_a_limit_is_left_out_only_where_another_remains(book: RuleBook):
    """What the refusal offers is answered when it is followed."""
    body = recipe(SALT, at_hand=[limiting("paprika", 12, "g"), *HALF])

    with pytest.raises(Impossible) as refused:
        scale(ScaleRequest.model_validate(body), book)

    assert str(refused.value.nearest).endswith("Or leave this limit out.")
    assert scale(ScaleRequest.model_validate({**body, "at_hand": HALF}), book).factor_ratio == 0.5
    with pytest.raises(Impossible) as alone:
        scale(ScaleRequest.model_validate({**body, "at_hand": body["at_hand"][:1]}), book)
    assert "leave this limit out" not in str(alone.value.nearest)


@pytest.mark.parametrize(
    ("one", "is_near"),
    [
        (line("kosher", 1, "cup"), True),
        (line("clove", 3), True),
        (line("salt", 1, "l"), True),
        (line("Rye", 1, "cup"), False),
    ],
)
def test_every_id_that_is_offered_is_answered(book: RuleBook, one: dict[str, Any], is_near: bool):
    """Put in the place of what is not known, in the same measure."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, one, at_hand=HALF)

    offered = re.findall(r"[a-z]+(?:-[a-z]+)+", str(refused.value.nearest).partition(". ")[0])
    assert {first_line(book, {**one, "ingredient": id}, HALF).id for id in offered} == {*offered}
    assert bool(offered) is is_near


def test_every_reason_is_reached():
    """No code is declared that no request of these brings about."""
    assert {code for code, _, _ in REFUSED} == set(SCALE.reasons)


@pytest.mark.parametrize(("one", "is_cited"), [(SALT, True), (PAPRIKA, False)])
def test_what_salt_is_reckoned_by_is_cited_where_some_is(book: RuleBook, one: dict[str, Any], is_cited: bool):
    """A recipe without salt has no figure of sodium behind it."""
    assert any("molar masses" in source for source in answer_to(book, one, at_hand=HALF).sources) is is_cited
