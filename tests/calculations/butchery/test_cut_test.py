"""What a cutting test tells, and when it closes."""

import pytest

from service.rules.book import RuleBook
from tests.calculations.butchery.blocks import answer_to, codes, mass, part

LOIN = (
    part("eye", "cure", "2.1 kg", "1.9 kg", what="meat"),
    part("trim", "grind", "12 oz", what="trim"),
    part("bones", "stock", "0.95 kg", what="bone"),
    part("fat", "render", "420 g", what="fat"),
    part("sinew", "waste", "110 g"),
)


def test_weighings_are_added_in_any_units(book: RuleBook):
    """1 kg, 1 lb, 1 oz and 1 g are 1482.942 g (international pound and ounce, exact)."""
    answer = answer_to(book, "1.5 kg", part("all", "cook", "1 kg", "1 lb", "1 oz", "1 g"))

    assert answer.balance.parts_g == pytest.approx(1000 + 453.59237 + 28.349523125 + 1)
    assert answer.parts[0].weighings == 4
    assert answer.parts[0].weight is not None
    assert answer.parts[0].weight.value == 1482.9


def test_shares_are_of_the_purchase_and_of_what_was_weighed(book: RuleBook):
    """900 g of 1 kg bought, and of 960 g weighed."""
    (meat, _) = answer_to(book, "1 kg", part("meat", "sell", "900 g"), part("bone", "waste", "60 g")).parts

    assert meat.of_purchased_percent == 90
    assert meat.of_weighed_percent == 93.75


def test_parts_are_added_by_use(book: RuleBook):
    """Each use once, in one order, and the four yields: bones in the pot are usable, and are no meat."""
    answer = answer_to(book, "6 kg", *LOIN)

    assert [(one.use, one.parts) for one in answer.by_use] == [
        ("cure", 1), ("grind", 1), ("render", 1), ("stock", 1), ("waste", 1),
    ]  # fmt: skip
    assert answer.yields.meat.weight.value == 4340.2
    assert answer.yields.usable.weight.value == 5710.2
    assert (answer.yields.waste.percent, answer.yields.loss.percent) == (1.833333, 0)


@pytest.mark.parametrize(
    ("missing_g", "verdict", "code"),
    [
        (200, "met", "closes"), (201, "not_met", "weight_missing"),
        (-200, "met", "closes"), (-201, "not_met", "too_much_weight"), (0, "met", "closes"),
    ],
)  # fmt: skip
def test_two_percent_are_allowed_where_nothing_is_stated(book: RuleBook, missing_g: int, verdict: str, code: str):
    """The bound itself keeps it; too much is told apart from too little; the figure is called common practice."""
    closure = answer_to(book, "10 kg", part("all of it", "sell", f"{10_000 - missing_g} g")).closure

    assert (closure.verdict, closure.code) == (verdict, code)
    assert closure.difference.value == missing_g
    assert (closure.tolerance_percent, closure.tolerance_is) == (2, "common_practice")


def test_what_comes_out_even_is_said_so(book: RuleBook):
    """Three weighings that binary numbers do not add up to 0.3 kg, with and without the step of the scale."""
    parts = [part(name, "cook", "0.1 kg") for name in "abc"]

    for more in ({}, {"scale_step": mass("1 g")}):
        assert answer_to(book, "0.3 kg", *parts, **more).closure.message == "Parts and losses are what was bought."


def test_the_stated_tolerance_decides(book: RuleBook):
    """Half a percent of 10 kg is 50 g."""
    parts = part("all of it", "sell", "9940 g")

    closure = answer_to(book, "10 kg", parts, tolerance_percent=0.5).closure

    assert (closure.verdict, closure.tolerance_is, closure.tolerance.value) == ("not_met", "stated", 50)


def test_a_measured_loss_closes_the_test(book: RuleBook):
    """Purge is a part of its own use: with it nothing is missing, without it 400 g are."""
    rest = part("meat", "cook", "9.6 kg")

    with_purge = answer_to(book, "10 kg", rest, part("purge", "loss", "400 g"))

    assert (with_purge.closure.code, with_purge.balance.loss_g, with_purge.balance.unaccounted_g) == ("closes", 400, 0)
    assert answer_to(book, "10 kg", rest).closure.code == "weight_missing"


