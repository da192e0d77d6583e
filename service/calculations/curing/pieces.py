"""The piece: its shape, which of its faces are open to the cure, and whether that goes with its weight."""

from math import pi, prod, sqrt
from typing import Annotated, Any, Literal, NamedTuple, assert_never

from pydantic import BeforeValidator, Field

from service.calculations.curing.brining.contents import RAW_MEAT_KG_PER_L
from service.calculations.refusals import Impossible
from service.quantities.models import Request
from service.quantities.quantity import Length

REASONS = {
    "shape_contradicts_weight": "The stated size and the stated weight are not of one piece.",
    "size_out_of_range": "The piece is thinner or bigger than the model is for.",
    "nothing_open": "No face of the piece is open to what surrounds it.",
}
MEAT_G_PER_MM3 = RAW_MEAT_KG_PER_L / 1000
"""Density of raw lean meat, about 1.06 g/ml (Choi and Okos 1986, composed of water, protein and fat; from memory)."""
THINNEST_MM, THICKEST_MM, LONGEST_MM = 3.0, 500.0, 2000.0
"""Between these the model is used (own bounds)."""
LIGHTEST_SHARE, HEAVIEST_SHARE = 0.6, 1.7
"""A block of the stated size may weigh this much of the stated piece: pieces are no blocks (own bounds)."""


def _no_truth(value: Any) -> Any:
    """JSON's true is no number of faces; Python takes it for 1."""
    return str(value) if isinstance(value, bool) else value


OpenFaces = Annotated[Literal[0, 1, 2], BeforeValidator(_no_truth)]
BroadFaces = Annotated[Literal[1, 2], BeforeValidator(_no_truth)]


class Slab(Request):
    """A piece much wider than it is thick: a belly, a flank, a flat. What enters by its edges is left out."""

    kind: Literal["slab"]
    """The kind of shape."""
    thickness: Length
    """At its thickest."""
    open_faces: BroadFaces = 2
    """Broad faces that the cure reaches: 1 where the other is skin or a fat cap."""


class Cylinder(Request):
    """A roll, a loin, an eye of round: its side is open."""

    kind: Literal["cylinder"]
    """The kind of shape."""
    diameter: Length
    """At its thickest."""
    length: Length
    """From end to end."""
    open_ends: OpenFaces = 2
    """Ends that the cure reaches."""


class Sphere(Request):
    """A piece as thick as it is long, open all round: a knuckle, a ball of coppa."""

    kind: Literal["sphere"]
    """The kind of shape."""
    diameter: Length
    """At its thickest."""


class FacesOfBlock(Request):
    """How many faces of each pair the cure reaches: 1 where the other is skin or a fat cap, 0 where both are."""

    top_and_bottom: OpenFaces = 2
    """Faces across the thickness."""
    sides: OpenFaces = 2
    """Faces across the width."""
    ends: OpenFaces = 2
    """Faces across the length."""


ALL_OPEN = FacesOfBlock()


class Brick(Request):
    """A block by its three edges."""

    kind: Literal["brick"]
    """The kind of shape."""
    thickness: Length
    """At its thickest."""
    width: Length
    """Across."""
    length: Length
    """Along."""
    open_faces: FacesOfBlock = ALL_OPEN
    """Which faces the cure reaches; left out, all six."""


class Measured(Request):
    """A piece that was weighed, its thickness and length measured: its width follows from its weight."""

    kind: Literal["measured"]
    """The kind of shape."""
    thickness: Length
    """At its thickest."""
    length: Length
    """Along."""
    open_faces: FacesOfBlock = ALL_OPEN
    """Which faces the cure reaches; left out, all six."""


Shape = Annotated[Slab | Cylinder | Sphere | Brick | Measured, Field(discriminator="kind")]


class Axis(NamedTuple):
    """A pair of faces, or a round side: how far it is from the open face to the place that salt reaches last."""

    plain: Literal["slab", "cylinder", "sphere"]
    reach_mm: float


class Piece(NamedTuple):
    """A piece as the model sees it."""

    axes: tuple[Axis, ...]
    """The shortest way first."""
    thickness_mm: float
    """Full thickness, for the rules of thumb."""
    weight_g: float
    flat: bool = False
    """Whether its edges are left out."""

    def with_edges(self) -> tuple[Axis, ...]:
        """Its ways in with its edges, where those are left out: as if it were square."""
        if not self.flat:
            return self.axes
        side_mm = sqrt(self.weight_g / MEAT_G_PER_MM3 / self.thickness_mm)
        return _shortest_first([*self.axes, Axis("slab", side_mm / 2), Axis("slab", side_mm / 2)])


def piece_of(shape: Shape, weight_g: float) -> Piece:
    """The piece of this shape and weight. Raises Impossible for what is no such piece."""
    piece = _piece(shape, weight_g)
    _require_size(piece.thickness_mm, most_mm=THICKEST_MM)
    _require_size(max(THINNEST_MM, *(axis.reach_mm for axis in piece.axes)), most_mm=LONGEST_MM)
    if piece.flat:
        _require_flat(piece)
    return piece


