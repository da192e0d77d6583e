"""Ids near to what was written."""

import pytest

from service.calculations.near_ids import near_ids

SHELF = ("garlic-powder", "cornstarch", "rice-starch", "ground-beef", "eye-of-round", "mace-ground", "sage-ground")


@pytest.mark.parametrize(
    ("words", "near"),
    [
        ("garlick powder", ("garlic-powder",)),
        ("starch", ("cornstarch", "rice-starch")),
        ("round", ("eye-of-round",)),
        ("mace_ground", ("mace-ground",)),
        ("Sage, ground", ("sage-ground",)),
        ("tofu", ()),
        ("", ()),
    ],
)
def test_what_is_near_holds_or_looks_like_a_word(words: str, near: tuple[str, ...]):
    """The second word of a compound is held, letters inside a word are not; a form alone makes nothing alike."""
    assert near_ids(SHELF, words, telling_little=("ground", "powder")) == near


def test_a_name_is_searched_as_its_id_is():
    """And what is equally near keeps its order."""
    names = {"pork-leg": "pork leg, fresh ham", "cured-ham": "cured ham"}

    assert near_ids(names, "ham", names=names) == ("pork-leg", "cured-ham")
    assert near_ids(names, "fresh ham", names=names) == ("pork-leg", "cured-ham")
    assert near_ids(names, "fresh ham") == ("cured-ham",)