def test_a_part_without_weight_is_not_none(book: RuleBook):
    """Nothing is told of the rest, but what it can be at most: 600 g, as waste and not as meat."""
    answer = answer_to(book, "5 kg", part("meat", "cure", "4.4 kg"), part("skin", "waste"))

    assert (answer.closure.verdict, answer.closure.code) == ("cannot_tell", "part_not_weighed")
    assert answer.parts[1].weight is None
    assert answer.parts[1].at_most is not None
    assert answer.parts[1].at_most.value == 600
    assert answer.yields.waste.weight.value == 0
    assert answer.yields.waste.at_most is not None
    assert answer.yields.waste.at_most.value == 600
    assert answer.yields.meat.at_most_percent == answer.yields.meat.percent == 88


def test_an_empty_list_of_weighings_is_not_weighed_either(book: RuleBook):
    """The same answer, byte for byte."""
    parts = [part("meat", "cure", "4.4 kg"), part("skin", "waste")]

    told = answer_to(book, "5 kg", parts[0], {**parts[1], "weights": []})

    assert told == answer_to(book, "5 kg", *parts)


def test_too_much_is_too_much_whatever_was_not_weighed(book: RuleBook):
    """A part that was not weighed makes it worse; nothing is left over for it."""
    answer = answer_to(book, "5 kg", part("meat", "cure", "5.4 kg"), part("skin", "waste"))

    assert answer.closure.code == "too_much_weight"
    assert answer.closure.left_over is answer.parts[1].at_most is None
    assert "left_over_unlikely" in codes(answer)


def test_what_the_scale_cannot_tell_is_no_loss(book: RuleBook):
    """Three weighings by 100 g may be off by 150 g: 140 g of 2 kg are no loss, and 10 kg close all the same."""
    small = answer_to(book, "2 kg", part("a", "cook", "1 kg"), part("b", "cook", "860 g"), scale_step=mass("100 g"))
    large = answer_to(book, "10 kg", part("a", "cook", "5 kg"), part("b", "cook", "4.96 kg"), scale_step=mass("100 g"))

    assert (small.closure.verdict, small.closure.code) == ("cannot_tell", "scale_too_coarse")
    assert small.closure.resolution is not None
    assert small.closure.resolution.value == 150
    assert (large.closure.verdict, large.closure.message.endswith("no more than the scale can tell.")) == ("met", True)


def test_without_the_step_of_the_scale_weights_are_taken_as_written(book: RuleBook):
    """No resolution is told, and 140 g of 2 kg are missing."""
    closure = answer_to(book, "2 kg", part("a", "cook", "1 kg"), part("b", "cook", "860 g")).closure

    assert (closure.resolution, closure.code) == (None, "weight_missing")


def test_a_part_is_held_against_what_is_published(book: RuleBook):
    """Bone of a pork butt: 9 percent (SR28) and 6.91 (a cutting test); fat 5.44 to 8, connective tissue not stated."""
    answer = answer_to(
        book, "10 kg", part("bone", "stock", "800 g", what="bone"), part("rest", "cook", "9.2 kg"), cut="pork-butt"
    )

    (share,) = answer.parts[0].published
    assert (share.low_percent, share.high_percent, share.spread) == (6.91, 9, "several_figures")
    assert (share.your_percent, share.lies, share.your_parts) == (8, "within", ("bone",))
    assert [one.partition(":")[0] for one in share.sources] == ["bone, 9 percent", "bone, 6.91 percent"]
    assert share.sources[0].endswith("(read). Blade steaks, bone-in.")
    assert answer.parts[1].published == ()


