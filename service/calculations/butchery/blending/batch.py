"""What a block is to become: the class of sausage, and what is added to the meat."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.dose import SaltPercent, SugarPercent, Target
from service.calculations.curing.products import ProductBase
from service.calculations.curing.salts import Accelerator, CuringSalt
from service.quantities.models import IfStated, Request
from service.quantities.quantity import Mass
from service.rules.vocabulary import Jurisdiction, Operator

SausageClass = Literal[
    "fresh_pork_sausage", "fresh_beef_sausage", "breakfast_sausage", "whole_hog_sausage", "italian_sausage",
    "ground_beef", "smoked_pork_sausage", "cooked_sausage", "frankfurter_type",
]  # fmt: skip
"""What the finished product is to the law of the United States."""

LOSES_WEIGHT = frozenset({"smoked_pork_sausage", "cooked_sausage", "frankfurter_type"})
"""Finished only after smoking or cooking: their limits are on a weight that the cook has to state."""

UNCURED: frozenset[SausageClass] = frozenset(
    {"fresh_pork_sausage", "fresh_beef_sausage", "breakfast_sausage", "whole_hog_sausage", "ground_beef"}
)
"""Of fresh or frozen meat, sold raw: 9 CFR 319.15(a), 319.141 to 319.144 (read or reported) name no cure. Italian
sausage may hold one where its name says so: 319.145(a)(4) (read)."""

COOKED: frozenset[SausageClass] = frozenset({"cooked_sausage", "frankfurter_type"})
"""Not smoked pork sausage: 9 CFR 319.160 stands among the uncooked, smoked ones."""

WaterPercent = Annotated[float, Field(ge=0, le=60)]
SeasoningPercent = Annotated[float, Field(ge=0, le=30)]
LEAST_YIELD_PERCENT, MOST_YIELD_PERCENT = 30.0, 110.0
YieldPercent = Annotated[float, Field(ge=LEAST_YIELD_PERCENT, le=MOST_YIELD_PERCENT)]
RenderedPercent = Annotated[float, Field(ge=0, le=70)]


class CuredProduct(ProductBase):
    """How the cured product is finished and kept."""


class CureOfBlock(Request):
    """A cure for the block, as a dose (POST /v1/curing/dose) asks for it. Nothing of it is reckoned here."""

    curing_salt: CuringSalt
    """The curing salt by its label."""
    target: Target
    """What to reach."""
    accelerator: IfStated[Accelerator] = None
    """A cure accelerator."""
    product: CuredProduct = CuredProduct()
    """How the product is finished and kept: rules outside the United States depend on it."""
    scale_step: Mass
    """The smallest step of the scale that weighs the curing salt."""


class SausageBatch(Request):
    """Salt, water, seasoning and cure for the block, each as percent of the block; and what it is then in law."""

    jurisdiction: Jurisdiction
    """Whose rules bind."""
    operator: Operator = "home"
    """Who works: rules bind by audience."""
    sausage_class: IfStated[SausageClass] = None
    """What it is sold as. Limits on its fat and water that may refuse are kept by the blend."""
    water_percent: WaterPercent = 0.0
    """Water or ice, percent of the meat block: 3, not 0.03."""
    salt_percent: IfStated[SaltPercent] = None
    """All salt, that inside materials and curing salt counted, percent of the meat block. Left out, none is added."""
    sugar_percent: IfStated[SugarPercent] = None
    """All sugar, likewise."""
    seasoning_percent: SeasoningPercent = 0.0
    """Spice and whatever else is mixed in, percent of the meat block."""
    cook_yield_percent: IfStated[YieldPercent] = None
    """Weight after smoking or cooking, percent of the raw batch. Of a cooked product only fat that is too much at any
    yield is told without it."""
    rendered_fat_percent: IfStated[RenderedPercent] = None
    """Fat that runs out in smoking or cooking, percent of the raw batch; 0 for none. Left out, fat is taken to stay in,
    and added water is told only where it keeps its limit however much of the loss is fat."""
    cure: IfStated[CureOfBlock] = None
    """A cure; left out, none."""
