"""What a chain tells: defaults, weighings, pieces, advice, cautions."""

import pytest

from service.calculations.butchery.chaining.picturing import drawing_of
from service.rules.book import RuleBook
from tests.calculations.butchery.chains import (
    answer_to,
    bought,
    gained,
    left,
    lost,
    mass,
    own_test,
    portions_wanted,
    refusal_of,
    smoke,
    stage,
    told_of,
    weight_wanted,
)

NECK = (stage("trim", lost(12, 10, 15)), smoke(left(64, 60, 70)), stage("slice", lost(4)))


def test_low_goes_with_low_and_high_with_high(book: RuleBook):
    """10 kg: 0.85 x 0.6 x 0.96 to 0.9 x 0.7 x 0.96, by hand."""
    answer = answer_to(book, bought(10), *NECK)

    assert (answer.sold.low, answer.sold.typical, answer.sold.high) == (4896.0, 5406.7, 6048.0)
    assert answer.stages[1].lost.low == 2550.0
    assert answer.stages[1].lost.high == 3600.0


def test_least_is_bought_where_most_is_left(book: RuleBook):
    """6.048 kg wanted takes 10 kg at best; 4.896 kg takes 10 kg at worst."""
    best, worst = (answer_to(book, weight_wanted(kg), *NECK).purchased for kg in (6.048, 4.896))

    assert best.low == pytest.approx(10000, abs=0.1)
    assert worst.high == pytest.approx(10000, abs=0.1)


def test_a_default_is_named_with_source_and_evidence(book: RuleBook):
    """The cut's own readings are taken, and the slicer's crumbs, where nothing is known of the cut, as usual."""
    answer = answer_to(book, bought(7), stage("trim"), smoke(left(60)), stage("slice"), cut="pork-butt")

    trim, slices = answer.defaults
    assert (trim.taken_from, trim.low, trim.high) == ("cut", 68, 88.12)
    assert (trim.part, trim.of_weight) == ("trimmed", "as_purchased")
    assert {one.evidence for one in trim.readings} == {"read", "reported"}
    assert (slices.taken_from, slices.readings[0].evidence) == ("usual", "recalled")
    assert "from memory" in slices.readings[0].source
    assert [one.share_from for one in answer.stages] == ["cut", "stated", "usual"]


def test_what_may_not_be_planned_with_is_not_taken(book: RuleBook):
    """Links whose raw and cooked weights come from different lots give no yield."""
    body = {"task": bought(3), "stages": [stage("cook", method="pan_fry")], "cut": "pork-sausage"}

    refusal = refusal_of(book, body)

    assert refusal is not None
    assert refusal.code == "no_published_yield"
    assert "92" not in refusal.reason
    assert "no yield that may be planned with" in refusal.reason


def test_from_a_weighing_on_the_chain_goes_on_from_fact(book: RuleBook):
    """Before it a band, at it one weight, after it a band of what is left of that."""
    answer = answer_to(book, bought(10), NECK[0], smoke(weighed=mass(5.5)), NECK[2])

    trimmed, smoked, sliced = (one.weight for one in answer.stages)
    assert trimmed.low < trimmed.high
    assert smoked.low == smoked.typical == smoked.high == 5500
    assert sliced.typical == 5280
    assert answer.stages[1].left.low == pytest.approx(61.11, abs=0.01)
    assert answer.stages[1].left.high == pytest.approx(64.71, abs=0.01)
    assert answer.stages[1].a_point_saves is None
    assert answer.stages[1].planned is None


def test_what_was_planned_stands_beside_what_was_weighed(book: RuleBook):
    """9 kg at 60 to 64 percent were to be 5.4 to 5.76 kg."""
    answer = answer_to(book, bought(9), smoke(left(62, 60, 64), weighed=mass(5.5)), bought_as="trimmed")

    planned = answer.stages[0].planned
    assert planned is not None
    assert (planned.low, planned.typical, planned.high) == (5400.0, 5580.0, 5760.0)


def test_own_tests_have_no_band_and_ask_for_no_other(book: RuleBook):
    """Nothing of a table is in the answer."""
    answer = answer_to(book, bought(10), stage("trim", own_test(6, 5.1)), smoke(own_test(5.1, 3.2)))

    assert answer.sold.typical == pytest.approx(10000 * 3.2 / 6, abs=0.1)
    assert answer.defaults == ()
    assert [one.code for one in answer.advice] == ["costs_most"]