@pytest.mark.parametrize(("skin", "lies"), [("500 g", "below"), ("700 g", "within"), ("900 g", "above")])
def test_a_figure_that_stands_alone_has_our_spread(book: RuleBook, skin: str, lies: str):
    """Skin of a belly is 7 percent (SR28, 10005): a quarter to either side is this project's own bound."""
    answer = answer_to(book, "10 kg", part("skin", "waste", skin, what="skin"), cut="pork-belly")

    (share,) = answer.parts[0].published
    assert (share.low_percent, share.high_percent, share.spread, share.lies) == (5.25, 8.75, "own_bound", lies)


def test_what_was_published_together_is_compared_together(book: RuleBook):
    """Bone and skin of a leg are 17 percent: no bone alone, and none with skin that was not weighed, is held there."""
    bone, skin = part("bone", "stock", "1 kg", what="bone"), part("skin", "waste", "700 g", what="skin")

    def together(*parts: dict) -> tuple:
        shares = answer_to(book, "10 kg", *parts, cut="pork-leg").parts[0].published
        return next((one.your_percent, one.lies) for one in shares if one.part == "bone and skin")

    assert together(bone, skin) == (17, "within")
    assert together(bone) == (None, "cannot_tell")
    assert together(bone, part("skin", "waste", what="skin")) == (None, "cannot_tell")


def test_one_piece_lies_among_those_that_are_sold(book: RuleBook):
    """Picnics are sorted from 4 to 12 lb: 12 kg in two pieces are too heavy for one, in three they are not."""
    lies = [answer_to(book, "12 kg", *LOIN, cut="pork-picnic", pieces=pieces).each for pieces in (2, 3, 8)]

    assert [one.lies for one in lies if one] == ["above", "within", "below"]
    assert all(one and "reported" in one.sources[0] for one in lies)
    assert answer_to(book, "12 kg", *LOIN, pieces=2).each is not None
    assert answer_to(book, "12 kg", *LOIN).each is None


def test_pounds_say_the_same(book: RuleBook):
    """Units are those of the answer alone; shares and verdict stay."""
    metric, us = (answer_to(book, "6 kg", *LOIN, units=units) for units in ("metric", "us"))

    assert us.parts[0].weight is not None
    assert (us.parts[0].weight.value, us.parts[0].weight.unit) == (8.818, "lb")
    assert [one.of_purchased_percent for one in us.parts] == [one.of_purchased_percent for one in metric.parts]
    assert (us.closure.code, us.balance) == (metric.closure.code, metric.balance)


def test_too_much_is_negative_in_every_unit(book: RuleBook):
    """What the parts weigh more than the piece is a difference under zero."""
    closure = answer_to(book, "2 lb", part("wet", "cook", "4 lb"), units="us").closure

    assert (closure.difference.value, closure.difference.unit) == (-2, "lb")


def test_brief_leaves_out_arithmetic_and_sources(book: RuleBook):
    """Shares, verdicts, notes and cautions stay."""
    full, brief = (answer_to(book, "6 kg", *LOIN, cut="pork-loin", detail=detail) for detail in ("full", "brief"))

    assert full.steps
    assert full.sources
    assert (brief.steps, brief.sources) == ((), ())
    assert {one.sources for told in brief.parts for one in told.published} == {()}
    assert (brief.closure, brief.cautions, brief.follows) == (full.closure, full.cautions, full.follows)


def test_the_arithmetic_can_be_followed(book: RuleBook):
    """Each part with its weighings, its sum and its share; then the closure and the scale."""
    steps = answer_to(book, "6 kg", *LOIN, scale_step=mass("5 g")).steps

    assert "eye: 2.1 kg + 1.9 kg = 4,000 g / 6,000 g = 66.6667 percent." in steps
    assert "trim: 12 oz = 340.1943 g / 6,000 g = 5.6699 percent." in steps
    assert "Scale: 7 weighings x 5 g / 2 = 17.5 g." in steps


