"""Every calculation, one line each."""

from service.calculations.butchery.blend import BLEND
from service.calculations.curing.brine import BRINE
from service.calculations.curing.check import CHECK
from service.calculations.curing.cure_time import TIME
from service.calculations.curing.dose import DOSE
from service.calculations.curing.soak import SOAK
from service.calculations.declaration import AnyCalculation
from service.calculations.measures.weigh import WEIGH

CALCULATIONS: tuple[AnyCalculation, ...] = (
    DOSE,
    CHECK,
    BRINE,
    TIME,
    SOAK,
    WEIGH,
    BLEND,
)
