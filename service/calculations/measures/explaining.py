"""The arithmetic of a kitchen measure in words, and where its figures are printed."""

from collections.abc import Iterator

from service.calculations.curing.explaining import FORMULA_SOURCE
from service.calculations.curing.ingoing import ingoing_ppm
from service.calculations.curing.salts import CuringSalt
from service.calculations.measures.sodium import SODIUM, SODIUM_CHLORIDE, salt_equivalent_fraction
from service.calculations.measures.spoons import Band, Grams, Number, grams_of, teaspoons_in
from service.quantities.bands import rounded
from service.quantities.quantity import Volume
from service.rules.ingredient import Ingredient

PREMIX_SOURCE = "Table of the compositions of curing salts (rules/data/premixes.yaml)"


def volume_lines(ingredient: Ingredient, volume: Volume, weight: Grams) -> Iterator[str]:
    """From a volume to its weight and its band."""
    low_g, high_g = ingredient.teaspoon_band_g or (0.0, 0.0)
    teaspoons = teaspoons_in(volume)
    each = _n(weight.typical_g / volume.value)
    yield f"{_what(ingredient)}: {_n(volume.value)} {volume.unit} x {each} g = {_n(weight.typical_g)} g."
    yield (
        f"Band: {_n(teaspoons)} tsp x {_n(low_g)} g = {_n(teaspoons * low_g)} g, "
        f"to {_n(teaspoons)} tsp x {_n(high_g)} g = {_n(teaspoons * high_g)} g."
    )


def piece_lines(ingredient: Ingredient, count: Number, weight: Grams) -> Iterator[str]:
    """From a count to its weight and its band."""
    piece = ingredient.piece
    if piece is not None:
        yield (
            f"{_what(ingredient)}: {_n(count)} x {_n(piece.g)} g for a {piece.unit} = {_n(weight.typical_g)} g; "
            f"band {_n(count)} x {_n(piece.low_g)} g = {_n(weight.low_g)} g "
            f"to {_n(count)} x {_n(piece.high_g)} g = {_n(weight.high_g)} g."
        )


def salt_lines(ingredient: Ingredient, weight: Grams) -> Iterator[str]:
    """From sodium to salt."""
    if ingredient.sodium is not None:
        sodium = ingredient.sodium.fraction
        salt_g = weight.typical_g * sodium * SODIUM_CHLORIDE / SODIUM
        yield (
            f"Salt equivalent: {_n(weight.typical_g)} g x {_n(sodium, 6)} sodium x {SODIUM_CHLORIDE} / {SODIUM} "
            f"= {_n(salt_g)} g."
        )


def swap_lines(first: Ingredient, other: Ingredient, volume: Volume) -> Iterator[str]:
    """The other ingredient by the same volume, and what the swap does not count."""
    weight = grams_of(other, volume)
    yield from volume_lines(other, volume, weight)
    yield from salt_lines(other, weight)
    if _salt_percent(first) != _salt_percent(other) and not first.kind == other.kind == "salt":
        yield (
            f"The swap is by whole weight, not by salt: {first.name} is {_salty(first)}, {other.name} is "
            f"{_salty(other)}. The same weight does not salt the same."
        )


def _salt_percent(ingredient: Ingredient) -> float | None:
    sodium = ingredient.sodium
    return None if sodium is None else rounded(100 * salt_equivalent_fraction(sodium.fraction))


def _salty(ingredient: Ingredient) -> str:
    percent = _salt_percent(ingredient)
    return "of no known salt" if percent is None else f"{_n(percent)} percent salt by its sodium"


def curing_salt_lines(curing_salt: CuringSalt, volume: Volume, spoon: Band, meat_g: float) -> Iterator[str]:
    """From a spoon of curing salt to what may have gone into the meat."""
    teaspoons = teaspoons_in(volume)
    yield (
        f"Curing salt: {_n(teaspoons)} tsp x {_n(spoon.low_g / teaspoons)} g = {_n(spoon.low_g)} g, "
        f"to {_n(teaspoons)} tsp x {_n(spoon.high_g / teaspoons)} g = {_n(spoon.high_g)} g. "
        "No single weight is named: weigh it."
    )
    yield _ppm_line(curing_salt.nitrite.salt, curing_salt.nitrite_fraction, spoon, meat_g=meat_g)
    if curing_salt.nitrate is not None:
        yield _ppm_line(curing_salt.nitrate.salt, curing_salt.nitrate_fraction, spoon, meat_g=meat_g)


def _ppm_line(salt: str, share_fraction: float, spoon: Band, *, meat_g: float) -> str:
    low, high = (
        f"{_n(mass_g)} g x {_n(share_fraction, 6)} / {_n(meat_g)} g meat "
        f"= {_n(ingoing_ppm(additive_g=mass_g * share_fraction, green_g=meat_g))} ppm"
        for mass_g in (spoon.low_g, spoon.high_g)
    )
    return f"{salt.replace('_', ' ').capitalize()}, laid on or mixed in: {low}, to {high}."


def sources_of_volume(ingredient: Ingredient) -> tuple[str, ...]:
    """Every reading that the band spans, and the sodium."""
    sodium = (ingredient.sodium,) if ingredient.sodium else ()
    return tuple(dict.fromkeys(f"{one.source} ({one.evidence})" for one in (*ingredient.readings, *sodium)))


def sources_of_pieces(ingredient: Ingredient) -> tuple[str, ...]:
    """The weight of a piece, its band, and the sodium."""
    piece, sodium = ingredient.piece, ingredient.sodium
    cited = [(piece.source, piece.evidence), (piece.band_source, piece.band_evidence)] if piece else []
    cited += [(sodium.source, sodium.evidence)] if sodium else []
    return tuple(dict.fromkeys(f"{source} ({evidence})" for source, evidence in cited))


def sources_of_curing_salt() -> tuple[str, ...]:
    """The spoons, and the formula."""
    return (f"{PREMIX_SOURCE} (reported)", FORMULA_SOURCE)


def _what(ingredient: Ingredient) -> str:
    return f"{ingredient.name.capitalize()} ({ingredient.form})"


def _n(value: Number, decimals: int = 4) -> str:
    """As many digits as it takes to follow the sum by hand."""
    return f"{value:,.{decimals}f}".rstrip("0").rstrip(".") if abs(value) >= 1 else f"{value:.6g}"
