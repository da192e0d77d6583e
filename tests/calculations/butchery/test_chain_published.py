"""A chain of yields against figures that are printed outside this project."""

import json

import pytest

from service.rules.book import RuleBook
from tests.calculations.butchery.chains import (
    answer_to,
    bought,
    corned,
    gained,
    left,
    lost,
    made_of,
    mass,
    own_test,
    portions_wanted,
    refusal_of,
    smoke,
    stage,
    weight_wanted,
)

TRIMMED, SLICED = stage("trim", lost(15)), stage("slice", lost(3))


def test_a_hundred_plates_take_63_9_pounds(book: RuleBook):
    """100 x 5 oz, trim 15 %, cook 59.3 % (Kerth and others, abstract, read), slice 3 %: 31.25 / 0.48893, by hand."""
    answer = answer_to(book, portions_wanted(100, 5, "oz"), TRIMMED, smoke(left(59.3)), SLICED, units="us")

    assert answer.purchased.typical == pytest.approx(63.9, abs=0.05)
    assert answer.sold.typical == 31.25


def test_a_pumped_piece_stays_under_its_green_weight(book: RuleBook):
    """10 to 20 % pump x 70.5 % of the CURED piece (USDA SR28 weight file, 13347): 77.6 to 84.6 % of green."""
    simmered = stage("cook", {**left(70.5), "of_weight": "cured"}, method="simmer")

    answer = answer_to(
        book, bought(20, "lb"), stage("cure", gained(15, 10, 20)), simmered,
        bought_as="trimmed", standard=corned("brisket"),
    )  # fmt: skip

    of_green = answer.stages[1].of_green
    assert of_green is not None
    assert [of_green.low, of_green.high] == pytest.approx([77.6, 84.6], abs=0.06)
    assert (of_green.part, of_green.of_weight) == ("cooked", "trimmed")
    assert {one.measure: one.outlook for one in answer.forecasts}["finished_weight"] == "expected"


def test_70_5_percent_is_taken_of_the_cured_piece(book: RuleBook):
    """The same figure from the table, with the caterers' half beside it; of a fresh piece it is not taken."""
    cured = answer_to(book, bought(20), stage("cook", method="simmer"), cut="corned-beef-brisket")
    fresh = {"task": bought(20), "stages": [stage("cook", method="simmer")], "cut": "corned-beef-brisket"}

    taken = cured.defaults[0]
    assert (taken.low, taken.typical, taken.high, taken.of_weight) == (50, 70.5, 70.5, "cured")
    refusal = refusal_of(book, {**fresh, "bought_as": "trimmed"})
    assert refusal is not None
    assert refusal.code == "no_published_yield"
    assert "simmered, 70.5 percent of the cured weight" in refusal.reason


def test_70_5_percent_of_the_fresh_piece_is_refused(book: RuleBook):
    """The classic trap: the same figure said to be of the fresh piece, and told as 58.75 of the cured one (by hand)."""
    pumped = [stage("cure", gained(20)), stage("cook", {**left(70.5), "of_weight": "trimmed"}, method="simmer")]

    refusal = refusal_of(book, {"task": bought(20), "stages": pumped, "bought_as": "trimmed"})

    assert refusal is not None
    assert refusal.code == "wrong_basis"
    assert "State 58.75 percent left of the cured weight" in str(refusal.nearest)


def test_the_usual_chain_leaves_about_half(book: RuleBook):
    """0.85 x 0.56 to 0.593 x 0.97 is 0.46 to 0.49 of what is bought, by hand; the band of all readings is wider."""
    answer = answer_to(book, bought(10), stage("trim"), smoke(), stage("slice"))

    trim, cook, slices = answer.defaults
    assert (trim.typical, cook.low, cook.high, slices.typical) == (85, 56, 59.3, 97)
    ends = [trim.typical * end * slices.typical / 1e6 for end in (cook.low, cook.high)]
    assert ends == pytest.approx([0.46, 0.49], abs=0.005)
    whole = answer.stages[-1].of_purchased
    assert whole.low <= 46.2 <= whole.typical <= 49.5 <= whole.high