@pytest.mark.parametrize("parts", [("5.4 kg", "2 kg"), ("3.4 kg", "1 kg")])
def test_nothing_is_bounded_by_a_test_that_does_not_close(book: RuleBook, parts: tuple[str, str]):
    """48 percent too much, 12 too little: totals tell what was written down, and no most; a closed one tells both."""
    yields = answer_to(book, "5 kg", part("meat", "cure", parts[0]), part("bone", "waste", parts[1])).yields
    closed = answer_to(book, "5 kg", part("meat", "cure", "4 kg"), part("bone", "waste", "1 kg")).yields

    assert (yields.loss.at_most, yields.loss.at_most_percent) == (None, None)
    assert (yields.usable.at_most, yields.usable.at_most_percent) == (None, None)
    assert closed.loss.at_most_percent == 0
    assert closed.usable.at_most_percent == 80


@pytest.mark.parametrize(
    ("weighed", "code", "told"),
    [
        ("9799.99 g", "weight_missing", "200.01 g (2.0001 percent of what was bought) is missing; 2 percent is"),
        ("9800.01 g", "closes", "200 g (2 percent of what was bought) is not accounted for; 2 percent is"),
        ("9800 g", "closes", "200 g (2 percent of what was bought) is not accounted for; 2 percent is"),
        ("10200.01 g", "too_much_weight", "200.01 g (2.0001 percent of what was bought) more was weighed than"),
        ("10200 g", "closes", "200 g (2 percent of what was bought) more was weighed than was bought; 2 percent is"),
    ],
)
def test_as_many_digits_are_told_as_the_verdict_takes(book: RuleBook, weighed: str, code: str, told: str):
    """No sentence says 2 of 2 percent where the test does not close."""
    closure = answer_to(book, "10 kg", part("all of it", "cook", weighed)).closure

    assert closure.code == code
    assert closure.message.startswith(told)


@pytest.mark.parametrize(
    ("units", "told"), [("metric", "10,000.1 g, the whole 10,000 g"), ("us", "22.0464 lb, the whole")]
)
def test_a_part_that_is_hardly_heavier_is_told_so(book: RuleBook, units: str, told: str):
    """No sentence says 10,000 g of 10,000 g."""
    (heavy, *_) = answer_to(book, "10 kg", part("all of it", "cook", "10.0001 kg"), units=units).call_outs

    assert told in heavy.message


@pytest.mark.parametrize(
    ("purchased", "lies"), [("3 lb", "below"), ("8 lb", "within"), ("8.1 lb", "cannot_tell"), ("50 kg", "cannot_tell")]
)
def test_an_open_range_says_nothing_of_how_heavy_pieces_get(book: RuleBook, purchased: str, lies: str):
    """Butts are sorted to 8 lb, and 8 lb and up (from memory): above that nothing is told; brief says it too."""
    each = answer_to(book, purchased, *LOIN, cut="pork-butt", pieces=1, detail="brief").each

    assert each is not None
    assert (each.lies, each.from_memory) == (lies, True)


def test_what_was_weighed_may_be_above_whatever_was_not(book: RuleBook):
    """Bone and connective tissue of a turkey are 29 percent (SR28, 05165), our spread goes to 36.25: 40 is above."""
    for carcass, lies in (("4 kg", "above"), ("3.6 kg", "cannot_tell")):
        answer = answer_to(book, "10 kg", part("carcass", "stock", carcass, what="bone"), cut="turkey-whole")

        (share,) = answer.parts[0].published
        assert (share.your_percent, share.lies, share.high_percent) == (None, lies, 36.25)


def test_a_spread_says_what_it_is_made_of(book: RuleBook):
    """Two single figures, a range that was printed, and one figure alone; what is from memory is said in brief."""
    trim, skin = part("trim", "grind", "1 kg", what="trim"), part("skin", "waste", "1 kg", what="skin")
    bone = part("bone", "stock", "1 kg", what="bone")

    def told(cut: str, one: dict) -> list[tuple[str, bool]]:
        (stated,) = answer_to(book, "10 kg", one, cut=cut, detail="brief").parts
        return [(share.spread, share.from_memory) for share in stated.published]

    assert told("pork-butt", bone) == [("several_figures", False)]
    assert told("beef-brisket-deckle-off", trim) == [("published", True)]
    assert told("pork-belly", skin) == [("own_bound", False)]
