"""Why a kitchen measure has no weight, and what can be stated in its place."""

from difflib import get_close_matches

from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient, IngredientKind

REASONS = {
    "unknown_ingredient": "No ingredient has this id.",
    "no_volume_figure": "No weight of a spoon or cup of this ingredient is known.",
    "no_piece_figure": "No weight of a piece of this ingredient is known.",
    "curing_salt_needs_label": "Without its label and the meat nothing can be said of a spoon of curing salt.",
    "curing_salt_not_swapped": "Curing salt takes the place of no other ingredient.",
}
"""Every way in which a kitchen measure has no weight."""

WEIGH_IT = "Weigh it, and state the weight."

OFFERED_MATCHES = 5


def nearest_ids(book: RuleBook, words: str) -> tuple[str, ...]:
    """Ids that look like these words, or share one of them, nearest first."""
    wanted = words.strip().lower().replace(" ", "-")
    alike = get_close_matches(wanted, book.ingredients, n=OFFERED_MATCHES)
    shared = [id for id in book.ingredients if set(id.split("-")) & set(wanted.split("-"))]
    return tuple(dict.fromkeys([*alike, *shared]))[:OFFERED_MATCHES]


def unknown_ingredient(book: RuleBook, id: str) -> Impossible:
    """No ingredient has this id."""
    near = nearest_ids(book, id)
    return Impossible(
        code="unknown_ingredient",
        reason=f"No ingredient has the id {id}.",
        nearest=(f"Near it: {', '.join(near)}. " if near else "") + "GET /v1/ingredients lists every one.",
    )


def no_volume_of_kind(kind: IngredientKind) -> Impossible:
    """There is no spoon of any ingredient of a kind."""
    return Impossible(code="no_volume_figure", reason=f"No spoon of any {kind} was published.", nearest=WEIGH_IT)


def needs_label(ingredient: Ingredient) -> Impossible:
    """A spoon of curing salt is not weighed without its label."""
    return Impossible(
        code="curing_salt_needs_label",
        reason=f"A spoon of {ingredient.name} weighs too differently from another to name one weight.",
        nearest="Weigh it. To see what a spoon may have been, ask with kind curing_salt, its label and the meat.",
    )


def no_swap(ingredient: Ingredient) -> Impossible:
    """No spoon of curing salt takes the place of another spoon."""
    return Impossible(
        code="curing_salt_not_swapped",
        reason=f"{ingredient.name.capitalize()} takes the place of no other ingredient, by weight or by volume.",
        nearest="POST /v1/curing/dose says how much curing salt to weigh for the meat.",
    )


def no_volume(ingredient: Ingredient) -> Impossible:
    """There is no spoon or cup of it."""
    piece = ingredient.piece
    pieces = f" One {piece.unit} weighs {piece.low_g:g} to {piece.high_g:g} g: ask with kind pieces." if piece else ""
    return Impossible(
        code="no_volume_figure",
        reason=f"No spoon or cup of {ingredient.name} ({ingredient.form}) was published.",
        nearest=WEIGH_IT + pieces,
    )


def no_piece(ingredient: Ingredient) -> Impossible:
    """It does not come in pieces."""
    band_g = None if ingredient.kind == "curing_salt" else ingredient.teaspoon_band_g
    volume = f" A teaspoon weighs {band_g[0]:.4g} to {band_g[1]:.4g} g: ask with kind volume." if band_g else ""
    return Impossible(
        code="no_piece_figure",
        reason=f"No piece of {ingredient.name} ({ingredient.form}) was published.",
        nearest=WEIGH_IT + volume,
    )
