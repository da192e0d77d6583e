"""What is fixed, what is wanted, and how much of everything that comes to."""

from typing import NamedTuple

from service.calculations.curing.methods import Bath
from service.calculations.curing.salts import Accelerator, CuringSalt, Shares
from service.quantities.units import MassUnit


class Wanted(NamedTuple):
    """What is to be reached. One of target_ppm and curing_salt_percent is set."""

    target_ppm: float | None
    curing_salt_percent: float | None
    salt_percent: float | None
    sugar_percent: float | None
    accelerator: Accelerator | None

    @property
    def accelerator_fraction(self) -> float:
        """Accelerator as weighed, per green weight."""
        accelerator = self.accelerator
        return accelerator.ppm * accelerator.weighed_per_anhydrous_ratio / 1e6 if accelerator else 0.0


class Recipe(NamedTuple):
    """What is fixed before anything is worked out."""

    meat_g: float
    green_g: float
    bath: Bath | None
    comminuted: bool
    weighed_skin: bool
    water_by_volume: bool
    water_g: float
    stock_powder_g: float
    stock_salt_g: float
    dissolved_g: float
    other_g: float
    cure: CuringSalt
    shares: Shares
    """What the curing salt consists of."""
    wanted: Wanted

    @property
    def unrounded_g(self) -> float:
        """What goes into a pickle as it was stated."""
        return self.water_g + self.stock_powder_g + self.dissolved_g

    def salt_inside_g(self, curing_salt_g: float) -> float:
        """Salt that curing salt and stock powder bring."""
        return curing_salt_g * self.shares.salt_fraction + self.stock_salt_g

    def sugar_inside_g(self, curing_salt_g: float) -> float:
        """Sugar that the curing salt brings."""
        return curing_salt_g * self.shares.sugar_fraction


class Amounts(NamedTuple):
    """Everything that goes in, and the weight the law reckons on."""

    meat_g: float
    green_g: float
    water_g: float
    stock_powder_g: float
    dissolved_g: float
    other_g: float
    """Solids: they lie in the pickle or on the meat, and dilute nothing."""
    curing_salt_g: float
    salt_g: float
    sugar_g: float
    accelerator_g: float

    @property
    def pickle_g(self) -> float:
        """Everything but the meat and the solids. In a dry cure there is no water in it."""
        return (
            self.water_g + self.stock_powder_g + self.dissolved_g
            + self.curing_salt_g + self.salt_g + self.sugar_g + self.accelerator_g
        )  # fmt: skip

    @property
    def rounded_g(self) -> tuple[float, float, float, float]:
        """What is rounded to the scale."""
        return self[6:]

    def on_scale(self, *, curing_salt_g: float, salt_g: float, sugar_g: float, accelerator_g: float) -> "Amounts":
        """The same with other readings of the scale."""
        return Amounts(*self[:6], curing_salt_g, salt_g, sugar_g, accelerator_g)


class Display(NamedTuple):
    """What the scale shows, in its own unit."""

    curing_salt: float
    salt: float
    sugar: float
    accelerator: float
    unit: MassUnit
