"""Figures of beef brisket stand for brisket, and where nothing says what meat it is they say whose they are."""

import pytest

from service.rules.book import RuleBook
from tests.calculations.butchery.chains import (
    Body,
    answer_to,
    bought,
    codes,
    corned,
    made_of,
    refusal_of,
    smoke,
    stage,
)  # fmt: skip


def test_a_brisket_without_a_test_takes_what_is_usual_of_brisket(book: RuleBook):
    """Two pieces in one pack have no yield of their own: what is usual of brisket stands for them, and says so."""
    answer = answer_to(book, bought(7), stage("trim"), smoke(), cut="beef-brisket-two-piece")

    assert [one.taken_from for one in answer.defaults] == ["usual", "usual"]
    assert "usual_of_another_cut" not in codes(answer)


@pytest.mark.parametrize(
    "cut", ["beef-flank-steak", "beef-top-round", "beef-knuckle", "beef-shoulder-clod", "beef-rib",
            "beef-brisket-bone-in"],
)  # fmt: skip
def test_brisket_stands_for_no_other_cut(book: RuleBook, cut: str):
    """Nor for a brisket with its bone: nothing of it is published, and its share is to be stated."""
    refusal = refusal_of(book, {"task": bought(7), "stages": [smoke()], "cut": cut, "bought_as": "trimmed"})

    assert refusal is not None
    assert refusal.code == "no_published_yield"


@pytest.mark.parametrize(
    "standard", [made_of("whole_muscle", species="pork"), made_of("bacon", skin="off"), corned("round"),
                 made_of("poultry", species="turkey"), made_of("sausage", species="lamb")],
)  # fmt: skip
def test_brisket_stands_for_no_other_product(book: RuleBook, standard: Body):
    """Where the standard says that it is other meat, its share is to be stated."""
    refusal = refusal_of(book, {"task": bought(7), "stages": [stage("trim"), smoke()], "standard": standard})

    assert refusal is not None
    assert refusal.code == "no_published_yield"


@pytest.mark.parametrize(
    ("standard", "called"),
    [(None, 2), (made_of("whole_muscle", species="beef"), 2), (made_of("sausage", species="mixed"), 2),
     (corned("brisket"), 0)],
)  # fmt: skip
def test_what_is_usual_of_brisket_says_so(book: RuleBook, standard: Body | None, called: int):
    """Where nothing says what cut it is, once for each stage; not for the slicer's crumbs, that are of any meat."""
    more = {"standard": standard} if standard else {}
    answer = answer_to(book, bought(7), stage("trim"), smoke(), stage("slice"), **more)

    assert codes(answer).count("usual_of_another_cut") == called
    assert len(answer.defaults) == 3


def test_what_was_sold_counts_only_where_nothing_is_sliced_after(book: RuleBook):
    """36 to 50 percent were sold, 53 cooked: with a slice of its own, crumbs would be taken off twice."""
    sliced, whole = (
        answer_to(book, bought(10), smoke(), *after, cut="beef-brisket-deckle-off").defaults[0]
        for after in ([stage("slice")], [])
    )

    assert (sliced.low, sliced.high) == (53, 53)
    assert (whole.low, whole.high) == (36, 53)
