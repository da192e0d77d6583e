"""Units: exact factors, held to the published definitions, and nothing that pint's parser could be fed."""

import subprocess
import sys
from decimal import Decimal

import pytest

from service.quantities.units import BASE_UNITS, SI_FACTORS, SPELLINGS, factor, units

# NIST Handbook 44, appendix C (from memory): exact by the international yard and pound agreement of 1959 and the
# US gallon of 231 cubic inches. Metric: the SI brochure.
EXACT = {
    "lb": "453.59237", "oz": "28.349523125", "kg": "1000", "gal": "3785.411784", "qt": "946.352946", "pt": "473.176473",
    "cup": "236.5882365", "fl_oz": "29.5735295625", "tbsp": "14.78676478125", "tsp": "4.92892159375", "l": "1000",
    "in": "25.4", "ft": "304.8", "m": "1000", "cm": "10", "min": "60", "h": "3600", "d": "86400",
}  # fmt: skip


@pytest.mark.parametrize(("symbol", "exact"), EXACT.items())
def test_factors_are_exact(symbol: str, exact: str):
    """A pound is 453.59237 g and not a bit more or less."""
    assert units()[symbol].factor == Decimal(exact)
    assert factor(symbol) == float(exact)


def test_the_si_is_known_without_asking():
    """What is written down for the SI is what pint has."""
    by_pint = {symbol: float(units()[symbol].factor) for symbol in SI_FACTORS}

    assert by_pint == SI_FACTORS


def test_fahrenheit_has_an_offset():
    """Water freezes at 32 and boils at 212 degF (definition of the scale)."""
    fahrenheit = units()["degF"]

    assert float(32 * fahrenheit.factor + fahrenheit.offset) == pytest.approx(0, abs=1e-12)
    assert float(212 * fahrenheit.factor + fahrenheit.offset) == pytest.approx(100, abs=1e-12)


def test_every_unit_has_its_codes_once():
    """No two units share a symbol, a UCUM code or a Rec 20 code."""
    spellings = SPELLINGS.values()

    assert len({spelling.ucum for spelling in spellings}) == len(SPELLINGS)
    assert len({spelling.rec20 for spelling in spellings}) == len(SPELLINGS)
    assert {spelling.dimension for spelling in spellings} == set(BASE_UNITS)


def test_a_metric_kitchen_never_waits_for_pint():
    """Grams and litres are converted without loading pint."""
    load = "import sys; from service.quantities.units import factor"
    asked = f"{load}; factor('kg'), factor('l'); print('pint' in sys.modules)"

    told = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True).stdout

    assert told.strip() == "False"
