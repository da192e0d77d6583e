"""From a scale, an instrument or a measure to the salt by weight and to grams."""

from service.calculations.curing.brining.baume import gravity_of_baume_ratio
from service.calculations.curing.brining.density import SATURATED_FRACTION, SIXTY_F_C, TWENTY_C, brine_density_kg_per_m3
from service.calculations.curing.brining.dissolving import most_dissolved_fraction
from service.calculations.curing.brining.instruments import (
    READ_PERCENT,
    BaumeReading,
    GradedAt,
    GravityReading,
    Hydrometer,
    SalometerReading,
)
from service.calculations.curing.brining.refusing import (
    WARMEST_C,
    no_salt,
    over_saturation,
    require_liquid,
    require_temperature,
)
from service.calculations.curing.brining.root import Number
from service.calculations.curing.brining.salt_content import salt_of_density_fraction, salt_of_grams_per_litre_fraction
from service.calculations.curing.brining.strengths import Baume, Salometer, SpecificGravity, Strength
from service.quantities.quantity import Measure, Temperature

GRADED_AT_C: dict[GradedAt, Number] = {"60_degF": SIXTY_F_C, "38_degF": (38 - 32) / 1.8, "20_degC": TWENTY_C}
CANNERS_FULL_SCALE = 0.25
"""Salt by weight at 100 degrees of an instrument for canners (The Salometer and How to Use It, a trade leaflet)."""
LEAST_FRACTION = 0.0005
"""Less salt than this no hydrometer of the trade tells from none (own bound)."""
WHAT_IT_SHOWS = "What the instrument shows"
COLD_ROOM_C = 4.0
"""What figures are for where no temperature is stated."""
DISSOLVED = 1 + 1e-9


def grams_of(amount: Measure, salt_fraction: float, *, temperature_c: float) -> Number:
    """What a measure of brine weighs."""
    if not amount.is_volume:
        return amount.g
    return amount.ml * brine_density_kg_per_m3(salt_fraction, temperature_c=temperature_c) / 1000


def temperature_of(stated: Temperature | None) -> Number:
    """What is stated, or that of a cold room."""
    return COLD_ROOM_C if stated is None else stated.c + 0.0


def fraction_of(strength: Strength, what: str) -> Number:
    """Salt by weight of a strength on any scale. Raises Impossible."""
    if isinstance(strength, SpecificGravity | Baume):
        ratio = strength.ratio if isinstance(strength, SpecificGravity) else gravity_of_baume_ratio(strength.deg)
        return _checked(_floating(_water(SIXTY_F_C) * ratio, strength.read_at.c, what), strength.read_at.c, what)
    if strength.kind == "percent_by_weight":
        return min(strength.salt_percent / 100, SATURATED_FRACTION)
    if isinstance(strength, Salometer):
        return strength.deg / 100 * SATURATED_FRACTION
    measured_c = TWENTY_C if strength.measured_at is None else strength.measured_at.c
    require_temperature(measured_c, hottest_c=WARMEST_C, what="The brine", is_read=True)
    salt = salt_of_grams_per_litre_fraction(strength.salt_g_per_l, temperature_c=measured_c)
    return _checked(salt, measured_c, what)


def fraction_read(hydrometer: Hydrometer, temperature_c: float) -> Number:
    """Salt by weight of the brine in which an instrument shows this, which may be a little more than dissolves.

    Raises Impossible where it is more by more than a reading may be off.
    """
    salt = _floating(_density_on_stem(hydrometer), temperature_c, WHAT_IT_SHOWS, or_state=False)
    most = most_dissolved_fraction(temperature_c)
    if salt is None or salt > most + READ_PERCENT / 100:
        raise over_saturation(temperature_c, WHAT_IT_SHOWS, margin_percent=READ_PERCENT, or_state=False)
    require_liquid(min(salt, most), temperature_c=temperature_c, is_read=True)
    return salt


def fraction_on_stem(hydrometer: Hydrometer) -> Number:
    """Salt by weight as the marks have it, for a brine at the temperature of the stem. Raises Impossible."""
    if isinstance(hydrometer, SalometerReading):
        return (
            hydrometer.deg / 100 * (SATURATED_FRACTION if hydrometer.full_scale == "saturated" else CANNERS_FULL_SCALE)
        )
    graded_c = SIXTY_F_C if isinstance(hydrometer, BaumeReading) else GRADED_AT_C[hydrometer.graded_at]
    salt = salt_of_density_fraction(_density_on_stem(hydrometer), temperature_c=graded_c)
    if salt is None:
        raise over_saturation(graded_c, WHAT_IT_SHOWS, margin_percent=READ_PERCENT, or_state=False)
    return salt


def _density_on_stem(hydrometer: Hydrometer) -> Number:
    """The density, kg/m3, in which an instrument sinks to this mark, whatever it floats in."""
    if isinstance(hydrometer, BaumeReading):
        return _water(SIXTY_F_C) * gravity_of_baume_ratio(hydrometer.deg)
    graded_c = GRADED_AT_C[hydrometer.graded_at]
    if isinstance(hydrometer, GravityReading):
        return _water(graded_c) * hydrometer.ratio
    return brine_density_kg_per_m3(fraction_on_stem(hydrometer), temperature_c=graded_c)


def _water(temperature_c: float) -> Number:
    return brine_density_kg_per_m3(0.0, temperature_c=temperature_c)


def _floating(density_kg_per_m3: float, temperature_c: Number, what: str, *, or_state: bool = True) -> Number | None:
    require_temperature(temperature_c, hottest_c=WARMEST_C, what="The brine", is_read=True)
    if density_kg_per_m3 < brine_density_kg_per_m3(LEAST_FRACTION, temperature_c=temperature_c):
        raise no_salt(temperature_c, what, or_state=or_state)
    return salt_of_density_fraction(density_kg_per_m3, temperature_c=temperature_c)


def _checked(salt_fraction: float | None, temperature_c: Number, what: str) -> Number:
    if salt_fraction is None or salt_fraction > SATURATED_FRACTION * DISSOLVED:
        raise over_saturation(temperature_c, what, or_state=True)
    require_liquid(salt_fraction, temperature_c=temperature_c, is_read=True)
    return min(salt_fraction, SATURATED_FRACTION)
