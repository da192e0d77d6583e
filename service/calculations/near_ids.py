"""Ids near to what a caller wrote, for a refusal that says what can be asked instead."""

import re
from collections.abc import Collection, Mapping
from difflib import get_close_matches
from types import MappingProxyType

OFFERED_MATCHES, MOST_WORDS = 5, 4
ALIKE_FRACTION = 0.8
"""How much of two words is the same where one is taken for the other misspelled."""
SHORTEST_BEGINNING, SHORTEST_PART = 3, 4
"""From so many letters on, a word may begin another, or end a compound: starch in cornstarch, but not ice in spice, and
not round in ground."""
NO_NAMES: Mapping[str, str] = MappingProxyType({})


def near_ids(
    ids: Collection[str], words: str, *, telling_little: Collection[str] = (), names: Mapping[str, str] = NO_NAMES
) -> tuple[str, ...]:  # fmt: skip
    """Ids that look like these words or hold some of them, nearest first: all of them where one word is asked for.

    telling_little: words that make nothing near where another word stands beside them. names: in words, what an id
    stands for; its words count as those of the id. What is equally near keeps the order of ids.
    """
    asked = _words(words)[:MOST_WORDS]
    telling = [word for word in asked if word not in telling_little] or asked
    words_of = {id: _words(f"{id} {names.get(id, '')}") for id in ids}
    vocabulary = {word for each in words_of.values() for word in each}
    meant = [_meant_by(word.removesuffix("s"), vocabulary) for word in telling]
    hits = {id: sum(not each.isdisjoint(words_of[id]) for each in meant) for id in ids}
    sharing = sorted((id for id in hits if hits[id]), key=lambda id: -hits[id])
    near = tuple(dict.fromkeys([*_alike(ids, asked, telling), *sharing]))
    return near if len(asked) == 1 else near[:OFFERED_MATCHES]


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z0-9]+", text.lower())


def _alike(ids: Collection[str], asked: list[str], telling: list[str]) -> list[str]:
    """Ids spelled like it; without the words that tell little as well, so that these alone make nothing alike."""
    alike = get_close_matches("-".join(asked), ids, n=OFFERED_MATCHES, cutoff=ALIKE_FRACTION)
    little = {word for word in asked if word not in telling}
    rest = {id: "-".join(word for word in id.split("-") if word not in little) for id in alike}
    return [id for id in alike if get_close_matches("-".join(telling), [rest[id]], cutoff=ALIKE_FRACTION)]


def _meant_by(word: str, vocabulary: set[str]) -> set[str]:
    """The words of ids that begin with this one or are a compound of it, or else look like it."""
    if len(word) < SHORTEST_BEGINNING:
        return vocabulary & {word}
    holding = {part for part in vocabulary if part.startswith(word) or _is_compound(part, word)}
    return holding or {*get_close_matches(word, vocabulary, cutoff=ALIKE_FRACTION)}


def _is_compound(part: str, word: str) -> bool:
    return len(word) >= SHORTEST_PART and part.find(word) >= SHORTEST_BEGINNING
