"""What is taken for a trim that nobody states: everything that comes off, by each source on its own."""

import pytest

from service.calculations.butchery.chain import ChainAnswer
from service.rules.book import RuleBook
from tests.calculations.butchery.chains import answer_to, bought, refusal_of, smoke, stage


def trimmed(book: RuleBook, cut: str) -> ChainAnswer:
    """Ten kilograms of a cut, trimmed by what is published."""
    return answer_to(book, bought(10), stage("trim"), cut=cut, bought_as="untrimmed")


# Refuse descriptions of USDA SR28 (read) and a breakdown of a hog carcass (reported), added up by hand.
@pytest.mark.parametrize(
    ("cut", "low", "typical", "high"),
    [
        ("pork-loin", 70, 70, 70),  # bone 22, fat 8
        ("pork-leg", 61.78, 65, 65),  # 17 + 18; skin, fat and bone 25.33 with trimmings 12.89
        ("pork-picnic", 68, 68, 75.9),  # 16 + 6 + 10; boneless picnic 75.9
        ("pork-butt", 68, 68, 88.12),  # 9 + 15 + 8; usable boneless meat 88.12
        ("turkey-breast", 78, 78, 78),  # bone and connective tissue 12 (bone alone is in it), skin and fat 10
        ("chicken-whole", 51, 51, 51),  # 28 + 14 + 7
        ("beef-brisket-deckle-off", 69.7, 69.7, 97),  # 30 + 0.3, read; 3 to 13; 12 to 25, usually 15, from memory
    ],
)
def test_everything_that_comes_off_is_added_up(book: RuleBook, cut: str, low: float, typical: float, high: float):
    """One source after the other, the band over all of them."""
    (default,) = trimmed(book, cut).defaults

    assert (default.low, default.typical, default.high) == (low, typical, high)


@pytest.mark.parametrize("cut", ["pork-belly", "pork-spareribs", "lamb-leg", "chicken-breast", "turkey-leg"])
def test_a_source_that_leaves_something_out_gives_no_trim(book: RuleBook, cut: str):
    """Bone without fat, skin without fat, a side with its spareribs in: nothing is made of them."""
    refusal = refusal_of(book, {"task": bought(10), "stages": [stage("trim")], "cut": cut})

    assert refusal is not None
    assert refusal.code == "no_published_yield"


def test_the_subtraction_can_be_followed(book: RuleBook):
    """In the steps, and in what each reading counts as."""
    answer = trimmed(book, "pork-leg")

    assert answer.steps[0].endswith("10010: 100 - 18 (separable fat) - 17 (bone and skin) = 65 percent left.")
    assert answer.steps[1].endswith("100 - 25.33 (skin, fat and bone) - 12.89 (trimmings) = 61.78 percent left.")
    assert {one.counts_as for one in answer.defaults[0].readings} == {"off"}


def test_what_is_usable_is_no_subtraction(book: RuleBook):
    """The boneless picnic is what is left; what comes off by the other source stands beside it."""
    answer = trimmed(book, "pork-picnic")

    kinds = {one.what: one.counts_as for one in answer.defaults[0].readings}
    assert kinds == {"bone": "off", "separable fat": "off", "connective tissue": "off", "boneless picnic": "left"}
    assert len([step for step in answer.steps if "100 - " in step]) == 1


def test_smoked_as_it_was_bought_takes_every_reading(book: RuleBook):
    """36, 46.7, 47 and 50 percent, sold, and 53 cooked, of a brisket as purchased: not the best of them alone."""
    answer = answer_to(book, bought(10), smoke(), cut="beef-brisket-deckle-off")

    (default,) = answer.defaults
    assert (default.low, default.high) == (36, 53)
    assert default.typical == pytest.approx((36 + 46.7 + 47 + 50 + 53) / 5)
    assert {one.part for one in default.readings} == {"cooked", "sold"}
    assert {36.0, 46.7, 47.0, 50.0, 53.0} == {one.low for one in answer.published}
