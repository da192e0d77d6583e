"""POST /v1/measures/weigh: what a kitchen measure weighs."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.salts import CuringSalt
from service.calculations.declaration import Calculation
from service.calculations.measures.explaining import (
    curing_salt_lines,
    piece_lines,
    salt_lines,
    sources_of_curing_salt,
    sources_of_pieces,
    sources_of_volume,
    swap_lines,
    volume_lines,
)
from service.calculations.measures.ingoing import PpmBand, nitrate_band, nitrite_band
from service.calculations.measures.naming import ingredient_named
from service.calculations.measures.refusing import REASONS
from service.calculations.measures.sodium import salt_in
from service.calculations.measures.spoons import (
    Grams,
    band_of_curing_salt,
    grams_of,
    grams_of_pieces,
)
from service.calculations.measures.swapping import Swap, swap_of
from service.calculations.measures.warning import cautions_of_curing_salt, cautions_of_ingredients
from service.quantities.bands import WeightBand, present_band, rounded_up
from service.quantities.models import Answer, IfStated, Name, Request
from service.quantities.quantity import Mass, Units, Volume
from service.rules.book import Engine, RuleBook
from service.rules.ingredient import Ingredient
from service.rules.rule import Caution

Count = Annotated[float, Field(ge=0.01, le=100_000)]


class VolumeOf(Request):
    """A spoon, a cup or another level volume of an ingredient. Curing salt has a kind of its own."""

    kind: Literal["by_volume"]
    """The kind of measure."""
    ingredient: Name
    """Its id in GET /v1/ingredients; anything else is refused with the ids near it."""
    volume: Volume
    """How much, level."""
    swap_for: IfStated[Name] = None
    """Id of another ingredient that is to take its place. Curing salt takes no other's place."""


class PiecesOf(Request):
    """Cloves, leaves, sticks or cubes of an ingredient."""

    kind: Literal["by_piece"]
    """The kind of measure."""
    ingredient: Name
    """Its id in GET /v1/ingredients; anything else is refused with the ids near it."""
    count: Count
    """How many; half a stick is 0.5."""


class CuringSaltVolume(Request):
    """A volume of curing salt that went into meat: to see how far it may be off, never to dose by it."""

    kind: Literal["curing_salt_by_volume"]
    """The kind of measure."""
    volume: Volume
    """How much, level."""
    curing_salt: CuringSalt
    """The curing salt by its label."""
    meat: Mass
    """The raw meat that it is laid on or mixed into."""


class WeighRequest(Request):
    """A kitchen measure to be told as a weight."""

    what: Annotated[VolumeOf | PiecesOf | CuringSaltVolume, Field(discriminator="kind")]
    """What is measured, and how."""
    units: Units = "metric"
    """Units for weights in the answer; arithmetic is in grams."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the arithmetic and the list of sources."""


class WeighAnswer(Answer):
    """What the measure weighs, between which sides, and what else hangs on that."""

    ingredient: str | None
    """Id of the ingredient; null for a curing salt, which is known by its label."""
    name: str
    """What was weighed, in words."""
    weight: WeightBand
    """Its weight. For curing salt there is a band and no typical weight."""
    spread_percent: float
    """How much heavier the high side is than the low side."""
    salt_equivalent: WeightBand | None
    """Salt with the same sodium, or the salt in a curing salt by its label; null where no sodium is known."""
    swap: Swap | None
    """The other ingredient in its place; null where none was asked for."""
    ingoing_nitrite: PpmBand | None
    """What the curing salt comes to in the meat; null for anything else."""
    ingoing_nitrate: PpmBand | None
    """Likewise for the nitrate on its label; null where there is none."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you measure."""
    sources: tuple[str, ...]
    """Where the figures are printed and how that is known; empty in brief."""
    engine: Engine
    """What computed this."""


def weigh(request: WeighRequest, book: RuleBook) -> WeighAnswer:
    """What a spoon, a cup or a clove weighs, with the spread of every figure that was published for it.

    Ingredients are those of `GET /v1/ingredients`. The typical weight is the figure published for that very measure
    where there is one. The band spans every reading; low is rounded down and high is rounded up.
    `swap_for` shows what another ingredient does in its place, by weight and by volume. A swap is by
    whole weight, not by salt; the salt in the swapped volume is told beside it.

    **Curing salt is never dosed by volume.** Its answer has no typical weight: it says what a spoon may have weighed
    and what that comes to in the meat, so that you can see why to weigh it. `POST /v1/curing/dose` says what to
    weigh. Your local code and your inspector come before this answer.
    """
    what = request.what
    if isinstance(what, CuringSaltVolume):
        return _of_curing_salt(what, request, book)
    return _of_volume(what, request, book) if isinstance(what, VolumeOf) else _of_pieces(what, request, book)


