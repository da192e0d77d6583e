"""Money as callers write it, ``{"amount": "12.50", "currency": "USD"}``: a decimal string, never a JSON number."""

from decimal import ROUND_HALF_EVEN, Decimal
from typing import Annotated, Literal

from pydantic import Field

from service.quantities.models import Answer, Request, made
from service.quantities.units import factor

DecimalText = Annotated[str, Field(pattern=r"^(0|[1-9][0-9]{0,8})(\.[0-9]{1,4})?$", max_length=14)]
"""Not negative, under a thousand million, at most four decimals: "3.20", not 3.2."""
Currency = Annotated[str, Field(pattern=r"^[A-Z]{3}$", min_length=3, max_length=3)]
"""Three letters of ISO 4217."""


class Price(Request):
    """What a weight of something costs."""

    amount: DecimalText
    """How much money, as a decimal string: "3.20"."""
    currency: Currency
    """Three letters of ISO 4217: USD, EUR."""
    per: Literal["kg", "lb"]
    """For a kilogram or for a pound."""

    @property
    def of_a_gram(self) -> Decimal:
        """In its currency, for one gram."""
        return Decimal(self.amount) / Decimal(str(factor(self.per)))


class Money(Answer):
    """An amount of money; negative where it is a difference that costs."""

    amount: str
    """A decimal string."""
    currency: str
    """Three letters of ISO 4217."""


def present_money(value: Decimal, currency: str, *, decimals: int = 2) -> Money:
    """Money rounded for display, half to even; what is nearly nothing is nothing, without a sign."""
    rounded = value.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_EVEN)
    return made(Money, amount=f"{rounded or abs(rounded):f}", currency=currency)
