"""What every question about a cure states: where, when, by whom, and what is being made."""

from service.calculations.curing.products import Product
from service.quantities.models import Day, IfStated, Request
from service.rules.vocabulary import Jurisdiction, Operator


class CureQuestion(Request):
    """Where, when, by whom, and what is being made: what decides which rules bind."""

    jurisdiction: Jurisdiction
    """Whose rules bind."""
    on: IfStated[Day] = None
    """The day of curing; left out, it is today in the kitchen's time zone. Rules are those of that day."""
    operator: Operator = "home"
    """Who works: rules bind by audience."""
    product: Product
    """What is being made."""
