"""Words as people write them, brought to one spelling: case, accents, plurals, hyphens, British and American."""

import re
from typing import NamedTuple
from unicodedata import combining, normalize

WORD = re.compile(
    r"\b(?P<e>E)[ -]?(?P<number>[1-9][0-9]{2,3}[a-f]?)(?:\((?:i{1,3}|iv|v|vi)\)|(?:i{1,3}|iv|v|vi)?\b)"
    r"|[^\W_]+(?:['\u2019][^\W_]+)*",
    re.IGNORECASE,
)
"""An E number is one word, however it is written; the Roman number of its salt is not looked at."""
SOFT_HYPHEN = "\N{SOFT HYPHEN}"
OTHER_LETTERS = str.maketrans({"œ": "oe", "æ": "ae", "ø": "o", "ł": "l", "đ": "d", "ð": "d"})
ONE_SPELLING = (
    ("sulf", "sulph"),
    ("flavour", "flavor"),
    ("colour", "color"),
    ("fibre", "fiber"),
    ("lys", "lyz"),
    ("ised", "ized"),
)
"""American and British spellings that differ inside a word."""
SHORTEST_PLURAL = 4
SHORTEST_IN_IES = 5
SINGULAR_S = ("ss", "us", "is")
PLURAL_ES = ("oes", "ches", "shes", "xes", "sses", "zes")


class Word(NamedTuple):
    """One word of a name: how it is compared, and where it stands."""

    plain: str
    start: int
    end: int


def composed(name: str) -> str:
    """A name with every accent on its letter, and without hyphens that nobody sees."""
    return name if name.isascii() else normalize("NFC", name).replace(SOFT_HYPHEN, "")


def words_of(name: str) -> tuple[Word, ...]:
    """The words of a composed name, in order."""
    return tuple(Word(_plain(found), found.start(), found.end()) for found in WORD.finditer(name))


def _plain(found: re.Match[str]) -> str:
    return f"e{found['number'].lower()}" if found["number"] else plain(found[0])


def plain(word: str) -> str:
    """One word in the spelling that is compared."""
    bare = (
        "".join(letter for letter in normalize("NFKD", word) if not combining(letter)) if not word.isascii() else word
    )
    lower = bare.casefold().translate(OTHER_LETTERS).replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
    lower = lower.removesuffix("'s").replace("'", "")
    for american, british in ONE_SPELLING:
        lower = lower.replace(american, british)
    return _singular(lower)


def _singular(word: str) -> str:
    """Without the ending of a plural. What comes out need not be a word: both sides are treated alike."""
    if len(word) >= SHORTEST_IN_IES and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) < SHORTEST_PLURAL or not word.endswith("s") or word.endswith(SINGULAR_S):
        return word
    return word[:-2] if word.endswith(PLURAL_ES) else word[:-1]


def tidy(name: str) -> str:
    """A name without capitals and needless spaces: pepper and peppers are still two things."""
    return " ".join(composed(name).casefold().split())


def folded(name: str) -> str:
    """A whole name in the spelling that is compared."""
    return " ".join(word.plain for word in words_of(composed(name)))
