"""Words that have no place here: left-overs in any file, and one word in anything that the service says."""

import ast
import codecs
import re
from collections.abc import Iterable

import pytest

from tests.architecture.house import ROOT, Source, files, listed

# Both lists are written in rot13, so that this file keeps its own rule.
LEFT_OVERS = [
    "/jbex/",
    "/gzc/onfu",
    "../funerq",
    "benpyr",
    "benpyrf",
    "vffhr #",
    "vffhr genpxre",
    "frrq qbphzrag",
    "GBQB",
    "SVKZR",
    "KKK",
]
PROMISES = ["fnsr", "fnsryl", "fnsrfg", "fnsre", "hafnsr", "hafnsryl"]
KEYWORD = codecs.decode("'hafnsr-vayvar'", "rot13")
"""A word of the standard for headers (Content Security Policy Level 3, 2.3.1), to browsers and not to people."""

HEADING = codecs.decode("Fnsr Unaqyvat Vafgehpgvbaf", "rot13")
RATIONALE = codecs.decode("Sbe lbhe cebgrpgvba, sbyybj gurfr fnsr unaqyvat vafgehpgvbaf.", "rot13")
"""What the law of the United States has printed on raw meat (9 CFR 317.2(l)): quoted letter by letter, not said."""


def pattern(words: Iterable[str]) -> re.Pattern[str]:
    """Any of the words, whole, in any case."""
    plain = [codecs.decode(word, "rot13") for word in words]
    bounded = [rf"(?<!\w){re.escape(word)}" + (r"(?!\w)" if word[-1].isalnum() else "") for word in plain]
    return re.compile("|".join(bounded), re.IGNORECASE)


def found(words: Iterable[str], place: str, text: str) -> list[str]:
    """The lines with one of the words."""
    wanted = pattern(words)
    return [f"{place}:{number}: {line}" for number, line in enumerate(text.splitlines(), 1) if wanted.search(line)]


def said(place: str, text: str) -> str:
    """What of a file of the service can reach a caller: a program's texts, a data file's every word."""
    if not place.endswith(".py"):
        return text.replace(HEADING, "").replace(RATIONALE, "")
    return "\n".join(
        node.value.replace(KEYWORD, "")
        for node in ast.walk(Source(place, text).tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


def texts(top: str = "") -> Iterable[tuple[str, str]]:
    """Our own text files below this folder: what others wrote and we only serve is left out."""
    for place in files():
        ours = place.startswith(top) and "/assets/" not in place
        raw = (ROOT / place).read_bytes() if ours else b"\0"
        if b"\0" not in raw:
            yield place, raw.decode()


def test_nothing_is_left_over():
    """No file names a place outside the project, a tracker's entry or something still to be done."""
    faults = [fault for place, text in texts() for fault in found(LEFT_OVERS, place, text)]

    assert not faults, listed(faults)


def test_no_answer_makes_a_promise():
    """Nothing that the service can say, in code, rules, examples or the published document, has the word."""
    spoken = [*texts("service/"), *texts("openapi/")]

    faults = [fault for place, text in spoken for fault in found(PROMISES, place, said(place, text))]

    assert not faults, listed(faults)


@pytest.mark.parametrize("word", LEFT_OVERS)
def test_a_left_over_is_found(word: str):
    """Each left-over is found in any case, in the middle of a line."""
    plain = codecs.decode(word, "rot13")

    assert found([word], "docs/brine.md", f"Brine.\nsee {plain.upper()} 1\n") == [
        f"docs/brine.md:2: see {plain.upper()} 1"
    ]


@pytest.mark.parametrize("word", PROMISES)
def test_a_promise_is_found(word: str):
    """Each form of the word is found in a text of the code, and not in its names."""
    plain = codecs.decode(word, "rot13")

    assert found(PROMISES, "a.py", said("a.py", f'TEXT = "This ham is {plain.title()}."')) != []
    assert found(PROMISES, "a.py", said("a.py", f"yaml.{plain}_load({plain}=1)")) == []


@pytest.mark.parametrize("place", ["service/rules/data/label_rules.yaml", "openapi/openapi.json"])
@pytest.mark.parametrize("quoted", [HEADING, RATIONALE])
def test_a_regulated_text_is_quoted(quoted: str, place: str):
    """Letter by letter and in data it is passed over; in other words, in other letters and in code it is found."""
    assert found(PROMISES, place, said(place, f"- {quoted}")) == []
    assert found(PROMISES, place, said(place, f"- {quoted.lower()}")) != []
    assert found(PROMISES, place, said(place, f"- Ham with {quoted[:-4]} is fine")) != []
    assert found(PROMISES, "service/a.py", said("service/a.py", f'TEXT = "{quoted}"')) != []


def test_a_word_of_a_standard_is_no_promise():
    """In its quotes it is passed over, without them it is found."""
    header = f'POLICY = "style-src {KEYWORD}"'

    assert found(PROMISES, "a.py", said("a.py", header)) == []
    assert found(PROMISES, "a.py", said("a.py", header.replace("'", ""))) != []
