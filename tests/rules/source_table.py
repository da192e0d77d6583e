"""The tables of docs/sources.md, as the rule data has them."""

from collections import defaultdict
from collections.abc import Iterator

from service.rules.book import RuleBook


def limit_lines(book: RuleBook) -> Iterator[str]:
    """One line for each citation, kind of evidence and date of the text, with the rules that rest on it."""
    resting = defaultdict(list)
    for rule in book.rules.values():
        for dated in rule.values:
            resting[dated.citation, dated.evidence, dated.text_as_of or "-"].append(rule.id)
    return _lines(resting)


def caution_lines(book: RuleBook) -> Iterator[str]:
    """One line for each source of a warning and kind of evidence, with the warnings that rest on it."""
    resting = defaultdict(list)
    for caution in book.cautions.values():
        resting[caution.source, caution.evidence].append(caution.id)
    return _lines(resting)


def ingredient_lines(book: RuleBook) -> Iterator[str]:
    """One line for each source of a kitchen measure or of its sodium, with the ingredients that rest on it."""
    resting = defaultdict(list)
    for one in book.ingredients.values():
        piece = one.piece
        pieces = [(piece.source, piece.evidence), (piece.band_source, piece.band_evidence)] if piece else []
        cited = [(each.source, each.evidence) for each in (*one.readings, one.sodium) if each]
        for source in (*cited, *pieces):
            resting[source].append(one.id)
    return _lines(resting)


def cut_lines(book: RuleBook) -> Iterator[str]:
    """One line for each source of what is known of a cut, with the cuts that rest on it."""
    resting = defaultdict(list)
    for one in book.cuts.values():
        number = [(one.item_source, one.item_evidence)] if one.item_source else []
        for source in (*number, *((each.source, each.evidence) for each in one.readings)):
            resting[source].append(one.id)
    return _lines(resting)


def usual_yield_lines(book: RuleBook) -> Iterator[str]:
    """One line for each source of what is usually left after a stage."""
    resting = defaultdict(list)
    for one in book.usual_yields.values():
        resting[one.source, one.evidence].append(one.id)
    return _lines(resting)


def label_lines(book: RuleBook) -> Iterator[str]:
    """One line for each source of an allergen, of a word or of a label rule, with what rests on it."""
    resting: dict[tuple[str, str], list[str]] = defaultdict(list)
    for allergen in book.allergens.values():
        for listing in allergen.lists:
            resting[listing.citation, listing.evidence].append(allergen.id)
    for one in book.substances.values():
        resting[one.source, one.evidence].append(one.id)
    for rule in book.label_rules.values():
        resting[rule.citation, rule.evidence].append(rule.id)
    return _lines(resting)


def cure_name_lines(book: RuleBook) -> Iterator[str]:
    """One line for each source of the names of what brings nitrite or nitrate."""
    resting = defaultdict(list)
    for one in book.cure_names.values():
        resting[one.source, one.evidence].append(one.id)
    return _lines(resting)


def _lines(resting: dict) -> Iterator[str]:
    for source, ids in sorted(resting.items(), key=lambda item: [cell.lower() for cell in item[0]]):
        yield f"| {' | '.join(source)} | {' '.join(f'`{id}`' for id in dict.fromkeys(ids))} |"


TABLES = (limit_lines, caution_lines, ingredient_lines, cut_lines, usual_yield_lines, label_lines, cure_name_lines)
"""In the order of the page."""
