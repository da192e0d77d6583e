"""The words of ingredient lists read as text: names are read without the service, to hold its answers against."""

import re
from datetime import date
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

import yaml

DATA = Path(__file__).parents[3] / "service/rules/data"
ENDINGS = re.compile(r"(?<=[a-z0-9])(?:(?<=o|x|z)es|(?<=ch|sh|ss)es|(?<![sui])s)$")
BRITISH = {"sulf": "sulph", "flavour": "flavor", "colour": "color", "fibre": "fiber", "lys": "lyz", "ised": "ized"}


@cache
def rows(name: str) -> list[dict[str, Any]]:
    """The rows of a list, as they are written."""
    return list(yaml.safe_load((DATA / f"{name}.yaml").read_text("utf-8")))


def one_spelling(name: str) -> str:
    """An ASCII name as it is compared: words with one space between them."""
    lower = re.sub(
        r"\be[ -]?([1-9][0-9]{2,3}[a-f]?)(?:\((?:i{1,3}|iv|v|vi)\)|(?:i{1,3}|iv|v|vi)?\b)", r"e\1 ", name.lower()
    )
    words = re.findall(r"[a-z0-9]+(?:'[a-z0-9]+)*", lower)
    return " ".join(_plain(word) for word in words)


def _plain(word: str) -> str:
    word = re.sub(r"'s$", "", word).replace("'", "")
    for american, british in BRITISH.items():
        word = word.replace(american, british)
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    return word if len(word) < 4 or re.search(r"(ss|us|is)$", word) else ENDINGS.sub("", word)


@cache
def _phrases() -> tuple[re.Pattern[str], dict[str, dict[str, Any]]]:
    by_phrase = {one_spelling(word): row for row in rows("substances") for word in row["words"]}
    longest_first = sorted(by_phrase, key=lambda phrase: -len(phrase.split()))
    return re.compile(rf"(?:{'|'.join(map(re.escape, longest_first))})(?= |$)"), by_phrase


class Meaning(NamedTuple):
    """What a name brings in for certain, and what it leaves open."""

    carries: set[str]
    counts: set[str]
    named: set[str]
    open_to: set[str]
    cures: set[str]
    doubtful: bool
    spice: bool
    additive: bool


ALLERGENS = tuple(row["id"] for row in rows("allergens"))


@cache
def meaning_of(name: str, place: str, on: date, ingredient: str | None = None) -> Meaning:
    """Read a name: walk through its words, the longest known ones first."""
    pattern, by_phrase = _phrases()
    text, chunks, unknown = one_spelling(name), [], []
    while text:
        found = pattern.match(text)
        word = found[0] if found else text.split()[0]
        chunks.append(by_phrase[word] if found else None)
        if not found and not re.fullmatch("[0-9]{1,2}", word):
            unknown.append(word)
        text = text[len(word) :].lstrip()
    about = {number - 1 for number, row in enumerate(chunks) if row and row["kind"] == "claim_before"}
    about |= {number + 1 for number, row in enumerate(chunks) if row and row["kind"] == "claim_after"}
    things = [
        row for number, row in enumerate(chunks) if row and row["kind"] in ("substance", "mix") and number not in about
    ]
    known_as = next((row for row in rows("substances") if ingredient in row.get("ingredients", ())), None)
    things += [known_as] if known_as else []
    denied = {
        allergen for number, row in enumerate(chunks) if row and number in about for allergen in row.get("carries", ())
    }
    denied -= set(known_as.get("carries", ())) if known_as else set()
    carries, counts, named = (_carried(rows_, denied) for rows_ in _sorts(things, place, on))
    makings = [] if known_as else [row for row in chunks if row and row["kind"] == "making" and not _known(row, things)]
    doubtful = (
        bool(about) or any(row["kind"] == "mix" for row in things) or any("open_to" not in row for row in makings)
    )
    doubtful |= not known_as and (bool(unknown or not things) or _is_a_dish(things))
    return Meaning(
        carries,
        counts,
        named,
        set(ALLERGENS) if doubtful else {one for row in things + makings for one in row.get("open_to", ())},
        {row["cures"] for row in things if "cures" in row},
        doubtful,
        bool(things) and not doubtful and all(row.get("spice") for row in things),
        any("additive" in row for row in things),
    )


def _carried(carriers: list[dict[str, Any]], denied: set[str]) -> set[str]:
    return {allergen for row in carriers for allergen in row.get("carries", ())} - denied


def _sorts(
    things: list[dict[str, Any]], place: str, on: date
) -> tuple[list[dict[str, Any]], list[dict[str, Any]], list[dict[str, Any]]]:
    """All of them, those that the law of the place means, and those of these that name a kind."""
    counts = [row for row in things if _counts(row, place, on)]
    return things, counts, [row for row in counts if "says" in row]


def _is_a_dish(things: list[dict[str, Any]]) -> bool:
    """Whether two neighbours are two foods; an additive may stand by its name and its number."""
    return any(
        row["id"] not in other.get("beside", ())
        and other["id"] not in row.get("beside", ())
        and not (row is other and "additive" in row)
        for row, other in pairwise(things)
    )


def _known(making: dict[str, Any], things: list[dict[str, Any]]) -> bool:
    """Whether all of them are as harmless in a making as by themselves; additives are powders."""
    return all(
        making["id"] in row.get("forms", ()) or ("additive" in row and making["id"] in ("powder", "dried"))
        for row in things
    )


def _counts(row: dict[str, Any], place: str, on: date) -> bool:
    has_list = any(listing_of(one, place, on) for one in ALLERGENS)
    return not has_list or (place in row.get("places", (place,)) and on < row.get("until", date.max))


@cache
def listing_of(allergen: str, place: str, on: date) -> dict[str, Any] | None:
    """How the law of a place lists an allergen on a day."""
    row = next(row for row in rows("allergens") if row["id"] == allergen)
    standing = (
        one for one in row["lists"] if place in one["places"] and one["since"] <= on and on < one.get("until", date.max)
    )
    return next(standing, None)


def spoken_of(specification: dict[str, Any], place: str, on: date) -> set[str]:
    """The allergens of which a specification says whether they are in: by its list, as it was on its day."""
    by_list, dated = specification["by_list"], specification.get("dated")
    if dated is None or date.fromisoformat(dated) > on:
        return set()
    return {
        row["id"]
        for row in rows("allergens")
        for there in (listing_of(row["id"], place, on),)
        if all(one["since"] <= date.fromisoformat(dated) for one in row["lists"] if by_list in one["places"])
        and all(by_list in one["covered_by"] for one in ([there] if there else row["lists"]))
    }
