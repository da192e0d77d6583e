"""Words as people write them, brought to one spelling: case, accents, plurals, hyphens, British and American.

What must not be overlooked is read more freely: with letters taken for what they look like, and without what was put
between them.
"""

import re
from functools import lru_cache
from typing import NamedTuple
from unicodedata import category, normalize

WORD = re.compile(
    r"\b(?P<e>E)[ -]?(?P<number>[1-9][0-9]{2,3}[a-f]?)(?:\((?:i{1,3}|iv|v|vi)\)|(?:i{1,3}|iv|v|vi)?\b)"
    r"|[^\W_]+(?:['\u2019][^\W_]+)*",
    re.IGNORECASE,
)
"""An E number is one word, however it is written; the Roman number of its salt is not looked at."""
WORD_OR_FIGURE = re.compile(r"[^\W\d_]+|\d+")
MIXED = re.compile(r"(?=[^\W_]*\d)(?=[^\W_]*[^\W\d_])[^\W_]+")
"""A word with figures and letters in it."""
APART = re.compile(r"(?<![^\W_])[^\W_](?:[\W_]+[^\W_](?![^\W_])){2,}")
"""Three letters or figures and more, each by itself."""
SIGN_IN_A_WORD = re.compile(r"(?<=[^\W\d_])[!|\u00a1@$](?=[^\W\d_])")
AFTER_A_FIGURE = re.compile(r"(?<=\d)[ol]+(?![^\W_])|(?<=\d)[oil]+(?=\d)")
"""A letter that ends a figure, or stands inside it, and looks like one."""
NAMES_KEPT = 4096
SOFT_HYPHEN = "\N{SOFT HYPHEN}"
OTHER_LETTERS = str.maketrans({"œ": "oe", "æ": "ae", "ø": "o", "ł": "l", "đ": "d", "ð": "d"})
LOOK_ALIKES = str.maketrans(
    "асеһіјӏкмоԛрѕтѵхуԝвнгαβεηικμνορτυχζ\N{LATIN SMALL LETTER DOTLESS I}\N{LATIN SMALL LETTER SCRIPT G}",
    "acehijlkmoqpstvxywbhrabenikmvoptuxzig",
)
"""Small letters of other scripts that look like Latin ones."""
SMALL_CAPITALS = str.maketrans("ᴀʙᴄᴅᴇꜰɢʜɪᴊᴋʟᴍɴᴏᴘʀꜱᴛᴜᴠᴡʏᴢ", "abcdefghijklmnoprstuvwyz")
ENCLOSED = {
    first + place: chr(ord("a") + place) for first in (0x1F150, 0x1F170, 0x1F1E6) for place in range(26)
}  # fmt: skip
"""White letters in black rings and squares, and the letters of flags."""
DIGITS_FOR_LETTERS = str.maketrans("013457!|\u00a1@$", "oieastiiias")
LETTERS_FOR_DIGITS = str.maketrans("oil", "011")
UNSEEN = frozenset("\u115f\u1160\u2800\u3164\uffa0")
"""Blanks that count as letters or signs: fillers of Hangul, an empty pattern of Braille."""
MARKS = frozenset(("Mn", "Me", "Cf"))
"""Marks on a letter or around it, and characters that only tell how others are set."""
MOST_OF_ONE = 4
"""Letters that one sign is taken apart into: a Greek letter has three marks; one Arabic sign would have eighteen."""
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
    lower = without_marks(word).casefold().translate(OTHER_LETTERS).replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
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


def without_marks(text: str) -> str:
    """Bare letters: wide and small forms made plain, without accents and whatever else nobody sees."""
    if text.isascii():
        return text
    return "".join(letter for letter in _taken_apart(text) if letter not in UNSEEN and category(letter) not in MARKS)


def _taken_apart(text: str) -> str:
    """Letters apart from their marks; of a sign that stands for a whole phrase only its beginning.

    Nothing at the end of a name is cut off, so nothing hides there.
    """
    apart = normalize("NFKD", text)
    if len(apart) <= MOST_OF_ONE * len(text):
        return apart
    return "".join(normalize("NFKD", letter)[:MOST_OF_ONE] for letter in text)


def tidy(name: str) -> str:
    """A name without capitals and needless spaces: pepper and peppers are still two things."""
    return " ".join(composed(name).casefold().split())


@lru_cache(maxsize=NAMES_KEPT)
def folded(name: str) -> str:
    """A whole name in the spelling that is compared."""
    return " ".join(word.plain for word in words_of(composed(name)))


def readings_of(name: str) -> tuple[str, ...]:
    """Every way in which a name may be read, as single words: for names that must not be hidden by their spelling.

    As it is written; with letters of other scripts as the Latin ones they look like; with digits inside a word as
    letters. Letters that stand apart are put together, and a word ends where a figure begins.
    """
    lower = without_marks(name).casefold().translate(SMALL_CAPITALS).translate(ENCLOSED).translate(OTHER_LETTERS)
    alike = lower if lower.isascii() else lower.translate(LOOK_ALIKES)
    written = dict.fromkeys((lower, alike))
    lettered = (MIXED.sub(_in_letters, SIGN_IN_A_WORD.sub(_in_letters, text)) for text in written)
    return tuple(dict.fromkeys(_in_words(text) for text in (*written, *lettered)))


def _in_letters(mixed: re.Match[str]) -> str:
    return mixed[0].translate(DIGITS_FOR_LETTERS)


def _in_words(text: str) -> str:
    figures = AFTER_A_FIGURE.sub(lambda found: found[0].translate(LETTERS_FOR_DIGITS), text.replace("#", " no "))
    joined = APART.sub(lambda found: "".join(WORD_OR_FIGURE.findall(found[0])), figures)
    return " ".join(_singular(word) for word in WORD_OR_FIGURE.findall(joined))
