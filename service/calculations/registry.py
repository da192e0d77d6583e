"""Every calculation, one line each."""

from service.calculations.butchery.chain import CHAIN
from service.calculations.butchery.cut_test import CUT_TEST
from service.calculations.curing.brine import BRINE
from service.calculations.curing.check import CHECK
from service.calculations.curing.cure_time import TIME
from service.calculations.curing.dose import DOSE
from service.calculations.curing.soak import SOAK
from service.calculations.declaration import AnyCalculation
from service.calculations.labels.statement import STATEMENT
from service.calculations.measures.weigh import WEIGH
from service.calculations.seasoning.scale import SCALE

CALCULATIONS: tuple[AnyCalculation, ...] = (
    DOSE,
    CHECK,
    BRINE,
    TIME,
    SOAK,
    WEIGH,
    CUT_TEST,
    CHAIN,
    SCALE,
    STATEMENT,
)
