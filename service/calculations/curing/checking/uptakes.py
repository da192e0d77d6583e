"""How a pickle may have got into the meat: one way where the recipe says so, several where it does not."""

from dataclasses import dataclass

from service.calculations.curing.checking.as_written import (
    LEAST_UPTAKE_PERCENT,
    MOST_UPTAKE_PERCENT,
    WrittenImmersion,
    WrittenMethod,
    WrittenPump,
)
from service.calculations.curing.methods import Bath, Comminuted, Dry, Equilibrium, PickUp
from service.calculations.curing.taking_up import stayed_of
from service.calculations.refusals import Impossible
from service.quantities.quantity import Water


@dataclass(frozen=True, slots=True)
class Uptake:
    """Every way in which the pickle may be reckoned. None stands for a cure without a pickle."""

    baths: tuple[Bath | None, ...]
    basis_named: bool
    """Whether the recipe says how the piece is taken out of the pickle; true where there is no such question."""
    why_no_stay: str = ""
    """Why a stay that is stated is not credited."""

    @property
    def stays(self) -> bool:
        """Whether it is stated, and believed, when the piece comes out."""
        return self.known and all(bath is not None and bath.stayed is not None for bath in self.baths)

    @property
    def known(self) -> bool:
        """Whether anything can be worked out."""
        return bool(self.baths)

    @property
    def only_equilibrium(self) -> bool:
        """Whether the limit on green weight is held against meat and pickle together."""
        return (
            self.known and self.basis_named and all(bath is not None and bath.only_equilibrium for bath in self.baths)
        )


NOT_KNOWN = Uptake((), basis_named=True)


def uptake_of(method: WrittenMethod, *, meat_g: float, green_g: float, cure_d: float | None = None) -> Uptake:
    """The ways of reckoning that a method as written leaves open. cure_d: days in the cure, where they are stated.

    A pump or pick-up under four percent is not credited: the piece was weighed wrongly, or hardly took anything.
    """
    if isinstance(method, Dry | Comminuted):
        return Uptake((None,), basis_named=True)
    pump_percent = 0.0 if isinstance(method, WrittenImmersion) else method.pump_percent
    if method.water is None:
        return NOT_KNOWN
    if pump_percent is None or 0 < pump_percent < LEAST_UPTAKE_PERCENT:
        return _any_pump(method, meat_g=meat_g, green_g=green_g)
    basis = None if isinstance(method, WrittenPump) else basis_of(method)
    injected_g = pump_percent / 100 * meat_g

    def bath(pick_up_percent: float, *, equilibrium: bool, immersed: bool = True) -> Bath:
        pick_up_fraction = pick_up_percent / 100 * meat_g / green_g
        return Bath(green_g, injected_g, pick_up_fraction, equilibrium, immersed)

    if isinstance(method, WrittenPump):
        return Uptake((bath(0.0, equilibrium=False, immersed=False),), basis_named=True)
    if isinstance(basis, Equilibrium):
        return Uptake((bath(0.0, equilibrium=True),), basis_named=True)
    if isinstance(basis, PickUp) and basis.percent >= LEAST_UPTAKE_PERCENT:
        return _taken_out(bath(basis.percent, equilibrium=False), basis, method.water, cure_d=cure_d, meat_g=meat_g)
    assumed = (bath(percent, equilibrium=False) for percent in (LEAST_UPTAKE_PERCENT, MOST_UPTAKE_PERCENT))
    return Uptake((bath(0.0, equilibrium=True), *assumed), basis_named=False)


def _taken_out(bath: Bath, basis: PickUp, water: Water, *, cure_d: float | None, meat_g: float) -> Uptake:
    """A pick-up. A stay that the model is not for is not credited: a check refuses nothing."""
    if basis.stay is None:
        return Uptake((bath,), basis_named=True)
    try:
        stayed = stayed_of(basis.stay, meat_g=meat_g, water_g=water.g, injected_g=bath.injected_g, longest_d=cure_d)
    except Impossible as refusal:
        return Uptake((bath,), basis_named=True, why_no_stay=refusal.reason)
    return Uptake((bath._replace(stayed=stayed),), basis_named=True)


def _any_pump(method: WrittenMethod, *, meat_g: float, green_g: float) -> Uptake:
    """A pump that is not stated, or not credited: anything from the least to the most, and never enough for a pass.

    At its most, what the piece may take up from a cover comes on top; a vessel caps it at what there is.
    """
    immersed = not isinstance(method, WrittenPump)
    least_g, most_g = LEAST_UPTAKE_PERCENT / 100 * meat_g, MOST_UPTAKE_PERCENT / 100 * meat_g
    from_cover = most_g / green_g if immersed else 0.0
    least = Bath(green_g, least_g, 0.0, equilibrium=False, immersed=immersed)
    return Uptake((least, Bath(green_g, most_g, from_cover, equilibrium=False, immersed=immersed)), basis_named=False)


SHORTEST_EQUILIBRIUM_D = 2.0
"""Days under which no piece comes to one with its pickle (own bound; a piece of any thickness takes longer)."""


def is_too_short(uptake: Uptake, cure_d: float | None) -> bool:
    """Whether equilibrium is claimed of a piece that lay in its pickle for hours."""
    claimed = uptake.basis_named and any(bath is not None and bath.equilibrium for bath in uptake.baths)
    return claimed and cure_d is not None and cure_d < SHORTEST_EQUILIBRIUM_D


def uptakes_of(method: WrittenMethod) -> tuple[float, ...]:
    """Every pump and pick-up that is stated, in percent."""
    pump_percent = getattr(method, "pump_percent", None)
    basis = basis_of(method)
    stated = (pump_percent, basis.percent if isinstance(basis, PickUp) else None)
    return tuple(percent for percent in stated if percent is not None)


def basis_of(method: WrittenMethod) -> Equilibrium | PickUp | None:
    """How the piece is taken out of the pickle, where there is one and the recipe says so."""
    if isinstance(method, Dry | Comminuted | WrittenPump):
        return None
    return method.basis if isinstance(method, WrittenImmersion) else method.cover
