"""What is being made, and what that is to the law."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities.models import IfStated, Name, Request
from service.quantities.quantity import Mass

Finish = Literal["fresh", "matured", "cooked", "sterilised"]
"""fresh: sold raw. matured: raw, but cured, dried or fermented through. cooked. sterilised: by heat, Fo above 3."""

Storage = Literal["keep_refrigerated", "keep_frozen", "shelf_stable"]


class ProductBase(Request):
    """What every product states."""

    finish: IfStated[Finish] = None
    """How the piece is finished. Rules outside the United States depend on it; without it there is no dose there."""
    storage: Storage = "keep_refrigerated"
    """How the finished product is kept. The 120 ppm policy of the United States binds what is kept refrigerated."""
    for_infants: bool = False
    """Made for babies or toddlers: nitrite and nitrate are then not allowed at all."""


class WholeMuscle(ProductBase):
    """A whole piece that is neither bacon nor corned beef: ham, loin, shoulder, eye of round, pastrami."""

    kind: Literal["whole_muscle"]
    """The kind of product."""
    species: Literal["pork", "beef", "veal", "lamb", "goat", "game"]
    """The animal."""
    cut: IfStated[Name] = None
    """Your name for the cut; it changes no figure."""


class Bacon(ProductBase):
    """Bacon: bellies and what is sold as bacon. Its limits are its own, on the weight without skin."""

    kind: Literal["bacon"]
    """The kind of product."""
    skin: Literal["on", "off"]
    """Whether the skin is on when the piece is weighed."""
    skin_free: IfStated[Mass] = None
    """With the skin on: the weight without skin, where it was weighed. Otherwise the skin counts as a tenth."""


class Sausage(ProductBase):
    """Chopped or ground meat: sausage, chopped ham, meat loaf."""

    kind: Literal["sausage"]
    """The kind of product."""
    species: Literal["pork", "beef", "veal", "lamb", "goat", "game", "poultry", "mixed"]
    """The animal, or mixed."""


class CornedBeef(ProductBase):
    """Beef cured in brine or by pumping, to be sold as corned beef or cured tongue."""

    kind: Literal["corned_beef"]
    """The kind of product."""
    cut: Literal["brisket", "round", "tongue", "other"]
    """The cut: how much weight it may gain depends on it."""


class Poultry(ProductBase):
    """A whole bird or a piece of one."""

    kind: Literal["poultry"]
    """The kind of product."""
    species: Literal["chicken", "turkey", "duck", "goose", "other"]
    """The bird."""
    cut: IfStated[Name] = None
    """Your name for the cut; it changes no figure."""


Product = Annotated[WholeMuscle | Bacon | Sausage | CornedBeef | Poultry, Field(discriminator="kind")]

SKIN_SHARE_ASSUMED = 0.10
"""Skin as a share of a skin-on belly that was not weighed without it.

FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995, ch. 3 (reported).
"""


def green_weight_g(product: Product, meat_g: float) -> float:
    r"""The weight on which the law reckons.

    .. math:: green = meat, \quad or \quad meat \times (1 - skin) \text{ for bacon with its skin on}

    Parameters
    ----------
    product : Product
        What is being made
    meat_g : float
        Raw meat as it lies on the scale [g]

    Returns
    -------
    green_g : float
        Green weight; for bacon without its skin [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    Skin that was not weighed counts as a tenth; a weighed skin-free weight takes the place of that tenth.

    Examples
    --------
    >>> green_weight_g(Bacon(kind="bacon", skin="on"), 1000)
    900.0

    References
    ----------
    9 CFR 424.22(b)(2) and (3) (read): actual or estimated skin-free green weight. The tenth: FSIS Directive 7620.3,
    Processing Inspectors' Calculations Handbook, 1995, ch. 3 (reported).
    """
    if product.kind != "bacon" or product.skin == "off":
        return meat_g
    return product.skin_free.g if product.skin_free else meat_g * (1 - SKIN_SHARE_ASSUMED)