def test_37_sandwiches_are_13_875_pounds(book: RuleBook):
    """37 x 6 oz sold, and back through tests of one's own to what was cooked, cured and bought."""
    answer = answer_to(
        book, portions_wanted(37, 6, "oz"), stage("cure", own_test(10, 11.2)),
        smoke(own_test(11.2, 7.0)), stage("slice", own_test(7.0, 6.72)), bought_as="trimmed", units="us",
    )  # fmt: skip

    assert answer.sold.typical == 13.875
    weights = [one.weight.typical for one in answer.stages]
    assert weights == pytest.approx([13.875 / 0.96 / 0.625, 13.875 / 0.96, 13.875], abs=0.001)
    assert answer.purchased.typical == pytest.approx(13.875 / 0.672, abs=0.001)


@pytest.mark.parametrize(
    ("cut", "before_lb", "cured_lb", "citation"),
    [("brisket", 10, 12.1, "9 CFR 319.101"), ("round", 10, 11.1, "9 CFR 319.102"), ("tongue", 10, 11.1, "319.103")],
)
def test_too_much_gained_in_the_cure_fails(book: RuleBook, cut: str, before_lb: float, cured_lb: float, citation: str):
    """A brisket at 121 % of green, an eye of round and a tongue at 111 %: each over, by its own section."""
    weighed = stage("cure", weighed=mass(cured_lb, "lb"))

    answer = answer_to(book, bought(before_lb, "lb"), weighed, bought_as="trimmed", standard=corned(cut))

    (finding,) = (one for one in answer.findings if one.measure == "weight_gain")
    assert finding.verdict == "not_met"
    assert finding.figure == pytest.approx(10 * cured_lb - 100)
    assert citation in finding.citation


@pytest.mark.parametrize(("cut", "cured_lb"), [("brisket", 12.0), ("round", 11.0), ("other", 11.0), ("tongue", 11.0)])
def test_the_most_that_may_be_gained_is_met(book: RuleBook, cut: str, cured_lb: float):
    """120 and 110 % of green, to the ounce: limits are inclusive."""
    weighed = stage("cure", weighed=mass(cured_lb, "lb"))

    answer = answer_to(book, bought(10, "lb"), weighed, bought_as="trimmed", standard=corned(cut))

    (finding,) = (one for one in answer.findings if one.measure == "weight_gain")
    assert (finding.verdict, finding.at_limit) == ("met", True)


@pytest.mark.parametrize(("cooked_lb", "verdict"), [(10.05, "not_met"), (10.0, "met"), (9.95, "met")])
def test_cooked_at_100_5_percent_of_green_fails(book: RuleBook, cooked_lb: float, verdict: str):
    """9 CFR 319.101: a cooked corned brisket weighs no more than the fresh one did."""
    cooked = stage("cook", method="steam", weighed=mass(cooked_lb, "lb"))

    answer = answer_to(
        book, bought(10, "lb"), stage("cure", weighed=mass(11.8, "lb")), cooked,
        bought_as="trimmed", standard=corned("brisket"),
    )  # fmt: skip

    assert {one.measure: one.verdict for one in answer.findings}["finished_weight"] == verdict


# Public discussion among commercial cooks (2014) and an advice column (2005): what was left of 15 lb as purchased.
@pytest.mark.parametrize("percent", [47.0, 53.0, 46.7, 50.0])
def test_published_shares_of_what_was_bought(book: RuleBook, percent: float):
    """A share of the purchased weight goes on the whole chain, and is refused as one of the trimmed weight."""
    of_bought = {**left(percent), "of_weight": "as_purchased"}

    answer = answer_to(book, bought(15, "lb"), smoke(of_bought), units="us")

    assert answer.sold.typical == pytest.approx(15 * percent / 100, abs=0.001)
    assert answer.stages[0].of_purchased.typical == percent
    refusal = refusal_of(book, {"task": bought(15), "stages": [stage("trim", lost(15)), smoke(of_bought)]})
    assert refusal is not None
    assert f"State {percent / 0.85:.4g} percent left of the trimmed weight" in str(refusal.nearest)


