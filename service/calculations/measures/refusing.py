"""Why a kitchen measure has no weight, and what can be stated in its place."""

from service.calculations.near_ids import near_ids
from service.calculations.refusals import Impossible
from service.quantities.bands import rounded_down, rounded_up
from service.rules.book import RuleBook
from service.rules.cure_name import Cure
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
ASK_BY_LABEL = (
    "Weigh it. To see what a spoon may have been, ask with kind curing_salt_by_volume, its label and the meat."
)
NOT_SPOONED = "It is not an ingredient that is spooned: weigh it, and check the recipe with POST /v1/curing/check."
NO_SWAP = "It takes the place of no other ingredient."

BY_LABEL: tuple[Cure, ...] = ("curing_salt", "doubtful")
"""What is sold with a strength on its label."""

FORMS = frozenset(("dried", "ground", "powder", "seed", "whole"))
"""Words that say the form of many things: beside another word they make nothing near."""


def nearest_ids(book: RuleBook, words: str) -> tuple[str, ...]:
    """Ids of ingredients near these words."""
    return near_ids(book.ingredients, words, telling_little=FORMS)


def unknown_ingredient(book: RuleBook, id: str) -> Impossible:
    """No ingredient has this id."""
    near = nearest_ids(book, id)
    return Impossible(
        code="unknown_ingredient",
        reason=f"No ingredient has the id {id}.",
        nearest=(f"{', '.join(near)}. " if near else "") + "GET /v1/ingredients lists every one.",
    )


def no_spoon_of_cure(name: str, kind: Cure) -> Impossible:
    """This name reads like a curing salt, by its trade name or as the neat chemical: no id of an ingredient is near."""
    return Impossible(
        code="unknown_ingredient",
        reason=f"No ingredient has the id {name}, which reads like a curing salt, a nitrite or a nitrate.",
        nearest=f"{ASK_BY_LABEL} {NO_SWAP}" if kind in BY_LABEL else f"{NOT_SPOONED} {NO_SWAP}",
    )


def no_volume_of_kind(kind: IngredientKind) -> Impossible:
    """There is no spoon of any ingredient of a kind."""
    return Impossible(code="no_volume_figure", reason=f"No spoon of any {kind} was published.", nearest=WEIGH_IT)


def needs_label(ingredient: Ingredient) -> Impossible:
    """A spoon of curing salt is not weighed without its label."""
    return Impossible(
        code="curing_salt_needs_label",
        reason=f"A spoon of {ingredient.name} weighs too differently from another to name one weight.",
        nearest=ASK_BY_LABEL,
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
    pieces = f" One {piece.unit} weighs {piece.low_g:g} to {piece.high_g:g} g: ask with kind by_piece." if piece else ""
    return Impossible(
        code="no_volume_figure",
        reason=f"No spoon or cup of {ingredient.name} ({ingredient.form}) was published.",
        nearest=WEIGH_IT + pieces,
    )


def no_piece(ingredient: Ingredient) -> Impossible:
    """It does not come in pieces."""
    band_g = None if ingredient.kind == "curing_salt" else ingredient.teaspoon_band_g
    volume = ""
    if band_g:
        low_g, high_g = rounded_down(band_g[0]), rounded_up(band_g[1])
        volume = f" A teaspoon weighs {low_g:g} to {high_g:g} g: ask with kind by_volume."
    return Impossible(
        code="no_piece_figure",
        reason=f"No piece of {ingredient.name} ({ingredient.form}) was published.",
        nearest=WEIGH_IT + volume,
    )
