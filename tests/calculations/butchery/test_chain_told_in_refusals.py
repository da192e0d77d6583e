"""What a refusal of a chain tells: figures that can be followed, and cuts that are refused for what they are."""

import pytest

from service.rules.loader import load_book
from tests.calculations.butchery.chains import (
    Body,
    bought,
    corned,
    left,
    made_of,
    mass,
    refusal_of,
    smoke,
    stage,
    weight_wanted,
)

BOOK = load_book("test")
PLAN: Body = {"task": weight_wanted(5), "stages": [smoke(left(62))]}


@pytest.mark.parametrize(
    ("cut", "standard"),
    [
        ("beef-eye-of-round", corned("round")),
        ("beef-eye-of-round", corned("other")),
        ("beef-brisket-point", corned("brisket")),
        ("pork-loin", made_of("bacon", skin="off")),
        ("pork-leg", made_of("whole_muscle", species="pork", sold_as="country_ham")),
        ("turkey-leg", made_of("sausage", species="poultry")),
        ("turkey-leg", made_of("sausage", species="mixed")),
        ("pheasant-whole", made_of("poultry", species="other")),
    ],
)
def test_a_cut_that_may_be_the_product_is_answered(cut: str, standard: Body):
    """The twins of what is refused."""
    assert refusal_of(BOOK, {**PLAN, "cut": cut, "standard": standard, "on": "2026-12-01"}) is None


@pytest.mark.parametrize(
    ("share", "told"),
    [
        (left(50, 45, 60), "State 58.82 percent (52.94 to 70.59) left of the trimmed weight"),
        (left(50), "with what is published for stage 1."),
        (left(95), "It would be 111.8 percent of the trimmed weight, which cannot be right."),
    ],
)
def test_a_share_of_the_wrong_weight_is_told_whole(share: Body, told: str):
    """With its band, with the default it was divided by (85 percent), and not where it cannot be."""
    cook = smoke({**share, "of_weight": "as_purchased"})

    refusal = refusal_of(BOOK, {"task": bought(10), "stages": [stage("trim"), cook]})

    assert refusal is not None
    assert told in str(refusal.nearest)


def test_a_share_just_out_of_bounds_is_told_apart_from_them():
    """250.01 percent, not 250."""
    refusal = refusal_of(BOOK, {"task": bought(10), "stages": [smoke(weighed=mass(25.001))]})

    assert refusal is not None
    assert "250.01 percent" in refusal.reason