def test_the_whole_chain_is_held_beside_what_is_published(book: RuleBook):
    """47, 46.7 and 50 of purchased stand beside it; 59.3 and 56.0 of the piece put in the smoker are taken for it."""
    answer = answer_to(book, bought(15), stage("trim"), smoke(), stage("slice"), cut="beef-brisket-deckle-off")

    assert {47.0, 46.7, 50.0} <= {one.low for one in answer.published}
    assert {56.0, 59.3} <= {one.low for one in answer.defaults[1].readings}
    assert answer.defaults[1].low == 56
    assert answer.defaults[1].typical == pytest.approx((56.0 + 59.3) / 2)
    assert answer.defaults[1].high == 75


# Web and textbook problems on food cost: what was bought, what was left, in percent.
@pytest.mark.parametrize(
    ("before", "after", "percent"),
    [(28, 16, 57.14), (38.75, 22.0, 56.77), (22, 19, 86.36), (5.2, 4.6, 88.46), (50, 37.5, 75.0), (12, 8.25, 68.75)],
)
def test_yields_of_textbooks(book: RuleBook, before: float, after: float, percent: float):
    """A butcher's test (28 lb rib; 38 lb 12 oz primal), cooking tests chained on them, lessons for cooks."""
    answer = answer_to(book, bought(before), stage("other", own_test(before, after), name="test"))

    assert answer.stages[0].left.typical == percent
    assert answer.sold.typical == pytest.approx(1000 * after, abs=0.1)


@pytest.mark.parametrize(("how_many", "size", "buy_lb"), [(48, 4, 28.2353), (55, 5, 40.4412)])
def test_orders_of_a_textbook(book: RuleBook, how_many: int, size: float, buy_lb: float):
    """Legs of lamb at a yield factor of 0.425: 48 x 4 oz and 55 x 5 oz (textbook on food cost, chapter 6)."""
    answer = answer_to(
        book, portions_wanted(how_many, size, "oz"), stage("other", left(42.5), name="boned and roasted"), units="us"
    )

    assert answer.purchased.typical == pytest.approx(buy_lb, abs=0.001)


def test_a_yield_is_not_rounded_before_dividing(book: RuleBook):
    """85 x 170 g at 4.6 of 5.2 kg is 16.3348 kg; at the printed 88.5 percent 16.3277 (lesson, Canada, 2007)."""
    task = portions_wanted(85, 170, "g")

    exact = answer_to(book, task, stage("trim", own_test(5.2, 4.6)))
    printed = answer_to(book, task, stage("trim", left(88.5)))

    assert exact.purchased.typical == pytest.approx(16334.8, abs=0.1)
    assert printed.purchased.typical == pytest.approx(16327.7, abs=0.1)


def test_served_weight_of_a_cooked_ham(book: RuleBook):
    """12 lb net raw served as 22 x 6 oz is 8.25 lb, 31.25 % shrinkage (cooked yield test form of a textbook)."""
    served = stage("cook", own_test(12, 8.25), method="roast")

    answer = answer_to(book, bought(12, "lb", portion=mass(6, "oz")), served, bought_as="trimmed", units="us")

    assert answer.portions is not None
    assert (answer.portions.low, answer.portions.typical, answer.portions.high) == (22, 22, 22)
    assert answer.stages[0].lost.typical == pytest.approx(12 * 0.3125)


