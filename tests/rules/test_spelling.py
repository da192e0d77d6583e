"""Words in many spellings are one word, and words that mean two things stay two."""

import pytest

from service.rules.spelling import composed, folded, tidy, words_of


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Anchovies", "anchovy"),
        ("tomatoes", "tomato"),
        ("radishes", "radish"),
        ("eggs", "EGG"),
        ("sulfites", "sulphite"),
        ("hydrolyzed", "hydrolysed"),
        ("iodised salt", "iodized salt"),
        ("colour", "color"),
        ("cr\u00e8me", "creme"),
        ("b\u0153uf", "boeuf"),
        ("non-fat", "non fat"),
        ("confectioner's", "confectioner\u2019s"),
        ("E 250", "e-250"),
        ("whe\u00ady", "whey"),
    ],
)
def test_spellings_of_one_word(one: str, other: str):
    """Case, number, accents, hyphens, apostrophes, British and American."""
    assert folded(one) == folded(other)


@pytest.mark.parametrize(
    ("one", "other"), [("bass", "bas"), ("couscous", "couscou"), ("molasses", "mola"), ("E 250", "E 252")]
)
def test_other_words_stay_other(one: str, other: str):
    """An s that is no plural stays, and so does every figure."""
    assert folded(one) != folded(other)


def test_a_word_knows_where_it_stands():
    """So that it can be written in capitals where it is."""
    name = composed("dried WHEY, E 250")

    assert [name[word.start : word.end] for word in words_of(name)] == ["dried", "WHEY", "E 250"]


def test_a_tidy_name_keeps_its_plural():
    """Pepper and peppers are two things; capitals and spaces are nothing."""
    assert tidy("  Black   PEPPER ") == "black pepper"
    assert tidy("peppers") != tidy("pepper")