def _piece(shape: Shape, weight_g: float) -> Piece:
    match shape.kind:
        case "slab":
            return _of_slab(shape, weight_g)
        case "cylinder":
            return _of_cylinder(shape, weight_g)
        case "sphere":
            return _of_sphere(shape, weight_g)
        case "brick":
            return _of_brick(shape, weight_g)
        case "measured":
            return _of_measured(shape, weight_g)
    assert_never(shape.kind)


def _of_slab(shape: Slab, weight_g: float) -> Piece:
    thickness_mm = shape.thickness.mm
    return Piece((_axis(thickness_mm, shape.open_faces),), thickness_mm, weight_g, flat=True)


def _of_cylinder(shape: Cylinder, weight_g: float) -> Piece:
    diameter_mm, length_mm = shape.diameter.mm, shape.length.mm
    _require_weight(weight_g, block_g=pi / 4 * diameter_mm**2 * length_mm * MEAT_G_PER_MM3)
    ends = [_axis(length_mm, shape.open_ends)] if shape.open_ends else []
    return Piece(_shortest_first([Axis("cylinder", diameter_mm / 2), *ends]), min(diameter_mm, length_mm), weight_g)


def _of_sphere(shape: Sphere, weight_g: float) -> Piece:
    diameter_mm = shape.diameter.mm
    _require_weight(weight_g, block_g=pi / 6 * diameter_mm**3 * MEAT_G_PER_MM3)
    return Piece((Axis("sphere", diameter_mm / 2),), diameter_mm, weight_g)


def _of_brick(shape: Brick, weight_g: float) -> Piece:
    edges_mm = (shape.thickness.mm, shape.width.mm, shape.length.mm)
    _require_weight(weight_g, block_g=prod(edges_mm) * MEAT_G_PER_MM3)
    return _block(edges_mm, shape.open_faces, weight_g)


def _of_measured(shape: Measured, weight_g: float) -> Piece:
    thickness_mm, length_mm = shape.thickness.mm, shape.length.mm
    width_mm = weight_g / MEAT_G_PER_MM3 / (thickness_mm * length_mm)
    if not THINNEST_MM <= width_mm <= LONGEST_MM:
        raise Impossible(
            code="shape_contradicts_weight",
            reason=f"A piece of {weight_g:,.6g} g that is {thickness_mm:.4g} mm thick and {length_mm:.4g} mm long "
            f"would be {width_mm:.4g} mm wide.",
            nearest="State the weight of the meat, how many pieces it is, and lengths measured on one of them.",
        )
    return _block((thickness_mm, width_mm, length_mm), shape.open_faces, weight_g)


def _block(edges_mm: tuple[float, float, float], open_faces: FacesOfBlock, weight_g: float) -> Piece:
    counts = (open_faces.top_and_bottom, open_faces.sides, open_faces.ends)
    axes = [_axis(edge_mm, count) for edge_mm, count in zip(edges_mm, counts, strict=True) if count]
    if not axes:
        raise Impossible(
            code="nothing_open",
            reason="No face is open to the cure.",
            nearest="State at least one open face, take the skin off one, or inject.",
        )
    return Piece(_shortest_first(axes), min(edges_mm), weight_g)


def _shortest_first(axes: list[Axis]) -> tuple[Axis, ...]:
    return tuple(sorted(axes, key=lambda axis: axis.reach_mm))


def _axis(edge_mm: float, open_faces: int) -> Axis:
    return Axis("slab", edge_mm / open_faces)


def _require_size(size_mm: float, *, most_mm: float) -> None:
    if not size_mm <= most_mm:
        raise _unfit(size_mm, f"State pieces up to {THICKEST_MM:g} mm thick and {LONGEST_MM:g} mm long.")
    if not size_mm >= THINNEST_MM:
        raise _unfit(size_mm, f"State pieces of at least {THINNEST_MM:g} mm; a slice is cured through within hours.")


def _unfit(size_mm: float, nearest: str) -> Impossible:
    reason = f"A measure of {size_mm:.4g} mm is outside what this model is for."
    return Impossible(code="size_out_of_range", reason=reason, nearest=nearest)


def _require_weight(weight_g: float, *, block_g: float) -> None:
    if not LIGHTEST_SHARE <= block_g / weight_g <= HEAVIEST_SHARE:
        raise Impossible(
            code="shape_contradicts_weight",
            reason=f"A piece of that size weighs about {block_g:,.4g} g; stated are {weight_g:,.4g} g for each piece.",
            nearest="State the weight of all the meat, how many pieces it is, and the size of one of them.",
        )


def _require_flat(piece: Piece) -> None:
    if not piece.weight_g >= MEAT_G_PER_MM3 * piece.thickness_mm**3:
        raise Impossible(
            code="shape_contradicts_weight",
            reason=f"A piece of {piece.weight_g:,.4g} g that is {piece.thickness_mm:.4g} mm thick is "
            "no wider than it is thick.",
            nearest="State it as a brick with its three edges, or check weight, number of pieces and thickness.",
        )
