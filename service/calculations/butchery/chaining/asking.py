"""What a caller states of a chain: what is bought or wanted, and every stage with what it leaves."""

from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.products import Product
from service.quantities.models import HowMany, IfStated, Name, Request
from service.quantities.quantity import Mass
from service.rules.cut import WeightStage
from service.rules.vocabulary import Jurisdiction, Operator

LeftPercent = Annotated[float, Field(ge=5, le=250)]
LostPercent = Annotated[float, Field(ge=1, le=95)]
GainedPercent = Annotated[float, Field(ge=1, le=150)]

BoughtAs = Literal["untrimmed", "trimmed", "cured", "cooked"]
"""What a piece is when it comes in. cured: pumped, corned or in its pickle already."""


class Change(Request):
    """What every share states beside its figures."""

    of_weight: IfStated[WeightStage] = None
    """The weight that your figure is a share of, to be checked: a figure of another weight is refused, and told as it
    would be of the right one. Left out, it is the weight that enters the stage."""


class Left(Change):
    """What is left, percent of the weight that enters the stage."""

    kind: Literal["left"]
    """How the share is told."""
    percent: LeftPercent
    """What is usual: 85, not 0.85."""
    low_percent: IfStated[LeftPercent] = None
    """The least; left out, it is as usual."""
    high_percent: IfStated[LeftPercent] = None
    """The most; left out, it is as usual."""


class Lost(Change):
    """What is lost, percent of the weight that enters the stage. Less than 1 is told by what is left."""

    kind: Literal["lost"]
    """How the share is told."""
    percent: LostPercent
    """What is usual: 15, not 0.15."""
    low_percent: IfStated[LostPercent] = None
    """The least that is lost; left out, it is as usual."""
    high_percent: IfStated[LostPercent] = None
    """The most that is lost; left out, it is as usual."""


class Gained(Change):
    """What is gained, percent of the weight that enters the stage. Less than 1 is told by what is left."""

    kind: Literal["gained"]
    """How the share is told."""
    percent: GainedPercent
    """What is usual: 12, not 0.12."""
    low_percent: IfStated[GainedPercent] = None
    """The least; left out, it is as usual."""
    high_percent: IfStated[GainedPercent] = None
    """The most; left out, it is as usual."""


class OwnTest(Request):
    """A test of your own: the same pieces weighed before and after this stage. Another batch than this one."""

    kind: Literal["own_test"]
    """How the share is told."""
    before: Mass
    """What went in."""
    after: Mass
    """What came out."""


ChangeStated = Annotated[Left | Lost | Gained | OwnTest, Field(discriminator="kind")]


class StageBase(Request):
    """What every stage states."""

    change: IfStated[ChangeStated] = None
    """What it leaves. Left out, what is published for the cut is taken, or what is usual; a pick-up never is."""
    weighed: IfStated[Mass] = None
    """This batch, weighed after the stage: from here on the chain goes on from that. Only where the weight bought is
    stated."""


class TrimStage(StageBase):
    """Fat, skin and bone cut off."""

    kind: Literal["trim"]
    """The stage."""


class CureStage(StageBase):
    """Weight taken up from a pickle or a pump, or lost in a dry cure. Stated or weighed, never taken from a table."""

    kind: Literal["cure"]
    """The stage."""


CookMethod = Literal["smoke", "steam", "roast", "braise", "simmer", "bake", "pan_fry"]


class CookStage(StageBase):
    """Smoked, steamed, roasted or cooked in another way. Smoke and steam after it are two stages."""

    kind: Literal["cook"]
    """The stage."""
    method: CookMethod
    """How."""
    weighed_when: IfStated[Literal["hot", "rested", "chilled"]] = None
    """When the weight behind the figure is taken. What was rested or chilled has that loss in it already."""


class ChillStage(StageBase):
    """What drips off and dries while it rests, is held or is chilled. Stated or weighed."""

    kind: Literal["chill"]
    """The stage."""


class SliceStage(StageBase):
    """Crumbs and ends that are not sold."""

    kind: Literal["slice"]
    """The stage."""


class OtherStage(StageBase):
    """Anything else. Stated or weighed."""

    kind: Literal["other"]
    """The stage."""
    name: Name
    """What it is."""
    takes: IfStated[Literal["moisture", "parts"]] = None
    """What it takes away. moisture: the piece stays whole, as in ageing or draining. parts: something is cut or picked
    off. Left out, a loss here may be either, and a legal weight that hangs on it cannot be told."""


LOSING = (TrimStage, CookStage, ChillStage, SliceStage)
"""Stages that take weight away."""

Stage = Annotated[TrimStage | CureStage | CookStage | ChillStage | SliceStage | OtherStage, Field(discriminator="kind")]


class Bought(Request):
    """Forwards: this weight was bought, what will be left?"""

    kind: Literal["bought"]
    """The task."""
    weight: Mass
    """What was bought, weighed."""
    portion: IfStated[Mass] = None
    """Size of a portion as it is sold, to be told how many there are."""


class PortionsWanted(Request):
    """Backwards: so many portions are to be sold, how much is to be bought?"""

    kind: Literal["portions_wanted"]
    """The task."""
    how_many: HowMany
    """Portions."""
    portion: Mass
    """Size of one, as it is sold."""


class WeightWanted(Request):
    """Backwards: this weight is to be left at the end, how much is to be bought?"""

    kind: Literal["weight_wanted"]
    """The task."""
    weight: Mass
    """What is to be left after the last stage."""


Task = Annotated[Bought | PortionsWanted | WeightWanted, Field(discriminator="kind")]


class PieceRange(Request):
    """What pieces weigh as they are bought."""

    low: Mass
    """The lightest."""
    high: Mass
    """The heaviest."""


class Standard(Request):
    """The product that weights are held against the law for: what law, who works, what it is."""

    jurisdiction: Jurisdiction
    """Whose rules bind."""
    operator: Operator = "home"
    """Who works: rules bind by audience."""
    product: Product
    """What is being made."""
    sold_as: IfStated[Literal["barbecued_meat", "country_ham", "pastrami"]] = None
    """A name with a standard of its own."""
    smallest_piece: IfStated[Mass] = None
    """The lightest piece when it was cured, weighed."""
