"""The weights that an ingoing amount may be divided by."""

from typing import NamedTuple

from service.calculations.curing.amounts import Amounts
from service.calculations.curing.ingoing import (
    ingoing_after_stay_ppm,
    ingoing_at_equilibrium_ppm,
    ingoing_from_pickle_ppm,
    ingoing_ppm,
    ingoing_within_stay_ppm,
)
from service.calculations.curing.methods import Bath
from service.calculations.curing.staying import Stayed


class Bases(NamedTuple):
    """Parts per million of one gram of additive, for each basis. None where the method does not have the basis."""

    green_ppm: float
    skin_on_ppm: float
    batch_g: float
    """The weight under batch_ppm."""
    batch_ppm: float
    system_ppm: float | None
    pickle_ppm: float | None
    least_batch_ppm: float
    """On everything that goes in; batch_ppm does not credit a dry cure with what only lies on the meat."""
    highest_ppm: float
    """The highest reading of what is in the meat."""
    pickle_g: float
    """All but the meat and the solids; in a dry cure what is rubbed on."""
    uptake_fraction: float
    """What share of that the meat takes up, per green weight; 1 for a dry or comminuted cure."""
    after_stay_ppm: float | None = None
    """As much of system_ppm as can be in the piece when it comes out; None where no stay is stated."""
    within_stay_ppm: float | None = None
    """The most that it can have taken up by then, whatever pick-up is stated; None likewise."""

    def one_gram_ppm(self, basis: str, *, least: bool = False) -> float | None:
        """Parts per million of one gram on a basis by the name that rules give it; None for an unknown one.

        least: for a floor. A cover counted as a step of its own overstates what the vessel holds, and a pick-up may
        be stated too high, so a piece that lies in its pickle is credited with no more than the whole system has, and
        after a stated stay with no more than it can have taken up by then.
        """
        name = name_of_basis(basis, least=least)
        one_g_ppm: float | None = None if name is None else getattr(self, name)
        return self.at_most_system_ppm(one_g_ppm) if least else one_g_ppm

    def at_most_system_ppm(self, one_g_ppm: float | None) -> float | None:
        """No more than the whole system has, where there is one, or can have given by the end of a stay."""
        if one_g_ppm is None or self.system_ppm is None:
            return one_g_ppm
        return min(one_g_ppm, self.system_ppm if self.within_stay_ppm is None else self.within_stay_ppm)


BASIS_NAMES = {
    "green_weight": "green_ppm",
    "skin_free_green_weight": "green_ppm",
    "skin_on_green_weight": "skin_on_ppm",
    "whole_batch": "batch_ppm",
    "product_at_addition": "batch_ppm",
    "whole_system": "system_ppm",
    "whole_system_after_stay": "after_stay_ppm",
    "pickle": "pickle_ppm",
    "any_reading": "highest_ppm",
}


def name_of_basis(basis: str, *, least: bool = False) -> str | None:
    """The name in Bases of a basis by the name that rules give it."""
    name = BASIS_NAMES.get(basis)
    return "least_batch_ppm" if least and name == "batch_ppm" else name


def bases_of(amounts: Amounts, bath: Bath | None, *, comminuted: bool) -> Bases:
    """Every denominator at once, by the published formulas."""
    if bath is not None:
        return _in_pickle(bath, amounts)
    green_ppm = ingoing_ppm(additive_g=1, green_g=amounts.green_g)
    meat_ppm = ingoing_ppm(additive_g=1, green_g=amounts.meat_g)
    pickle_g = amounts.pickle_g
    everything_ppm = ingoing_ppm(additive_g=1, green_g=amounts.meat_g + pickle_g + amounts.other_g)
    return Bases(
        green_ppm=green_ppm,
        skin_on_ppm=meat_ppm,
        batch_g=1e6 / (everything_ppm if comminuted else meat_ppm),
        batch_ppm=everything_ppm if comminuted else meat_ppm,
        system_ppm=None,
        pickle_ppm=None,
        least_batch_ppm=everything_ppm,
        highest_ppm=green_ppm,
        pickle_g=pickle_g,
        uptake_fraction=1.0,
    )


def _in_pickle(bath: Bath, amounts: Amounts) -> Bases:
    meat_g, green_g, pickle_g = amounts.meat_g, amounts.green_g, amounts.pickle_g
    uptake = bath.uptake_fraction(pickle_g)
    green_ppm = ingoing_from_pickle_ppm(additive_g=1, pickle_g=pickle_g, uptake_fraction=uptake)
    system_ppm = ingoing_at_equilibrium_ppm(additive_g=1, green_g=green_g, pickle_g=pickle_g)
    taken_up_g = bath.taken_up_g
    batch_g = meat_g + (taken_up_g or pickle_g)
    batch_ppm = (green_ppm * green_g if taken_up_g else 1e6) / batch_g
    return Bases(
        green_ppm=green_ppm,
        skin_on_ppm=green_ppm * green_g / meat_g,
        batch_g=batch_g,
        batch_ppm=batch_ppm,
        system_ppm=system_ppm if bath.immersed else None,
        pickle_ppm=1e6 / pickle_g,
        least_batch_ppm=batch_ppm,
        highest_ppm=max(green_ppm, system_ppm) if bath.immersed else green_ppm,
        pickle_g=pickle_g,
        uptake_fraction=uptake,
        **(_after_stay(bath.stayed, bath, green_ppm=green_ppm, system_ppm=system_ppm) if bath.stayed else {}),
    )


def _after_stay(stayed: Stayed, bath: Bath, *, green_ppm: float, system_ppm: float) -> dict[str, float]:
    pumped_ppm, share = green_ppm * bath.injected_g / bath.taken_up_g, stayed.share_fraction
    return {
        "after_stay_ppm": ingoing_after_stay_ppm(
            pumped_ppm=pumped_ppm, taken_up_ppm=green_ppm, system_ppm=system_ppm, share_fraction=share
        ),
        "within_stay_ppm": min(
            system_ppm,
            ingoing_within_stay_ppm(pumped_ppm=pumped_ppm, system_ppm=system_ppm, share_fraction=share),
        ),
    }
