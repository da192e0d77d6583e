"""Every calculation, one line each."""

from service.calculations.curing.brine import BRINE
from service.calculations.curing.check import CHECK
from service.calculations.curing.dose import DOSE
from service.calculations.declaration import AnyCalculation
from service.calculations.measures.weigh import WEIGH

CALCULATIONS: tuple[AnyCalculation, ...] = (
    DOSE,
    CHECK,
    BRINE,
    WEIGH,
)