def _of_volume(what: VolumeOf, request: WeighRequest, book: RuleBook) -> WeighAnswer:
    ingredient = ingredient_named(book, what.ingredient)
    weight = grams_of(ingredient, what.volume)
    other, swap = swap_of(what.swap_for, what.volume, weight, request.units, book) if what.swap_for else (None, None)
    weighed = (ingredient, other) if other else (ingredient,)
    steps = [*volume_lines(ingredient, what.volume, weight), *salt_lines(ingredient, weight)]
    if other:
        steps += swap_lines(ingredient, other, what.volume)
    sources = dict.fromkeys(source for one in weighed for source in sources_of_volume(one))
    cautions = cautions_of_ingredients(weighed, by_volume=True)
    return _answer(request, book, ingredient, weight, swap, tuple(steps), tuple(cautions), tuple(sources))


def _of_pieces(what: PiecesOf, request: WeighRequest, book: RuleBook) -> WeighAnswer:
    ingredient = ingredient_named(book, what.ingredient)
    weight = grams_of_pieces(ingredient, what.count)
    steps = (*piece_lines(ingredient, what.count, weight), *salt_lines(ingredient, weight))
    cautions = tuple(cautions_of_ingredients((ingredient,), by_volume=False))
    return _answer(request, book, ingredient, weight, None, steps, cautions, sources_of_pieces(ingredient))


def _answer(
    request: WeighRequest, book: RuleBook, ingredient: Ingredient, weight: Grams, swap: Swap | None,
    steps: tuple[str, ...], cautions: tuple[str, ...], sources: tuple[str, ...],
) -> WeighAnswer:  # fmt: skip
    full = request.detail == "full"
    return WeighAnswer.of(
        ingredient=ingredient.id,
        name=f"{ingredient.name} ({ingredient.form})",
        weight=_shown(weight, request.units),
        spread_percent=_spread_percent(weight.low_g, high_g=weight.high_g),
        salt_equivalent=salt_in(ingredient, weight, request.units),
        swap=swap,
        ingoing_nitrite=None,
        ingoing_nitrate=None,
        steps=steps if full else (),
        cautions=book.cautions_of(cautions),
        sources=sources if full else (),
        engine=book.engine,
    )


def _of_curing_salt(what: CuringSaltVolume, request: WeighRequest, book: RuleBook) -> WeighAnswer:
    label, full = what.curing_salt, request.detail == "full"
    spoon = band_of_curing_salt(book, label, what.volume)
    nitrite = nitrite_band(label, spoon, what.meat.g)
    share = label.salt_fraction
    return WeighAnswer.of(
        ingredient=None,
        name=f"curing salt, {label.nitrite.percent:g} percent {label.nitrite.salt.replace('_', ' ')}",
        weight=present_band(spoon.low_g, typical_g=None, high_g=spoon.high_g, units=request.units),
        spread_percent=_spread_percent(spoon.low_g, high_g=spoon.high_g),
        salt_equivalent=present_band(
            spoon.low_g * share, typical_g=None, high_g=spoon.high_g * share, units=request.units
        ),
        swap=None,
        ingoing_nitrite=nitrite,
        ingoing_nitrate=nitrate_band(label, spoon, what.meat.g),
        steps=tuple(curing_salt_lines(label, what.volume, spoon, what.meat.g)) if full else (),
        cautions=book.cautions_of(cautions_of_curing_salt(nitrite, book)),
        sources=sources_of_curing_salt() if full else (),
        engine=book.engine,
    )


def _shown(weight: Grams, units: Units) -> WeightBand:
    return present_band(weight.low_g, typical_g=weight.typical_g, high_g=weight.high_g, units=units)


def _spread_percent(low_g: float, *, high_g: float) -> float:
    return rounded_up(100 * (high_g / low_g - 1))


WEIGH = Calculation(
    name="measures/weigh",
    summary="Weigh a kitchen measure",
    request=WeighRequest,
    answer=WeighAnswer,
    run=weigh,
    reasons=REASONS,
)
