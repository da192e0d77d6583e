"""Money: decimal strings in, rounded half to even and without a minus before nothing out."""

from decimal import Decimal

import pytest
from pydantic import ValidationError

from service.quantities.money import Price, present_money


def test_a_price_is_exact_for_a_gram():
    """A pound is 453.59237 g by definition; no binary fraction comes between."""
    assert Price(amount="3.20", currency="EUR", per="kg").of_a_gram == Decimal("0.0032")
    assert Price(amount="1", currency="USD", per="lb").of_a_gram * Decimal("453.59237") == pytest.approx(Decimal(1))


@pytest.mark.parametrize(
    "amount", ["3,20", "-1", "1e3", "", ".5", "01", "1.23456", "1000000000", " 1", "1\n", "NaN", "٣"]
)
def test_what_is_no_amount_is_refused(amount: str):
    """No sign, no exponent, no comma, no more than four decimals, under a thousand million."""
    with pytest.raises(ValidationError):
        Price(amount=amount, currency="USD", per="kg")


@pytest.mark.parametrize("currency", ["usd", "US", "USDX", "$", "U$D"])
def test_what_is_no_currency_is_refused(currency: str):
    """Three capital letters."""
    with pytest.raises(ValidationError):
        Price(amount="1", currency=currency, per="kg")


@pytest.mark.parametrize(
    ("value", "decimals", "told"),
    [("2.345", 2, "2.34"), ("2.355", 2, "2.36"), ("-0.004", 2, "0.00"), ("-1.5", 2, "-1.50"), ("1E+3", 2, "1000.00"),
     ("0.12345", 4, "0.1234")],
)  # fmt: skip
def test_money_is_told_with_its_decimals(value: str, decimals: int, told: str):
    """Half to even, never as -0.00, never with an exponent."""
    assert present_money(Decimal(value), "USD", decimals=decimals).amount == told
