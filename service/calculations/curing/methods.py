"""How the cure gets in, and what share of a pickle ends in the meat."""

from typing import Annotated, Literal, NamedTuple

from pydantic import Field

from service.calculations.curing.staying import Stay, Stayed
from service.quantities.models import IfStated, Request
from service.quantities.quantity import Water

TakenUpPercent = Annotated[float, Field(ge=4, le=60)]
"""Percent of the piece as weighed, 4 to 60: a percentage, not a fraction."""


class Equilibrium(Request):
    """The piece stays in until meat and pickle are one system: nitrite over meat plus pickle."""

    kind: Literal["equilibrium"]
    """The basis."""


class PickUp(Request):
    """The piece takes up a stated weight of pickle and is taken out: nitrite as if that much were pumped."""

    kind: Literal["pick_up"]
    """The basis."""
    percent: TakenUpPercent
    """Pickle taken up while lying in it, percent of the raw piece before anything was done to it, weighed drained."""
    stay: IfStated[Stay] = None
    """How long it lies in, of what shape and how cold. Left out, the guard holds meat and pickle as if it stayed for
    ever; stated, what the piece can have taken up by then, and it must come out when the stay ends."""


ImmersionBasis = Annotated[Equilibrium | PickUp, Field(discriminator="kind")]


class Dry(Request):
    """Everything is rubbed on and stays on, reapplications included."""

    kind: Literal["dry"]
    """The method."""


class Comminuted(Request):
    """Everything is mixed into chopped or ground meat."""

    kind: Literal["comminuted"]
    """The method."""
    water: IfStated[Water] = None
    """Water mixed in, ice by weight. It dilutes only where the law reckons on the whole batch."""


class Immersion(Request):
    """The piece lies in a pickle."""

    kind: Literal["immersion"]
    """The method."""
    water: Water
    """Water of the pickle. State other liquids here too, and ice by weight."""
    basis: ImmersionBasis
    """The reading that decides. The whole system is always worked out as well, and both must keep the limit; where a
    pick-up states a stay, as much of the whole system as can be in the piece when it comes out."""


class Injected(Request):
    """Pickle is pumped, stitched or massaged in; what is not pumped is thrown away."""

    kind: Literal["injected"]
    """The method."""
    pump_percent: TakenUpPercent
    """Pickle that stays in, percent of the piece as weighed: (pumped - raw) / raw x 100."""
    water: Water
    """Water of the pickle that you make. State other liquids here too, and ice by weight."""


class InjectedThenCovered(Request):
    """Pumped first, then covered with the rest of the same pickle. Both steps count."""

    kind: Literal["injected_then_covered"]
    """The method."""
    pump_percent: TakenUpPercent
    """Pickle that stays in, percent of the piece as weighed."""
    water: Water
    """Water of all the pickle that you make. State other liquids here too, and ice by weight."""
    cover: ImmersionBasis
    """How the second step is reckoned."""


Method = Annotated[
    Dry | Comminuted | Immersion | Injected | InjectedThenCovered,
    Field(discriminator="kind"),
]


class Bath(NamedTuple):
    """A pickle and the ways in which what is dissolved in it gets into the meat.

    green_g is the weight the law reckons on; fractions are of pickle taken up, per green weight.
    """

    green_g: float
    injected_g: float
    pick_up_fraction: float
    equilibrium: bool
    immersed: bool
    stayed: Stayed | None = None
    """Where it is stated when the piece comes out."""

    @property
    def taken_up_g(self) -> float:
        """Pickle that is stated to stay in the piece."""
        return self.taken_up_fraction * self.green_g

    @property
    def taken_up_fraction(self) -> float:
        return self.injected_g / self.green_g + self.pick_up_fraction

    @property
    def only_equilibrium(self) -> bool:
        return self.equilibrium and self.injected_g == 0

    def uptake_fraction(self, pickle_g: float) -> float:
        """What share of the pickle's strength the meat ends with, all steps added.

        uptake = pump + pick-up [+ cover / (green + cover) when the rest stands to equilibrium]
        """
        taken_up = self.injected_g / self.green_g + self.pick_up_fraction  # the property's sum, asked for very often
        if not self.equilibrium:
            return taken_up
        cover_g = pickle_g - self.injected_g
        return taken_up + cover_g / (self.green_g + cover_g)

    def uptake_fraction_per_g(self, pickle_g: float) -> float:
        """How uptake_fraction grows per gram of pickle."""
        return self.green_g / (self.green_g + pickle_g - self.injected_g) ** 2 if self.equilibrium else 0.0


class Way(NamedTuple):
    """A method in words of closed lists."""

    method: str
    basis: str | None
    """How an immersion, or the cover after a pump, is reckoned."""
    stays: bool = False
    """Whether it is stated when the piece comes out."""

    @property
    def in_pickle(self) -> bool:
        return self.method not in ("dry", "comminuted")

    @property
    def pumped(self) -> bool:
        return self.method in ("injected", "injected_then_covered")

    @property
    def immersed(self) -> bool:
        return self.basis is not None

    @property
    def only_equilibrium(self) -> bool:
        return self.basis == "equilibrium" and not self.pumped


def way_of(method: Method) -> Way:
    """The words for a method."""
    if method.kind == "immersion" or method.kind == "injected_then_covered":
        basis = _lying(method)[1]
        return Way(method.kind, basis.kind, basis.kind == "pick_up" and basis.stay is not None)
    return Way(method.kind, None)


def stay_of(method: Method) -> Stay | None:
    """The stay in a pickle, where one is stated."""
    if method.kind != "immersion" and method.kind != "injected_then_covered":
        return None
    basis = _lying(method)[1]
    return basis.stay if basis.kind == "pick_up" else None


def bath_of(method: Method, *, green_g: float, meat_g: float) -> Bath | None:
    """The bath of a wet method; None for a dry or comminuted cure."""
    if method.kind == "dry" or method.kind == "comminuted":
        return None
    if method.kind == "injected":
        return Bath(green_g, method.pump_percent / 100 * meat_g, 0.0, equilibrium=False, immersed=False)
    pump_fraction, basis = _lying(method)
    return Bath(
        green_g=green_g,
        injected_g=pump_fraction * meat_g,
        pick_up_fraction=(basis.percent / 100 if basis.kind == "pick_up" else 0.0) * meat_g / green_g,
        equilibrium=basis.kind == "equilibrium",
        immersed=True,
    )


def _lying(method: Immersion | InjectedThenCovered) -> tuple[float, Equilibrium | PickUp]:
    """What was pumped before, per weight of the piece, and how the piece lies in its pickle."""
    return (0.0, method.basis) if method.kind == "immersion" else (method.pump_percent / 100, method.cover)
