"""Between which bounds the model is used, and how sure it is."""

from service.calculations.curing.diffusing.diffusivity import QUICK, SLOW, TYPICAL
from service.calculations.curing.pieces import THICKEST_MM, THINNEST_MM
from service.calculations.curing.timing.stages import COLDEST_C, WARMEST_C
from service.quantities.models import Answer


class Validity(Answer):
    """Bounds, and where the band comes from."""

    from_c: float
    """The coldest temperature that days are told for."""
    to_c: float
    """The warmest."""
    thickness_from_mm: float
    """The thinnest piece."""
    thickness_to_mm: float
    """The thickest."""
    diffusivity_low_m2_per_s: float
    """The slow reading of published diffusivities of salt in meat, at 4 degC."""
    diffusivity_typical_m2_per_s: float
    """The typical one."""
    diffusivity_high_m2_per_s: float
    """The quick one."""
    says: str
    """What is left out."""


VALIDITY = Validity.of(
    from_c=COLDEST_C,
    to_c=WARMEST_C,
    thickness_from_mm=THINNEST_MM,
    thickness_to_mm=THICKEST_MM,
    diffusivity_low_m2_per_s=SLOW.at_4_c_m2_per_s,
    diffusivity_typical_m2_per_s=TYPICAL.at_4_c_m2_per_s,
    diffusivity_high_m2_per_s=QUICK.at_4_c_m2_per_s,
    says="Low and high are the spread of measured diffusivities in lean meat; single measurements lie outside of it. "
    "Left out are water that moves between meat and brine, seams of fat and gristle, bone, pieces that touch, and a "
    "surface that dries.",
)
