"""One ingredient in the place of another: by weight, and what goes wrong by volume."""

from service.calculations.measures.naming import ingredient_named
from service.calculations.measures.refusing import no_swap
from service.calculations.measures.sodium import salt_in
from service.calculations.measures.spoons import Grams, grams_of
from service.quantities.bands import VolumeBand, WeightBand, present_band, rounded, rounded_down, rounded_up
from service.quantities.models import Answer
from service.quantities.quantity import Units, Volume
from service.rules.book import RuleBook
from service.rules.ingredient import Ingredient


class ErrorBand(Answer):
    """How far a swap by volume is off, in percent of the first ingredient; below zero there is too little."""

    low_percent: float
    """The lightest of the other against the heaviest of the first."""
    typical_percent: float
    """Typical against typical."""
    high_percent: float
    """The heaviest of the other against the lightest of the first."""


class Swap(Answer):
    """Another ingredient in the place of the first."""

    ingredient: str
    """Id of the other ingredient."""
    name: str
    """What it is, in words."""
    same_weight: VolumeBand
    """Which volume of the other weighs what the volume of the first does. Weigh it: the band is why."""
    same_volume: WeightBand
    """What the same volume of the other weighs."""
    same_volume_salt_equivalent: WeightBand | None
    """Salt with the same sodium in that volume of the other; null where no sodium of it is known."""
    error: ErrorBand
    """How far off the same volume of the other is, by its whole weight."""


def swap_of(swap_for: str, volume: Volume, first: Grams, units: Units, book: RuleBook) -> tuple[Ingredient, Swap]:
    """The other ingredient and how it swaps for the first. Raises Impossible."""
    other = ingredient_named(book, swap_for)
    if other.kind == "curing_salt":
        raise no_swap(other)
    swapped = grams_of(other, volume)
    return other, Swap.of(
        ingredient=other.id,
        name=other.name,
        same_weight=_same_weight(volume, first, swapped),
        same_volume=present_band(swapped.low_g, typical_g=swapped.typical_g, high_g=swapped.high_g, units=units),
        same_volume_salt_equivalent=salt_in(other, swapped, units),
        error=ErrorBand.of(
            low_percent=rounded_down(100 * (swapped.low_g / first.high_g - 1)),
            typical_percent=rounded(100 * (swapped.typical_g / first.typical_g - 1)),
            high_percent=rounded_up(100 * (swapped.high_g / first.low_g - 1)),
        ),
    )


def _same_weight(volume: Volume, first: Grams, swapped: Grams) -> VolumeBand:
    return VolumeBand.of(
        low=rounded_down(volume.value * first.low_g / swapped.high_g),
        typical=rounded(volume.value * first.typical_g / swapped.typical_g),
        high=rounded_up(volume.value * first.high_g / swapped.low_g),
        unit=volume.unit,
    )
