"""Ids near to what a caller wrote, for a refusal that says what can be asked instead."""

import re
from collections.abc import Collection
from difflib import get_close_matches

OFFERED_MATCHES, MOST_WORDS = 5, 4
ALIKE_FRACTION = 0.8
"""How much of two words is the same where one is taken for the other misspelled."""
SHORTEST_BEGINNING, SHORTEST_PART = 3, 4
"""From so many letters on, a word may begin another, or stand inside: starch in cornstarch, but not ice in spice."""


def near_ids(ids: Collection[str], words: str, *, telling_little: Collection[str] = ()) -> tuple[str, ...]:
    """Ids that look like these words or hold some of them, nearest first: all of them where one word is asked for.

    telling_little: words that make nothing near where another word stands beside them.
    """
    asked = re.findall(r"[a-z0-9]+", words.lower())[:MOST_WORDS]
    alike = get_close_matches("-".join(asked), ids, n=OFFERED_MATCHES, cutoff=ALIKE_FRACTION)
    vocabulary = {part for id in ids for part in id.split("-")}
    telling = [word for word in asked if word not in telling_little] or asked
    meant = [_meant_by(word.removesuffix("s"), vocabulary) for word in telling]
    hits = {id: sum(not parts.isdisjoint(id.split("-")) for parts in meant) for id in ids}
    sharing = sorted((id for id in hits if hits[id]), key=lambda id: -hits[id])
    near = tuple(dict.fromkeys([*alike, *sharing]))
    return near if len(asked) == 1 else near[:OFFERED_MATCHES]


def _meant_by(word: str, vocabulary: set[str]) -> set[str]:
    """The words of ids that hold this one, or else look like it."""
    if len(word) < SHORTEST_BEGINNING:
        return vocabulary & {word}
    inside = len(word) >= SHORTEST_PART
    holding = {part for part in vocabulary if part.startswith(word) or (inside and word in part)}
    return holding or {*get_close_matches(word, vocabulary, cutoff=ALIKE_FRACTION)}
