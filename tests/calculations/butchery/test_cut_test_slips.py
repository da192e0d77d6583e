"""Units that slipped: every reading that would bring the weights together, the likeliest first."""

import pytest

from service.rules.book import RuleBook
from tests.calculations.butchery.blocks import answer_to, codes, part

REST = part("rest", "cook", "1 kg")


@pytest.mark.parametrize(
    ("stated", "read_as", "rest"),
    [
        ("4 lb", "4 kg", "1 kg"),
        ("4 kg", "4 lb", "3.19 kg"),
        ("350 oz", "350 g", "4.65 kg"),
        ("70 g", "70 oz", "3.015 kg"),
        ("40 oz", "40 lb", "2.86 kg"),
        ("1200 kg", "1200 g", "3.8 kg"),
        ("3.5 g", "3.5 kg", "1.5 kg"),
    ],
)
def test_the_unit_that_would_close_the_test_is_named(book: RuleBook, stated: str, read_as: str, rest: str):
    """In both directions, and by the number that was written."""
    purchased = "21 kg" if read_as.endswith("40 lb") else "5 kg"

    answer = answer_to(book, purchased, part("neck", "cure", stated), part("rest", "cook", rest))

    slips = [one for one in answer.call_outs if one.code == "unit_slip"]
    assert [one.parts for one in slips] == [("neck",)]
    assert slips[0].message.startswith(f"neck, {stated}: read as {read_as}, the test closes to ")


def test_one_weighing_among_many_is_named(book: RuleBook):
    """Three pieces in kilograms, the fourth in pounds: that one number is named."""
    answer = answer_to(book, "8 kg", part("hams", "cure", "2 kg", "2.1 kg", "1.9 lb", "1.95 kg"))

    (slip,) = (one for one in answer.call_outs if one.code == "unit_slip")
    assert "hams, 1.9 lb: read as 1.9 kg" in slip.message


def test_all_weighings_of_a_part_may_be_the_slip(book: RuleBook):
    """Two hams, both written in pounds: their sum is named, as a sum. The purchase may be the slip as well."""
    answer = answer_to(book, "4 kg", part("hams", "cure", "2 lb", "1.95 lb"))

    slips = {one.parts: one.message for one in answer.call_outs if one.code == "unit_slip"}
    assert slips.keys() == {("hams",), ()}
    assert slips["hams",].startswith("hams, 3.95 lb together: read as 3.95 kg, the test closes to 1.25 percent")


def test_the_purchase_may_be_the_slip(book: RuleBook):
    """Bought 12 kg that were 12 lb, or all parts in pounds that were kilograms: both are named."""
    answer = answer_to(book, "12 kg", part("slab", "cure", "11.5 lb"), part("skin", "waste", "0.45 lb"))

    assert [(one.code, one.parts) for one in answer.call_outs] == [("unit_slip", ()), ("unit_slip", ("slab", "skin"))]
    assert answer.call_outs[0].message.startswith("Bought 12 kg: read as lb, the test closes to ")
    assert answer.call_outs[1].message.startswith("All parts in lb: read as kg, the test closes to ")


def test_no_slip_is_looked_for_where_the_rest_is_open(book: RuleBook):
    """A part that was not weighed explains a difference; so does a test that closes."""
    skin = part("skin", "waste")

    assert "unit_slip" not in codes(answer_to(book, "3.5 kg", part("neck", "cure", "4 lb"), REST, skin))
    assert codes(answer_to(book, "5 kg", part("neck", "cure", "4 kg"), REST)) == []


def test_no_more_than_five_slips_are_named_the_likeliest_first(book: RuleBook):
    """Eight equal parts of which any may be the slip; the last says how many more would do."""
    parts = [part(f"piece {number}", "cook", f"1.0{number} lb") for number in range(8)]

    slips = answer_to(book, "4.25 kg", *parts, tolerance_percent=3.0).call_outs

    assert [one.code for one in slips] == ["unit_slip"] * 5
    assert ["more would close it as well" in one.message for one in slips] == [False] * 4 + [True]


# What was bought, the unit of all parts, meat, bone, skin and fat in it, and the unit that they were in.
SHEETS = [
    ("20 lb", "kg", (14, 2.5, 1.5, 2), "lb"),
    ("20 lb", "oz", (14, 3.5, 1.4, 1), "lb"),
    ("9 kg", "lb", (6, 1.5, 0.9, 0.5), "kg"),
    ("9 kg", "kg", (6000, 1500, 980, 500), "g"),
    ("9 kg", "g", (6, 1.5, 0.9, 0.5), "kg"),
]


@pytest.mark.parametrize(("bought", "unit", "weights", "meant"), SHEETS)
def test_the_whole_sheet_may_be_the_slip(
    book: RuleBook, bought: str, unit: str, weights: tuple[float, ...], meant: str
):  # fmt: skip
    """Legs are sold from 10 to 20 lb (teaching page): a purchase that is one stands, and all parts are read anew."""
    kinds = ("meat", "bone", "skin", "fat")
    parts = [part(what, "keep", f"{weight} {unit}", what=what) for what, weight in zip(kinds, weights, strict=True)]

    slips = [
        one for one in answer_to(book, bought, *parts, cut="pork-leg", pieces=1).call_outs if one.code == "unit_slip"
    ]

    assert slips[0].parts == kinds
    assert slips[0].message.startswith(f"All parts in {unit}: read as {meant}, the test closes to ")
    assert "within what is published" in slips[0].message
    assert [one.message for one in slips[1:] if "within" in one.message] == []


def test_a_purchase_that_is_no_such_piece_is_the_likelier_slip(book: RuleBook):
    """A leg of 20 kg is not sold: the twin of a slipped sheet, told the other way round."""
    parts = [part("meat", "cure", "14 lb", what="meat"), part("bone", "stock", "6 lb", what="bone")]

    first, second, piece = answer_to(book, "20 kg", *parts, cut="pork-leg", pieces=1, units="us").call_outs

    assert first.message.startswith("Bought 20 kg: read as lb, ")
    assert first.message.endswith("one piece then weighs 20 lb, within what is published.")
    assert second.message.endswith("one piece then weighs 44.09 lb, above what is published.")
    assert "Read as lb it would be within" in piece.message


def test_a_slip_is_found_beside_a_part_that_was_not_weighed(book: RuleBook):
    """Bone and skin of a leg are 17 percent, 12.75 to 21.25 with our spread: 8 lb leave 64 percent, 8 kg leave 20."""
    bone = part("bone", "waste", what="bone")

    answer = answer_to(book, "10 kg", part("ham", "cure", "8 lb"), bone, cut="pork-leg")

    slips = {one.parts: one.message for one in answer.call_outs if one.code == "unit_slip"}
    assert slips["ham",] == "ham, 8 lb: read as 8 kg, 20 percent is left over for what was not weighed."
    assert codes(answer_to(book, "10 kg", part("ham", "cure", "8 kg"), bone, cut="pork-leg")) == []


def test_a_slip_may_leave_nothing_over_for_a_drip(book: RuleBook):
    """6 lb of 6 kg leave more than half for a drip; 6 kg leave nothing, which is near enough."""
    answer = answer_to(book, "6 kg", part("neck", "cure", "6 lb"), part("drip", "loss"))

    slips = {one.parts: one.message for one in answer.call_outs if one.code == "unit_slip"}
    assert slips["neck",] == "neck, 6 lb: read as 6 kg, 0 percent is left over for what was not weighed."
