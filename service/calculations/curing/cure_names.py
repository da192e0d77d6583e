"""What reads like something that brings nitrite or nitrate, by whatever spelling, for every calculation that asks."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from service.rules.book import RuleBook
from service.rules.cure_name import Cure, CureKind, CureName, NameKind
from service.rules.spelling import readings_of
from service.rules.substance import Substance

BOOKS_KEPT, NAMES_KEPT = 4, 4096
LETTERS = 3
"""By so many a name is looked up."""
GRAVEST: tuple[NameKind, ...] = ("curing_salt", "natural_source", "neat", "doubtful", "unread")
"""Of a name that is several things the first is told: nitrite curing salt is a curing salt."""


class Reading(NamedTuple):
    """One way to read a name."""

    words: tuple[str, ...]
    close: str
    """The words without spaces."""
    each: frozenset[str]
    """The words in no order."""
    runs: frozenset[str]
    """Words that follow each other, written as one."""


class Sought(NamedTuple):
    """A row of names, folded as the names of a recipe are."""

    kind: CureKind
    words: frozenset[str] = frozenset()
    """What is one word."""
    joined: frozenset[str] = frozenset()
    """What is several, without its spaces, as all that follows."""
    parts: tuple[str, ...] = ()
    endings: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    beside_words: frozenset[str] = frozenset()
    unless: tuple[str, ...] = ()

    def is_in(self, read: Reading) -> bool:
        """Whether a name is one of these."""
        if any(other in read.close for other in self.unless):
            return False
        return (self._is_named(read) and self._is_beside(read)) or self._is_fused(read)

    def _is_named(self, read: Reading) -> bool:
        return (
            not self.words.isdisjoint(read.each)
            or not self.joined.isdisjoint(read.runs)
            or any(part in read.close for part in self.parts)
            or (bool(self.endings) and any(word.endswith(self.endings) for word in read.words))
        )

    def _is_beside(self, read: Reading) -> bool:
        if not (self.beside or self.beside_words):
            return True
        return not self.beside_words.isdisjoint(read.each) or any(other in read.close for other in self.beside)

    def _is_fused(self, read: Reading) -> bool:
        """Whether one word is made of nothing but these and what stands beside them: celerypowder."""
        if not (self.beside or self.beside_words):
            return False
        named = [word for word in (*self.words, *self.joined) if word in read.close]
        return bool(named) and any(self._is_made_of(named, word) for word in read.words)

    def _is_made_of(self, named: Iterable[str], word: str) -> bool:
        others = (*self.beside, *self.beside_words)
        rests = [rest for pieces in _in_both_numbers(named) if len(rest := _without(word, pieces)) < len(word)]
        return any(rest and not _without(rest, pieces) for rest in rests for pieces in _in_both_numbers(others))


class Slips(NamedTuple):
    """Names of so many words that are found with one letter wrong."""

    word_count: int
    shortest: int
    longest: int
    """Letters of the names."""
    kinds: dict[str, CureKind]
    """What a name is, by itself and by itself less one letter."""

    def in_words(self, words: tuple[str, ...]) -> Iterator[CureKind]:
        """What words are, with a slip; too long or too short for any they are passed over unread."""
        for count in {1, self.word_count}:
            for start in range(len(words) - count + 1):
                run = "".join(words[start : start + count])
                if self.shortest - 1 <= len(run) <= self.longest + 1:
                    yield from (self.kinds[less] for less in _less_one(run) if less in self.kinds)


class CureTable(NamedTuple):
    """All names of a rule book."""

    innocent: tuple[str, ...]
    sought: tuple[Sought, ...]
    by_start: dict[str, frozenset[int]]
    """The first letters of everything sought, and the places of the rows that have it: few rows are looked at."""
    slips: tuple[Slips, ...]
    most_words: int
    """Of a name."""

    def kinds_of(self, name: str) -> set[CureKind]:
        """Everything that it reads like."""
        return {kind for reading in readings_of(name) for kind in self._kinds_of(self._read(reading))}

    def _read(self, reading: str) -> Reading:
        spaced = f" {reading} "
        for innocent in self.innocent:
            spaced = spaced.replace(innocent, " ")
        words = tuple(spaced.split())
        runs = (
            "".join(words[start : start + count])
            for count in range(1, self.most_words + 1)
            for start in range(len(words) - count + 1)
        )
        return Reading(words, "".join(words), frozenset(words), frozenset(runs))

    def _kinds_of(self, read: Reading) -> Iterator[CureKind]:
        close = read.close
        starts = {close[at : at + letters] for letters in range(1, LETTERS + 1) for at in range(len(close))}
        rows = frozenset().union(*(self.by_start[start] for start in starts & self.by_start.keys()))
        yield from (self.sought[row].kind for row in rows if self.sought[row].is_in(read))
        for slips in self.slips:
            yield from slips.in_words(read.words)


@lru_cache(maxsize=NAMES_KEPT)
def cure_kind(book: RuleBook, name: str) -> Cure | None:
    """What a name reads like; None where it reads like nothing of the kind. A listed id is what its row says."""
    kind = kind_of_name(book, name)
    return None if kind == "unread" else kind


def kind_of_name(book: RuleBook, name: str) -> NameKind | None:
    """The same; unread where it is no cure by its name, but its label is to be read."""
    kinds = _cure_table(book).kinds_of(name)
    return next((kind for kind in GRAVEST if kind in kinds), None)


@lru_cache(maxsize=BOOKS_KEPT)
def _cure_table(book: RuleBook) -> CureTable:
    rows = book.cure_names.values()
    written = [words for row in rows for words in (*row.words, *row.near)]
    table = CureTable(
        tuple(f" {_folded(words)} " for row in rows if row.kind == "innocent" for words in row.words),
        (),
        {},
        tuple(_slips([(_folded(words), row.kind) for row in rows for words in row.near])),
        max(len(_folded(words).split()) for words in written),
    )
    table = _with(table, tuple(_sought(row) for row in rows if row.kind != "innocent"))
    return _with(table, (*table.sought, *_of_labels(book, table)))


def _with(table: CureTable, sought: tuple[Sought, ...]) -> CureTable:
    """A table in which these are found."""
    by_start: dict[str, set[int]] = {}
    for place, one in enumerate(sought):
        for name in (*one.words, *one.joined, *one.parts, *one.endings):
            by_start.setdefault(name[:LETTERS], set()).add(place)
    return table._replace(sought=sought, by_start={start: frozenset(rows) for start, rows in by_start.items()})


def _slips(near: list[tuple[str, CureKind]]) -> Iterator[Slips]:
    for count in sorted({len(words.split()) for words, _ in near}):
        names = {words.replace(" ", ""): kind for words, kind in near if len(words.split()) == count}
        kinds = {less: kind for name, kind in names.items() for less in _less_one(name)}
        yield Slips(count, min(map(len, names)), max(map(len, names)), kinds)


def _of_labels(book: RuleBook, table: CureTable) -> Iterator[Sought]:
    """The words that labels have for them, but for a pink salt: as a name it says nothing."""
    for one in book.substances.values():
        words = [words for words in one.words if one.cures and table.kinds_of(words) - {"unread"} != {"doubtful"}]
        if words:
            yield Sought(_kind_of(one), _single(words), _joined(words))


def _kind_of(one: Substance) -> CureKind:
    if one.cures == "natural_source":
        return "natural_source"
    return "neat" if one.additive else "curing_salt"


def _sought(row: CureName) -> Sought:
    return Sought(
        row.kind,
        _single(row.words),
        _joined((*row.words, *row.near)),
        _close(row.parts),
        _close(row.endings),
        _close(row.beside),
        _single(row.beside_words),
        _close(row.unless),
    )


def _folded(words: str) -> str:
    return readings_of(words)[0]


def _single(several: Iterable[str]) -> frozenset[str]:
    return frozenset(word for words in several if " " not in (word := _folded(words)))


def _close(several: Iterable[str]) -> tuple[str, ...]:
    return tuple(_folded(words).replace(" ", "") for words in several)


def _joined(several: Iterable[str]) -> frozenset[str]:
    """A plural inside is one or is none: gros sel and grossel."""
    many = [words for words in several if " " in _folded(words)]
    return frozenset((*_close(many), *_close(words.replace(" ", "") for words in many)))


def _in_both_numbers(pieces: Iterable[str]) -> tuple[list[str], list[str]]:
    one = [*pieces]
    return one, [piece + "s" for piece in one]


def _without(word: str, pieces: Iterable[str]) -> str:
    """What is left of a word, the longest pieces taken out first."""
    for piece in sorted(pieces, key=len, reverse=True):
        word = word.replace(piece, "")
    return word


def _less_one(word: str) -> set[str]:
    """A word, and the same with any letter left out: two that share one of these differ by one slip."""
    return {word, *(word[:place] + word[place + 1 :] for place in range(len(word)))}
