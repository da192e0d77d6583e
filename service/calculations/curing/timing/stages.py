"""What surrounds the meat, stage after stage."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.brining.density import brine_density_kg_per_m3
from service.calculations.curing.brining.freezing import EUTECTIC_FRACTION, freezing_point_c
from service.calculations.curing.methods import TakenUpPercent
from service.calculations.curing.salts import SATURATED_BRINE_SALT_PERCENT
from service.calculations.refusals import Impossible
from service.quantities.models import Request
from service.quantities.quantity import Duration, Length, Measure, Temperature

COLDEST_C, WARMEST_C = -1.0, 5.0
"""Days are told for these temperatures alone: below, meat freezes and salt stands still; above, things grow."""

USUAL_COLD = "2 to 4 degC (36 to 40 degF)"

BrineSaltPercent = Annotated[float, Field(ge=0.5, le=SATURATED_BRINE_SALT_PERCENT)]
"""Percent by weight of the brine, up to saturation: 7, not 0.07."""


class StageBase(Request):
    """What every stage states."""

    temperature: Temperature
    """Of the meat, from -1 to 5 degC: read in the cabinet with a thermometer."""


class DryStage(StageBase):
    """A weighed cure is rubbed on and all of it stays on, in a bag or on a tray."""

    kind: Literal["dry"]
    """The kind of stage."""
    salt_percent: float = Field(ge=0.3, le=10)
    """All salt that is laid on in this stage, that in curing salt included: percent of the meat as weighed."""


class BrineStage(StageBase):
    """The meat lies in a weighed brine. An earlier brine is poured off first."""

    kind: Literal["brine"]
    """The kind of stage."""
    amount: Measure
    """The whole brine, its salt counted, that lies around all the meat: by weight, or by volume at this temperature."""
    salt_percent: BrineSaltPercent
    """Salt by weight of the brine when the meat goes in."""

    @property
    def brine_g(self) -> float:
        """Grams of the brine; a volume by its density."""
        if not self.amount.is_volume:
            return self.amount.g
        fraction = self.salt_percent / 100
        return self.amount.ml * brine_density_kg_per_m3(fraction, temperature_c=max(self.temperature.c, 0.0)) / 1000


class EndlessBrineStage(StageBase):
    """The meat lies in so much brine, or in one so often refreshed, that its strength does not fall."""

    kind: Literal["endless_brine"]
    """The kind of stage."""
    salt_percent: BrineSaltPercent
    """Salt by weight of the brine."""


class RestStage(StageBase):
    """Nothing is added or taken: bagged, wrapped or hung, while salt evens out inside."""

    kind: Literal["rest"]
    """The kind of stage."""


Stage = Annotated[DryStage | BrineStage | EndlessBrineStage | RestStage, Field(discriminator="kind")]


class EarlierStage(Request):
    """A stage with an end of its own."""

    stage: Stage
    """What surrounds the meat."""
    lasts: Duration
    """How long, up to 400 days."""


DEFAULT_NEEDLES = Length(value=25, unit="mm")


class Injection(Request):
    """Brine pumped in before the first stage."""

    pump_percent: TakenUpPercent
    """Brine that stays in, percent of the piece as weighed."""
    salt_percent: BrineSaltPercent
    """Salt by weight of the pumped brine."""
    needle_spacing: Length = DEFAULT_NEEDLES
    """Between two stitches, 15 to 100 mm; left out, 25 mm (common practice, no source)."""


REASONS = {
    "too_warm": "Warmer than the cold in which days and hours are told.",
    "too_cold": "So cold that meat, brine or water freezes and salt stands still.",
    "stage_too_long": "A stage lasts longer than anything is cured.",
    "needles_out_of_range": "Stitches so close or so wide are no grid.",
}


def require_cold_c(stated_c: float, *, coldest_c: float = COLDEST_C) -> None:
    """Raises Impossible outside of the cold."""
    if not stated_c >= COLDEST_C:
        raise Impossible(
            code="too_cold",
            reason=f"At {stated_c:.4g} degC meat freezes, and salt stands still in it.",
            nearest=f"Keep it from {coldest_c:g} to {WARMEST_C:g} degC; {USUAL_COLD} is usual.",
        )
    if not stated_c <= WARMEST_C:
        raise Impossible(
            code="too_warm",
            reason=f"At {stated_c:.4g} degC salt moves faster, and so does everything that spoils meat.",
            nearest=f"Keep it from {coldest_c:g} to {WARMEST_C:g} degC; {USUAL_COLD} is usual.",
        )


def require_liquid(stage: Stage) -> None:
    """Raises Impossible for a brine that would freeze."""
    if stage.kind not in ("brine", "endless_brine"):
        return
    freezes_c = freezing_point_c(min(stage.salt_percent / 100, EUTECTIC_FRACTION))
    if not stage.temperature.c > freezes_c:
        raise Impossible(
            code="too_cold",
            reason=f"A brine of {stage.salt_percent:.4g} percent freezes at {freezes_c:.2f} degC.",
            nearest=f"Cure above that; {USUAL_COLD} is usual.",
        )
