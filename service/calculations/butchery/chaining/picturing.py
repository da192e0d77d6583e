"""What a chain looks like: the weight after every stage, as a band."""

from typing import TYPE_CHECKING

from service.calculations.declaration import Band, Drawing, Mark, Panel, Series

if TYPE_CHECKING:
    from service.calculations.butchery.chain import ChainAnswer

NOTE = (
    "Band: all low shares together and all high shares together, so that every combination lies within. A weight that "
    "was weighed, bought or is wanted has no band."
)


def drawing_of(answer: "ChainAnswer") -> Drawing:
    """From what is bought to what is sold."""
    weights = (answer.purchased, *(one.weight for one in answer.stages))
    usual = tuple((float(place), weight.typical or 0.0) for place, weight in enumerate(weights))
    stages = (f"{one.name or one.stage}{', weighed' if one.share_from == 'weighed' else ''}" for one in answer.stages)
    names = ("bought" if answer.task == "bought" else "to buy", *stages)
    panel = Panel(
        title="Forwards from what was bought" if answer.task == "bought" else "Back to what is to be bought",
        x_label="Stages done",
        y_label=f"Weight, {answer.purchased.unit}",
        series=(Series("usual", usual),),
        bands=(Band("low to high", tuple((float(place), one.low, one.high) for place, one in enumerate(weights))),),
        marks=tuple(Mark(name, at) for name, at in zip(names, usual, strict=True)),
        from_zero=True,
        counts_across=True,
    )
    return Drawing("Weight from stage to stage", (panel,), NOTE)
