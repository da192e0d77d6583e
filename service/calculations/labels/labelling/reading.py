"""The list of a label that is in use, as it is read: each ingredient with what stands in parentheses after it."""

import re
from collections.abc import Collection, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from service.calculations.labels.labelling.place import Place
from service.rules.spelling import folded, tidy

JOINED = " and "
NEXT_TO = re.compile(r"\)\s*\(")
NUMBER = re.compile(r"e[1-9][0-9]{2,3}[a-f]?")
CONTAINS = "contain"
DEEPEST, NAMES_KEPT = 4, 2048


class Written(NamedTuple):
    """One ingredient as the label has it."""

    name: str
    """As it is compared."""
    text: str
    """As it was written."""
    inside: tuple["Written", ...]
    """What stands in parentheses after it."""
    is_joined: bool

    def key(self, place: Place) -> str:
        """As the parts of a recipe are compared."""
        return comparable(place.facts(self.name).label)

    def is_remark(self, printed: str, place: Place, *, has_parts: bool) -> bool:
        """Whether it is no part: a number, what our own list prints there, or, where nothing has parts, an allergen."""
        plain = _plain(self.text)
        if NUMBER.fullmatch(plain) or plain.startswith(CONTAINS) or f"({tidy(self.text)})" in printed:
            return True
        return not has_parts and any(plain == _plain(one.name) for one in place.allergens)


_plain = lru_cache(maxsize=NAMES_KEPT)(folded)


@lru_cache(maxsize=NAMES_KEPT)
def comparable(name: str) -> str:
    """A name whose words may stand in any order: "pepper, black" is black pepper."""
    return " ".join(sorted(folded(name).split())) or tidy(name)


def written_on(ingredients: Sequence[str], ours: Collection[str], place: Place) -> Iterator[Written]:
    """Names as they are compared: as the recipe has them where it has them, meats that are joined one by one."""
    spelled = {comparable(name): name for name in ours}
    for text in ingredients:
        one = _read(text, place, 0)
        name = _ours(one, ours, spelled, place)
        if name in ours:
            inside = one.inside if one.inside and comparable(text) != comparable(name) else ()
            yield Written(name, text, inside, is_joined=False)
            continue
        halves = [_ours(_read(half, place, 0), ours, spelled, place) for half in one.name.split(JOINED)]
        if all(half in ours for half in halves):
            yield from (Written(half, text, (), is_joined=True) for half in halves)
        else:
            yield Written(name, text, one.inside, is_joined=False)


def _ours(one: Written, ours: Collection[str], spelled: dict[str, str], place: Place) -> str:
    """As the recipe has it, in the same or in another spelling; else as it is written."""
    name = tidy(one.name)
    if name in ours:
        return name
    for other in (one.name, one.text, place.facts(one.name).label):
        if comparable(other) in spelled:
            return spelled[comparable(other)]
    return name


@lru_cache(maxsize=NAMES_KEPT)
def _read(text: str, place: Place, depth: int) -> Written:
    """Without the category before it, and with what stands in parentheses read as a list of its own."""
    head, has_inside, tail = NEXT_TO.sub(", ", text).partition("(")
    category, _, bare = head.rpartition(":")
    bare = (bare if _is_category(category, place) else head).strip() or text
    inside: tuple[Written, ...] = ()
    if has_inside and depth < DEEPEST:
        inside = tuple(_read(each, place, depth + 1) for each in _split(tail.rpartition(")")[0] or tail))
    return Written(bare, text.strip(), inside, is_joined=False)


def _is_category(name: str, place: Place) -> bool:
    """Whether it is nothing but words of what additives do: what else stands before a colon is not passed by."""
    facts = place.facts(name) if name else None
    return facts is None or (facts.why == "unknown_word" and not facts.words and not facts.carried)


def _split(text: str) -> Iterator[str]:
    """At the commas that stand in no parentheses."""
    depth, start = 0, 0
    for at, letter in enumerate(text):
        depth += (letter == "(") - (letter == ")")
        if letter in ",;" and depth <= 0:
            yield text[start:at].strip()
            start = at + 1
    yield text[start:].strip()
