"""Why a recipe is not scaled, and what can be stated in its place."""

from collections.abc import Collection, Sequence

from service.calculations.measures.refusing import REASONS as MEASURE_REASONS
from service.calculations.measures.refusing import nearest_ids
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient

REASONS = {
    **{code: MEASURE_REASONS[code] for code in ("unknown_ingredient", "no_volume_figure", "no_piece_figure")},
    "carries_nitrite": "A line brings nitrite or nitrate, which is dosed and never scaled.",
    "may_be_curing_salt": "By its name a line may be a curing salt or a rock salt.",
    "label_contradicts": "By its name a line is salt, by its label most of it is not.",
    "no_such_line": "What there is so much of is on no line of the recipe.",
    "stated_twice": "Two limits are stated for one thing.",
}

MOST_NAMED = 5
DOSE = "POST /v1/curing/dose"
WITHOUT_IT = " Leave all of that out here, and scale the rest."
NEAREST = {
    "curing_salt": f"{DOSE} says what to weigh of a curing salt for the meat, by its label.",
    "neat": "Nitrite, nitrate and saltpetre as such are for no kitchen: do not weigh them out. "
    f"{DOSE} doses a curing salt of known strength in their place.",
    "claimed": "Powder of celery, which brings nitrate, stands behind many a claim of absence: read the label. If it "
    f"names nitrite, nitrate or a vegetable powder, {DOSE} doses a curing salt of known strength in its place.",
    "natural_source": "What a vegetable powder or juice brings is not known, and it is not dosed here: do not use it. "
    f"{DOSE} doses a curing salt of known strength in its place.",
}
"""What is answered in the place of what was refused."""
OR_NONE = (
    " If its label names no nitrite, no nitrate (E 249 to E 252) and no vegetable powder, call it by what it is, "
    "without that word, and state its weight."
)
READ_THE_LABEL = (
    "if its label names nitrite or nitrate (E 249 to E 252), or celery or another vegetable powder, take the line out "
    f"and ask {DOSE}"
)


def carries_nitrite(
    places: Sequence[str], doubtful: Sequence[str], natures: Collection[str], *, is_all: bool
) -> Impossible:
    """Nitrite and nitrate are dosed for the meat, never scaled. is_all: no recipe is left without it."""
    also = f" {_listed(doubtful)} may be a curing salt, too." if doubtful else ""
    told = " ".join(text for nature, text in NEAREST.items() if nature in natures)
    return Impossible(
        code="carries_nitrite",
        reason=f"{_listed(places)} reads like a curing salt, or like something else that brings nitrite or nitrate. "
        f"It is not scaled, not even by weight.{also}",
        nearest=f"{told}{'' if is_all else WITHOUT_IT}{OR_NONE}",
    )


def may_be_curing_salt(places: Sequence[str], *, is_all: bool) -> Impossible:
    """Two pink salts, of which one cures."""
    return Impossible(
        code="may_be_curing_salt",
        reason=f"{_listed(places)} may be a curing salt or a rock salt: by its name they cannot be told apart.",
        nearest="Read its label. If that names no nitrite and no nitrate, call it rock salt and state its weight. If "
        f"it does, {DOSE} says what to weigh.{'' if is_all else WITHOUT_IT}",
    )


def unknown_measure(book: RuleBook, where: str, name: str, *, by_piece: bool) -> Impossible:
    """A volume or a count of something that is not listed."""
    near = [id for id in nearest_ids(book, name) if _is_known(book.ingredients[id], by_piece=by_piece)]
    return Impossible(
        code="unknown_ingredient",
        reason=f'{where} ("{name}"): no ingredient has this id, and what {"a piece" if by_piece else "a volume"} of it '
        "weighs is not known.",
        nearest=(f"Near it: {', '.join(near)}. " if near else "")
        + f"State its weight, or an id of GET /v1/ingredients; {READ_THE_LABEL}.",
    )


def no_measure(ingredient: Ingredient, where: str, *, by_piece: bool) -> Impossible:
    """A listed ingredient of which no spoon, or no piece, was ever weighed."""
    other = "in pieces" if ingredient.piece else "by volume"
    return Impossible(
        code="no_piece_figure" if by_piece else "no_volume_figure",
        reason=f"{where}: no {'piece' if by_piece else 'spoon or cup'} of {ingredient.name} ({ingredient.form}) was "
        "published.",
        nearest=f"State its weight, or how much {other}.",
    )


def label_contradicts(place: int, name: str) -> Impossible:
    """The label of a salt says that it is none: a slip of the point, more often than not."""
    return Impossible(
        code="label_contradicts",
        reason=f'Line {place} ("{name}") is salt by its name, and by its label half of it at most is.',
        nearest="Leave the label out: salt counts as all salt. 98 percent of salt is salt_percent 98, not 0.98. A salt "
        "substitute goes by a name of its own, with its weight and its label.",
    )


def no_such_line(name: str, names: Sequence[str], *, is_only: bool) -> Impossible:
    """A limit on what the recipe does not have. is_only: there is no other limit."""
    return Impossible(
        code="no_such_line",
        reason=f'The recipe has no line "{name}".',
        nearest=f"Name it as its line does: {', '.join(dict.fromkeys(names[:MOST_NAMED]))}"
        f"{', and so on' if len(names) > MOST_NAMED else ''}.{'' if is_only else ' Or leave this limit out.'}",
    )


def stated_twice(what: str) -> Impossible:
    """Two amounts of one thing at hand."""
    return Impossible(
        code="stated_twice",
        reason=f"at_hand states {what} twice.",
        nearest="State all there is of it in one limit.",
    )


def _is_known(ingredient: Ingredient, *, by_piece: bool) -> bool:
    if ingredient.kind == "curing_salt":
        return False
    return bool(ingredient.piece if by_piece else ingredient.readings)


def _listed(places: Sequence[str]) -> str:
    told = ", ".join(places[:MOST_NAMED]) + (", and more" if len(places) > MOST_NAMED else "")
    return told[0].upper() + told[1:]