def test_thirty_portions_of_a_textbook_roast(book: RuleBook):
    """19 lb saleable in 10 oz: 30.4, so 30 whole ones with 4 oz over; 49.03 % of 38 lb 12 oz (textbook)."""
    answer = answer_to(
        book, bought(38.75, "lb", portion=mass(10, "oz")), stage("trim", own_test(38.75, 22)),
        stage("cook", own_test(22, 20.25), method="roast"), stage("trim", own_test(20.25, 19)), units="us",
    )  # fmt: skip

    assert answer.portions is not None
    assert (answer.portions.typical, answer.portions.left_over.value) == (30, 4.0)
    assert answer.stages[-1].of_purchased.typical == 49.03


def test_a_made_up_piece_goes_down_to_its_slices(book: RuleBook):
    """14 lb, 2.1 lb trimmed off, 59.3 % cooked, 3 % lost on the slicer: 11.9, 7.0567, 6.845 lb, 48.89 % (by hand)."""
    answer = answer_to(book, bought(14, "lb"), TRIMMED, smoke(left(59.3)), SLICED, units="us")

    assert [one.weight.typical for one in answer.stages] == pytest.approx([11.9, 7.0567, 6.845], abs=0.001)
    assert answer.stages[-1].of_purchased.typical == 48.89


def test_six_ounces_cooked_ask_for_twelve_raw(book: RuleBook):
    """The caterers' rule of half, of the cured piece (public discussion, 2011), stands among the readings."""
    smoked = answer_to(book, weight_wanted(6, "oz"), smoke(), cut="corned-beef-brisket", units="us")

    assert smoked.bought_as == "cured"
    assert smoked.purchased.typical == 12.0
    assert [one.evidence for one in smoked.defaults[0].readings] == ["reported"]


def test_barbecued_meat_and_country_ham(book: RuleBook):
    """9 CFR 319.80: at most 70 % of the fresh weight. 9 CFR 319.106(c)(7): a country ham loses at least 18 %."""
    barbecued = made_of("whole_muscle", species="pork", sold_as="barbecued_meat")
    matured = made_of("whole_muscle", species="pork", finish="matured", sold_as="country_ham")

    barbecue = answer_to(book, bought(10), smoke(weighed=mass(7.1)), bought_as="trimmed", standard=barbecued)
    hams = [
        answer_to(book, bought(10), stage("cure", weighed=mass(kg)), bought_as="trimmed", standard=matured)
        for kg in (8.2, 8.3)
    ]

    assert [one.verdict for one in barbecue.findings] == ["not_met"]
    assert [one.findings[0].verdict for one in hams] == ["met", "not_met"]
    assert [one.findings[0].at_limit for one in hams] == [True, False]


def test_a_pound_is_the_least_piece(book: RuleBook):
    """9 CFR 319.100, 319.102: a piece of corned beef weighs a pound when it is cured."""
    weighed = stage("cure", weighed=mass(10.5, "lb"))

    verdicts = [
        answer_to(
            book,
            bought(10, "lb"),
            weighed,
            bought_as="trimmed",
            standard=corned("round", smallest_piece=mass(oz, "oz")),
        )
        for oz in (15.9, 16)
    ]

    pieces = [{one.measure: one.verdict for one in each.findings}["piece_weight"] for each in verdicts]
    assert pieces == ["not_met", "met"]


def test_every_answer_names_both_weights(book: RuleBook):
    """No share in an answer stands without its numerator and its denominator."""
    answer = answer_to(book, bought(15), stage("trim"), smoke(), stage("slice"), cut="beef-brisket-deckle-off")

    names = [
        (share.part, share.of_weight)
        for one in answer.stages
        for share in (one.left, one.of_purchased, one.of_green)
        if share
    ]
    assert names[3:6] == [("cooked", "trimmed"), ("cooked", "as_purchased"), ("cooked", "trimmed")]
    assert names[6:] == [("sold", "cooked"), ("sold", "as_purchased"), ("sold", "trimmed")]
    assert json.dumps(names).count("null") == 0
