"""Words in many spellings are one word, and words that mean two things stay two."""

import pytest

from service.rules.spelling import MOST_OF_ONE, composed, folded, readings_of, tidy, words_of


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


@pytest.mark.parametrize(
    ("name", "reading"),
    [
        ("N\u00edtrite", "nitrite"),
        ("\u0441uring salt", "curing salt"),
        ("nit\u034frite", "nitrite"),
        ("nit\u3164rite", "nitrite"),
        ("\u24dd\u24d8\u24e3", "nit"),
        ("n i t r i t e", "nitrite"),
        ("n1tr1te", "nitrite"),
        ("n!trite", "nitrite"),
        ("E-25O", "e 250"),
        ("cure#1", "cure no 1"),
        ("salts", "salt"),
    ],
)
def test_what_hides_a_name_is_read_away(name: str, reading: str):
    """Accents, look-alikes, marks, blanks between letters, figures and signs for letters."""
    assert reading in readings_of(name)


@pytest.mark.parametrize(
    ("name", "reading"),
    [
        ("table salt", "table salt"),
        ("5 l water", "5 l water"),
        ("\u0441\u043e\u043b\u044c", "\u0441\u043e\u043b\u044c"),
    ],
)
def test_a_plain_name_is_read_as_it_is(name: str, reading: str):
    """First, before any other way to read it."""
    assert readings_of(name)[0] == reading


@pytest.mark.parametrize("name", ["\ufdfa" * 80, "\ufdfa " * 40, "\ufdfb\u3300" * 40])
def test_no_sign_makes_a_long_name_of_a_short_one(name: str):
    """One Arabic sign stands for eighteen letters; what stands behind many of them is read all the same."""
    assert all(len(reading.replace(" ", "")) <= MOST_OF_ONE * len(name) for reading in readings_of(name))
    assert readings_of(f"{name[:60]} nitrite")[0].endswith("nitrite")


@pytest.mark.parametrize(("name", "letters"), [("\u314e\u314f", 2), ("\ud558\ub298\ub098\ub77c", 9), ("\u0390", 1)])
def test_a_letter_of_several_is_read_whole(name: str, letters: int):
    """Syllables of Hangul, a vowel with two marks."""
    assert len(readings_of(name)[0]) == letters