def test_pieces_are_rounded_up_last(book: RuleBook):
    """12.3 kg in pieces of 3 to 4: four of the heaviest, at 3.5 four, of the lightest five, with what is over."""
    answer = answer_to(book, weight_wanted(12.3), stage("trim", left(100)), pieces={"low": mass(3), "high": mass(4)})

    (option,) = answer.pieces
    assert [(one.case, one.pieces) for one in option.buy] == [("low", 4), ("typical", 4), ("high", 5)]
    assert [one.left_over.value for one in option.buy] == [3700.0, 1700.0, 2700.0]
    assert (option.range_from, option.source) == ("stated", None)


def test_a_whole_number_of_pieces_is_not_one_more(book: RuleBook):
    """12 kg are three pieces of 4 kg, whatever the last bits of the sum say."""
    stages = [stage("trim", lost(10)), stage("other", gained(25), name="stuffed")]

    answer = answer_to(book, weight_wanted(13.5), *stages, pieces={"low": mass(4), "high": mass(4)})

    assert [one.pieces for one in answer.pieces[0].buy] == [3, 3, 3]


def test_pieces_of_the_trade_come_with_their_source(book: RuleBook):
    """402B: 6 to 8, 8 to 10, 10 to 12 lb (Institutional Meat Purchase Specifications); open ranges are left out."""
    answer = answer_to(book, weight_wanted(20, "lb"), smoke(left(70)), cut="pork-leg-boneless", units="us")
    butt = answer_to(book, weight_wanted(20, "lb"), smoke(left(70)), cut="pork-butt", units="us")

    assert [(one.low.value, one.high.value) for one in answer.pieces] == [(6, 8), (8, 10), (10, 12)]
    assert {one.evidence for one in answer.pieces} == {"reported"}
    assert [one.high.value for one in butt.pieces] == [6, 8, 8]


def test_portions_are_whole(book: RuleBook):
    """5.0 kg in portions of 140 g are 35, with 100 g over."""
    answer = answer_to(book, bought(5, portion=mass(140, "g")), stage("slice", left(100)), bought_as="cooked")

    assert answer.portions is not None
    assert (answer.portions.typical, answer.portions.left_over.value) == (35, 100.0)
    assert answer.portions.size.value == 140.0


def test_the_dearest_stage_is_named_with_its_worth(book: RuleBook):
    """64 to 65 percent: 10 kg x (1 - 64 / 65) is 153.8 g less to buy, by hand."""
    answer = answer_to(book, bought(10), *NECK)

    (advice,) = answer.advice
    assert advice.code == "costs_most"
    assert "Stage 2 (smoke)" in advice.text
    assert "gives the same from 153.8 g less" in advice.text
    assert [one.a_point_saves.value for one in answer.stages if one.a_point_saves] == [112.4, 153.8, 103.1]


def test_what_is_to_be_bought_is_saved_in_plain_figures(book: RuleBook):
    """Of what is bought already nothing is saved; of a herd to buy it is told without exponents."""
    answer = answer_to(book, weight_wanted(1e6), smoke(left(5)), smoke(left(5)))

    assert "saves 66,666,666,666.7 g to buy" in answer.advice[0].text


def test_nothing_is_advised_where_nothing_is_lost(book: RuleBook):
    """A pump alone, and a stage of which no whole point is left to gain."""
    pumped = answer_to(book, bought(10), stage("cure", gained(10)), bought_as="trimmed")
    chilled = answer_to(book, bought(10), stage("chill", left(99.5)), bought_as="cooked")

    assert pumped.advice == chilled.advice == ()


def test_cautions_follow_the_stages(book: RuleBook):
    """Each has its trigger, and the local code comes first and last."""
    whole = answer_to(book, bought(9), stage("cure", gained(9)), smoke(left(70)), stage("chill", left(98)), NECK[2])
    chilled = answer_to(book, bought(9), stage("chill", left(98)), bought_as="cooked")

    ids = [
        "pump-is-no-dose",
        "yield-is-not-doneness",
        "spores-survive",
        "sharp-knives",
        "raw-meat-hygiene",
        "local-code",
    ]
    assert [one.id for one in whole.cautions] == ids
    assert [one.id for one in chilled.cautions] == ["local-code"]


