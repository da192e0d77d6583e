"""The table of ingredients told to a reader: each with its bands, its sodium and every figure behind them."""

from service.calculations.measures.sodium import salt_equivalent_fraction
from service.calculations.measures.spoons import grams_of
from service.quantities.bands import WeightBand, present_band, rounded
from service.quantities.models import Answer
from service.quantities.quantity import Volume
from service.quantities.units import VolumeUnit
from service.rules.book import Engine, RuleBook
from service.rules.ingredient import Ingredient, IngredientKind, PieceUnit
from service.rules.vocabulary import Evidence


class PublishedReading(Answer):
    """What one source says of level US measures of an ingredient."""

    teaspoon_g: float | None
    """A teaspoon, in grams; null where the source has none."""
    tablespoon_g: float | None
    """A tablespoon, in grams; null where the source has none."""
    cup_g: float | None
    """A cup, in grams; null where the source has none."""
    lightest_teaspoon_g: float | None
    """The low side of the spread that the source prints; null where it prints none."""
    heaviest_teaspoon_g: float | None
    """The high side of that spread."""
    spread_of: str | None
    """What the spread is of; null where there is none."""
    source: str
    """Where the figures are printed."""
    evidence: Evidence
    """How they are known: read, reported, recalled from memory, or this project's own bound."""


class PublishedPiece(Answer):
    """What one clove, leaf or cube weighs."""

    unit: PieceUnit
    """What one of it is called."""
    weight: WeightBand
    """One of it, with its band."""
    source: str
    """Where the typical weight is printed."""
    evidence: Evidence
    """How it is known."""
    band_source: str
    """Where the band is printed, or that this project set it."""
    band_evidence: Evidence
    """How the band is known."""


class PublishedSodium(Answer):
    """The sodium in an ingredient."""

    percent: float
    """Sodium by weight."""
    salt_equivalent_percent: float
    """Salt with the same sodium, by weight."""
    source: str
    """Where the sodium is printed."""
    evidence: Evidence
    """How it is known."""


class IngredientEntry(Answer):
    """One ingredient in one form."""

    id: str
    """Stable id, for POST /v1/measures/weigh."""
    name: str
    """In words, never a brand."""
    form: str
    """The form that was weighed."""
    kind: IngredientKind
    """What it is in a recipe. seasoning carries salt or sodium of its own."""
    teaspoon: WeightBand | None
    """A level US teaspoon; null where no volume is known. Curing salt has no typical weight."""
    tablespoon: WeightBand | None
    """A level US tablespoon."""
    cup: WeightBand | None
    """A level US cup."""
    piece: PublishedPiece | None
    """One of it; null where it does not come in pieces."""
    sodium: PublishedSodium | None
    """Its sodium; null where none is known."""
    readings: tuple[PublishedReading, ...]
    """Every figure by volume. The first is taken as typical; the bands span all of them."""
    note: str
    """What else a kitchen should know; may be empty."""


class IngredientList(Answer):
    """The ingredients whose kitchen measures are known."""

    items: tuple[IngredientEntry, ...]
    """The ingredients, as they stand in the table."""
    engine: Engine
    """Which code and which data."""


def list_ingredients(book: RuleBook, kind: IngredientKind | None = None) -> IngredientList:
    """The ingredients of a kind, or all of them."""
    items = tuple(_entry(one) for one in book.ingredients.values() if kind in (None, one.kind))
    return IngredientList.of(items=items, engine=book.engine)


def _entry(ingredient: Ingredient) -> IngredientEntry:
    return IngredientEntry.of(
        id=ingredient.id,
        name=ingredient.name,
        form=ingredient.form,
        kind=ingredient.kind,
        teaspoon=_band(ingredient, "tsp", teaspoons=1),
        tablespoon=_band(ingredient, "tbsp", teaspoons=3),
        cup=_band(ingredient, "cup", teaspoons=48),
        piece=_piece(ingredient),
        sodium=_sodium(ingredient),
        readings=_readings(ingredient),
        note=ingredient.note,
    )


def _band(ingredient: Ingredient, unit: VolumeUnit, *, teaspoons: int) -> WeightBand | None:
    band_g = ingredient.teaspoon_band_g
    if band_g is None:
        return None
    if ingredient.kind == "curing_salt":
        low_g, high_g = band_g
        return present_band(teaspoons * low_g, typical_g=None, high_g=teaspoons * high_g, units="metric")
    weight = grams_of(ingredient, Volume(value=1, unit=unit))
    return present_band(weight.low_g, typical_g=weight.typical_g, high_g=weight.high_g, units="metric")


def _piece(ingredient: Ingredient) -> PublishedPiece | None:
    piece = ingredient.piece
    if piece is None:
        return None
    return PublishedPiece.of(
        unit=piece.unit,
        weight=present_band(piece.low_g, typical_g=piece.g, high_g=piece.high_g, units="metric"),
        source=piece.source,
        evidence=piece.evidence,
        band_source=piece.band_source,
        band_evidence=piece.band_evidence,
    )


def _sodium(ingredient: Ingredient) -> PublishedSodium | None:
    sodium = ingredient.sodium
    if sodium is None:
        return None
    return PublishedSodium.of(
        percent=rounded(100 * sodium.fraction),
        salt_equivalent_percent=rounded(100 * salt_equivalent_fraction(sodium.fraction)),
        source=sodium.source,
        evidence=sodium.evidence,
    )


def _readings(ingredient: Ingredient) -> tuple[PublishedReading, ...]:
    return tuple(
        PublishedReading.of(
            teaspoon_g=one.teaspoon_g,
            tablespoon_g=one.tablespoon_g,
            cup_g=one.cup_g,
            lightest_teaspoon_g=one.teaspoon_spread_g[0] if one.teaspoon_spread_g else None,
            heaviest_teaspoon_g=one.teaspoon_spread_g[1] if one.teaspoon_spread_g else None,
            spread_of=one.spread_of,
            source=one.source,
            evidence=one.evidence,
        )
        for one in ingredient.readings
    )
