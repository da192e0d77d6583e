"""Why a statement is not told, and what would be."""

from collections.abc import Sequence

from service.calculations.labels.labelling.recipe import LabelledLine
from service.calculations.measures.refusing import REASONS as MEASURE_REASONS
from service.calculations.measures.refusing import nearest_ids
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook

REASONS = {
    "unknown_ingredient": MEASURE_REASONS["unknown_ingredient"],
    "percents_over_whole": "The parts of an ingredient come to more than the whole of it.",
    "too_many_parts": "More ingredients of ingredients than one label has room for.",
    "united_states_only": "Only the law of the United States knows this way of writing the list.",
    "meats_not_joined": "Two meats are joined by a word only where each is large enough.",
}
"""Every way in which a statement is not told."""

LEAVE_ID_OUT = (
    "Leave ingredient out wherever its id is not listed, and state what it consists of. "
    "GET /v1/ingredients lists every id."
)


def unknown_id(book: RuleBook, id: str) -> Impossible:
    """No ingredient has this id."""
    near = nearest_ids(book, id)
    return Impossible(
        code="unknown_ingredient",
        reason=f"No ingredient has the id {id}.",
        nearest=(f"{', '.join(near)}. " if near else "") + LEAVE_ID_OUT,
    )


def require_ids(lines: Sequence[LabelledLine], book: RuleBook) -> None:
    """Each stated id is that of an ingredient. Raises Impossible."""
    for line in lines:
        if line.ingredient is not None and line.ingredient not in book.ingredients:
            raise unknown_id(book, line.ingredient)


def over_whole(path: tuple[str, ...], total_percent: float) -> Impossible:
    """Percents of parts come to more than a hundred."""
    return Impossible(
        code="percents_over_whole",
        reason=f"The parts of {' > '.join(path)} come to {total_percent:.6g} percent of it.",
        nearest="State percents of each ingredient itself that come to 100, or leave every percent out.",
    )


def too_many(most: int) -> Impossible:
    """More nodes than are walked for one request."""
    return Impossible(
        code="too_many_parts",
        reason=f"The lines and everything that they consist of are more than {most:,} ingredients.",
        nearest=f"State at most {most:,} ingredients in all, parts of parts counted.",
    )


def united_states_only(options: list[str]) -> Impossible:
    """Liberties of the American list, asked for elsewhere."""
    asked = " and ".join(options)
    return Impossible(
        code="united_states_only",
        reason=f"Told for jurisdiction US alone: {asked}.",
        nearest=f"Leave out {asked}, or ask with jurisdiction US.",
    )


def meats_not_joined(reason: str) -> Impossible:
    """Two meats that may not change places."""
    return Impossible(code="meats_not_joined", reason=reason, nearest="Leave join_meats out.")