def test_a_reported_limit_that_is_kept_prints_its_caution(book: RuleBook):
    """Bacon at its green weight (9 CFR 319.107, seen in a mirror), planned or weighed."""
    standard = {"jurisdiction": "US", "product": {"kind": "bacon", "skin": "off"}}

    for change in ({"change": left(95)}, {"weighed": mass(8.5)}):
        answer = answer_to(
            book, bought(9), stage("cook", method="smoke", **change), bought_as="trimmed", standard=standard
        )

        assert "reported-source" in {one.id for one in answer.cautions}


def test_us_units_are_pounds_and_ounces(book: RuleBook):
    """All weights of one answer in one unit: pounds from a pound on."""
    pounds = answer_to(book, bought(2, "lb"), smoke(left(25)), units="us")
    ounces = answer_to(book, bought(15, "oz"), smoke(left(25)), units="us")

    assert {pounds.purchased.unit, pounds.sold.unit} == {"lb"}
    assert (ounces.purchased.unit, ounces.sold.typical) == ("oz", 3.75)


def test_brief_leaves_out_arithmetic_and_sources(book: RuleBook):
    """Everything else stays."""
    full, brief = (told_of(answer_to(book, bought(9), *NECK, detail=detail)) for detail in ("full", "brief"))

    assert full["steps"]
    assert full["sources"]
    assert (brief["steps"], brief["sources"]) == ([], [])
    assert {**brief, "steps": full["steps"], "sources": full["sources"]} == full


def test_the_arithmetic_can_be_followed(book: RuleBook):
    """A line for the task, each stage backwards, all together, and the pieces."""
    answer = answer_to(
        book, portions_wanted(20, 150, "g"), stage("trim", lost(20)), smoke(left(60, 50, 75)),
        pieces={"low": mass(2), "high": mass(3)},
    )  # fmt: skip

    assert answer.steps[0] == "20 portions x 150 g = 3,000 g to be sold."
    assert answer.steps[1].startswith("Stage 2, smoke: 3,000 g / 60 percent (50 to 75) = 5,000 g (4,000 to 6,000)")
    assert answer.steps[2].endswith("= 6,250 g (5,000 to 7,500) to enter, trimmed of the purchased weight.")
    assert answer.steps[-1] == "In whole pieces of 2000 to 3000 g, rounded up last: 2 (low), 3 (typical), 4 (high)."


def test_green_weight_is_the_trimmed_one(book: RuleBook):
    """What is bought cured or untrimmed has none here, and what is bought trimmed begins with it."""
    untrimmed = answer_to(book, bought(9), NECK[0], stage("cure", gained(10)))
    trimmed = answer_to(book, bought(9), stage("cure", gained(10)), bought_as="trimmed")
    cured = answer_to(book, bought(9), smoke(left(80)), bought_as="cured")

    shares = [one.of_green.typical for one in (*untrimmed.stages, *trimmed.stages) if one.of_green]
    assert shares == [100, 110, 110]
    assert cured.stages[0].of_green is None
    assert answer_to(book, bought(9), stage("cure", gained(10))).stages[0].of_green is None


def test_a_drawing_tells_what_was_weighed(book: RuleBook):
    """By its name; and what is to be bought from what was."""
    (weighed,) = drawing_of(answer_to(book, bought(10), smoke(weighed=mass(6)))).panels
    (wanted,) = drawing_of(answer_to(book, weight_wanted(6), smoke(left(60)))).panels

    assert [one.label for one in weighed.marks] == ["bought", "smoke, weighed"]
    assert [one.label for one in wanted.marks] == ["to buy", "smoke"]


def test_a_drawing_has_a_band_and_a_name_for_every_weight(book: RuleBook):
    """From what is bought, without a band, through each stage, to what is left; backwards the other way."""
    forwards = drawing_of(answer_to(book, bought(10), *NECK))
    backwards = drawing_of(answer_to(book, weight_wanted(5), *NECK, units="us"))

    (panel,) = forwards.panels
    assert [one.label for one in panel.marks] == ["bought", "trim", "smoke", "slice"]
    assert panel.bands[0].points[0] == (0.0, 10000.0, 10000.0)
    assert panel.bands[0].points[-1] == (3.0, 4896.0, 6048.0)
    within = zip(panel.bands[0].points, panel.series[0].points, strict=True)
    assert all(low <= usual <= high for (_, low, high), (_, usual) in within)
    assert (panel.y_label, backwards.panels[0].y_label) == ("Weight, g", "Weight, lb")
    assert panel.from_zero
    assert panel.counts_across
    assert backwards.panels[0].title == "Back to what is to be bought"
