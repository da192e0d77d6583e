"""What a soak looks like: salt over the hours."""

from typing import TYPE_CHECKING

from service.calculations.declaration import Band, Drawing, Mark, Panel, Series

if TYPE_CHECKING:
    from service.calculations.curing.soak import SoakAnswer

NOTE = (
    "Bands: from the slow to the quick reading of published diffusivities. A forecast; how much nitrite is left after "
    "soaking is unknown."
)


def drawing_of(answer: "SoakAnswer") -> Drawing:
    """Whole piece and centre over the hours."""
    course, hours = answer.course, answer.hours
    panel = Panel(
        title=f"In {answer.waters} waters, each {answer.change_every_h:.4g} h" if answer.waters > 1 else "In one water",
        x_label="Hours since the piece went into water",
        y_label="Salt, % of the weight",
        series=(
            Series("whole piece", tuple((one.after_h, one.mean.typical) for one in course)),
            Series("centre", tuple((one.after_h, one.centre.typical) for one in course)),
        ),
        bands=(
            Band("whole piece, slow to quick", tuple((one.after_h, one.mean.low, one.mean.high) for one in course)),
        ),
        marks=(Mark(f"{hours.typical:.3g} h", (hours.typical, answer.at_end.mean.typical)),),
    )
    return Drawing("Salt on its way out", (panel,), NOTE)
