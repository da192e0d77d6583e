"""Curing salts, accelerators and stock powders by what their labels say, and the chemistry between them."""

from typing import Annotated, Literal, NamedTuple

from pydantic import Field

from service.quantities.models import IfStated, Request
from service.quantities.quantity import Mass

# Molar masses, g/mol, from the standard atomic weights (from memory).
SODIUM_NITRITE = 68.9953
POTASSIUM_NITRITE = 85.1038
NITRITE_ION = 46.0055
SODIUM_NITRATE = 84.9947
POTASSIUM_NITRATE = 101.1032
NITRATE_ION = 62.0049

SATURATED_BRINE_SALT_PERCENT = 26.395
"""Salt by weight in brine saturated at 60 degF, which is 100 degrees salometer (published salometer tables)."""

LabelPercent = Annotated[float, Field(ge=0.1, le=10)]
"""Percent by weight as the label prints it, 0.1 to 10: 6.25, not 0.0625."""


NitriteSalt = Literal["sodium_nitrite", "potassium_nitrite"]
NitrateSalt = Literal["sodium_nitrate", "potassium_nitrate"]


class Nitrite(Request):
    """The nitrite in a curing salt."""

    salt: NitriteSalt
    """Which nitrite the label names."""
    percent: LabelPercent
    """Percent by weight on the label. Above 6.25 it is dosed only with strength_on_label."""


class Nitrate(Request):
    """The nitrate in a curing salt."""

    salt: NitrateSalt
    """Which nitrate the label names (saltpetre is potassium nitrate)."""
    percent: LabelPercent
    """Percent by weight on the label."""


class Shares(NamedTuple):
    """What a curing salt consists of, by weight."""

    nitrite_fraction: float
    nitrate_fraction: float
    sugar_fraction: float
    salt_fraction: float
    """Sodium chloride: what the rest of the label leaves."""


class CuringSalt(Request):
    """A curing salt by the composition on its label. There is no default: salts that look alike differ twelvefold."""

    nitrite: Nitrite
    """Its nitrite."""
    nitrate: IfStated[Nitrate] = None
    """Its nitrate, when the label names any."""
    sugar_percent: float = Field(default=0, ge=0, le=40)
    """Sugar in it, percent by weight."""
    other_percent: float = Field(default=0, ge=0, le=40)
    """What is neither salt, sugar, nitrite nor nitrate (colour, anticaking agent), percent by weight."""
    strength_on_label: bool = False
    """You have read a nitrite strength above 6.25 percent on the label itself."""

    @property
    def nitrite_fraction(self) -> float:
        return self.nitrite.percent / 100

    @property
    def nitrate_fraction(self) -> float:
        return self.nitrate.percent / 100 if self.nitrate else 0.0

    @property
    def sugar_fraction(self) -> float:
        return self.sugar_percent / 100

    @property
    def salt_fraction(self) -> float:
        return self.shares.salt_fraction

    @property
    def shares(self) -> Shares:
        """All of them at once."""
        nitrate, sugar_fraction = self.nitrate, self.sugar_percent / 100
        nitrite_fraction, nitrate_fraction = self.nitrite.percent / 100, nitrate.percent / 100 if nitrate else 0.0
        salt_fraction = 1 - nitrite_fraction - nitrate_fraction - sugar_fraction - self.other_percent / 100
        return Shares(nitrite_fraction, nitrate_fraction, sugar_fraction, salt_fraction)


AcceleratorKind = Literal[
    "sodium_erythorbate", "sodium_erythorbate_monohydrate", "sodium_ascorbate", "erythorbic_acid", "ascorbic_acid"
]

MONOHYDRATE_PER_ANHYDROUS = 216.12 / 198.11
"""Sodium erythorbate monohydrate for the same weight without its water (molar masses, from memory)."""


def anhydrous_g(kind: AcceleratorKind, mass_g: float) -> float:
    r"""Accelerator without its water of crystallisation.

    .. math:: anhydrous = mass / (216.12 / 198.11) \text{ for the monohydrate, else } mass

    Parameters
    ----------
    kind : AcceleratorKind
        What is in the bag
    mass_g : float
        As weighed [g]

    Returns
    -------
    anhydrous_g : float
        The same without water [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    Only sodium erythorbate is usually sold with water of crystallisation.

    Examples
    --------
    >>> round(anhydrous_g("sodium_erythorbate_monohydrate", 600.0))
    550

    References
    ----------
    9 CFR 424.22(b)(1) (read): 550 ppm of sodium erythorbate, molecular weight about 198. Molar masses from memory.
    """
    return mass_g / MONOHYDRATE_PER_ANHYDROUS if kind == "sodium_erythorbate_monohydrate" else mass_g


class Accelerator(Request):
    """A cure accelerator. Pumped bacon must have 550 ppm of the sodium salt of one of the two acids."""

    kind: AcceleratorKind
    """What is in the bag. Sodium erythorbate is usually the monohydrate, of which more is weighed. In a pickle use a
    sodium salt: the acids react with nitrite in solution."""
    ppm: float = Field(ge=50, le=2000)
    """Ingoing, as the anhydrous substance, in the same reading as the nitrite target."""

    @property
    def weighed_per_anhydrous_ratio(self) -> float:
        return MONOHYDRATE_PER_ANHYDROUS if self.kind == "sodium_erythorbate_monohydrate" else 1.0


class StockPowder(Request):
    """Stock powder, bouillon or another seasoning that is largely salt."""

    mass: Mass
    """How much goes in."""
    salt_percent: float = Field(ge=1, le=95)
    """Salt in it, percent by weight (from its label: sodium x 2.54)."""

    @property
    def salt_g(self) -> float:
        return self.mass.g * self.salt_percent / 100


NITRITE_EXPRESSIONS: dict[str, dict[str, float]] = {
    "sodium_nitrite": {
        "sodium_nitrite": 1.0,
        "nitrite_salt_by_weight": 1.0,
        "nitrite_ion": NITRITE_ION / SODIUM_NITRITE,
    },
    "potassium_nitrite": {
        "potassium_nitrite": 1.0,
        "nitrite_salt_by_weight": 1.0,
        "sodium_nitrite": SODIUM_NITRITE / POTASSIUM_NITRITE,
        "nitrite_ion": NITRITE_ION / POTASSIUM_NITRITE,
    },
}
"""What a gram of the label's nitrite is, in each way that rules write nitrite."""

NITRATE_EXPRESSIONS: dict[str, dict[str, float]] = {
    "sodium_nitrate": {
        "sodium_nitrate": 1.0,
        "nitrate_salt_by_weight": 1.0,
        "nitrate_ion": NITRATE_ION / SODIUM_NITRATE,
    },
    "potassium_nitrate": {
        "nitrate_salt_by_weight": 1.0,
        "sodium_nitrate": SODIUM_NITRATE / POTASSIUM_NITRATE,
        "nitrate_ion": NITRATE_ION / POTASSIUM_NITRATE,
    },
}
