"""The list of a label that is in use, as it is read: each ingredient with what stands in parentheses after it."""

import re
from collections.abc import Collection, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from service.calculations.labels.labelling.naming import E_NUMBER
from service.calculations.labels.labelling.place import Place
from service.rules.spelling import folded, tidy

JOINED = " and "
NEXT_TO = re.compile(r"\)\s*\(")
CONTAINS = "contain"
DEEPEST, NAMES_KEPT = 4, 2048


class Written(NamedTuple):
    """One ingredient as the label has it."""

    key: str
    """The ingredient of the recipe that it is, where it is one."""
    name: str
    """Its name as it was written, without the category before it."""
    text: str
    """As it was written."""
    inside: tuple["Written", ...]
    """What stands in parentheses after it."""
    is_joined: bool
    category: str = ""
    """What it is said to do."""
    is_whole: bool = True
    """Whether all of it was read: nothing stands behind the parentheses."""

    def is_remark(self, said: Collection[str]) -> bool:
        """Whether it is no part: a number, or an allergen, and it is true of what it stands beside."""
        return folded(self.text).removeprefix(CONTAINS).strip() in said


@lru_cache(maxsize=NAMES_KEPT)
def comparable(name: str) -> str:
    """A name whose words may stand in any order: "pepper, black" is black pepper."""
    return " ".join(sorted(folded(name).split())) or tidy(name)


def is_same_additive(written: str, ours: str, place: Place) -> bool:
    """Whether one of them is the number of the other."""
    additive = place.facts(written).additive
    is_number = any(E_NUMBER.fullmatch(folded(name)) for name in (written, ours))
    return additive is not None and is_number and place.facts(ours).additive is additive


def written_on(ingredients: Sequence[str], ours: Collection[str], place: Place) -> Iterator[Written]:
    """Names as they are compared: as the recipe has them where it has them, meats that are joined one by one."""
    spelled = {comparable(name): name for name in ours}
    for text in ingredients:
        one = _read(text, place, 0)
        name = _ours(one, ours, spelled, place)
        if name in ours:
            is_same = comparable(text) == comparable(name)
            yield Written(name, name, text, (), is_joined=False) if is_same else one._replace(key=name)
            continue
        halves = [_ours(_read(half, place, 0), ours, spelled, place) for half in one.name.split(JOINED)]
        is_whole = one.is_whole and not one.inside
        if all(half in ours for half in halves):
            yield from (
                one._replace(key=half, name=half, inside=(), is_joined=True, is_whole=is_whole) for half in halves
            )
        else:
            yield one._replace(key=name)


def _ours(one: Written, ours: Collection[str], spelled: dict[str, str], place: Place) -> str:
    """As the recipe has it, in the same or in another spelling; else as it is written."""
    name = tidy(one.name)
    if name in ours:
        return name
    for other in (one.name, one.text, place.facts(one.name).label):
        if comparable(other) in spelled:
            return spelled[comparable(other)]
    return next((each for each in ours if is_same_additive(one.name, each, place)), name)


@lru_cache(maxsize=NAMES_KEPT)
def _read(text: str, place: Place, depth: int) -> Written:
    """Without the category before it, and with what stands in parentheses read as a list of its own."""
    head, enclosed, rest = _taken_apart(NEXT_TO.sub(", ", text))
    category, _, bare = head.rpartition(":")
    has_category = bool(category) and _is_category(category, place)
    bare = (bare if has_category else head).strip() or text
    inside: tuple[Written, ...] = ()
    if enclosed and depth < DEEPEST:
        inside = tuple(_read(each, place, depth + 1) for each in _split(enclosed))
    is_whole = not rest.strip(" .") and (depth < DEEPEST or not enclosed)
    return Written(
        bare,
        bare,
        text.strip(),
        inside,
        is_joined=False,
        category=category.strip() if has_category else "",
        is_whole=is_whole,
    )


def _taken_apart(text: str) -> tuple[str, str, str]:
    """What stands before the parentheses, in them, and after them. Where they do not close, all of it is after."""
    head, opens, tail = text.partition("(")
    depth = 1
    for at, letter in enumerate(tail):
        depth += (letter == "(") - (letter == ")")
        if depth == 0:
            return head, tail[:at], tail[at + 1 :]
    return head, tail, opens or (head if ")" in head else "")


def _is_category(name: str, place: Place) -> bool:
    """Whether it is nothing but words of what additives do: what else stands before a colon is not passed by."""
    facts = place.facts(name)
    return facts.why == "unknown_word" and not facts.words and not facts.carried


def _split(text: str) -> Iterator[str]:
    """At the commas that stand in no parentheses."""
    depth, start = 0, 0
    for at, letter in enumerate(text):
        depth += (letter == "(") - (letter == ")")
        if letter in ",;" and depth <= 0:
            yield text[start:at].strip()
            start = at + 1
    yield text[start:].strip()
