"""Which materials are in play, and why the others are not."""

from typing import Literal, NamedTuple

from service.calculations.butchery.blending.asked import BlendRequest
from service.calculations.butchery.blending.materials import Material
from service.calculations.refusals import Impossible

OutBefore = Literal[
    "none_on_hand", "animal_not_allowed", "too_old", "age_not_stated", "protein_not_stated", "moisture_not_stated"
]  # fmt: skip

REASONS = {
    "nothing_to_blend": "Every material is left out: by age, animal, stock or what is not known of it.",
    "wanted_and_left_out": "A material of which some is to be used may not be used.",
}


class Sorted(NamedTuple):
    """Materials in play, by their numbers in the request, and the others with why."""

    numbers: tuple[int, ...]
    materials: tuple[Material, ...]
    out: tuple[tuple[Material, OutBefore, str], ...]


def sorted_out(request: BlendRequest) -> Sorted:
    """Sort the materials. Raises Impossible where none is left, or one is left out that is to be used."""
    numbers, out = [], []
    for number, material in enumerate(request.materials):
        why = _why_out(material, request)
        if why is None:
            numbers.append(number)
        else:
            out.append((material, *why))
            _require_not_wanted(material, why[1], request)
    if not numbers:
        raise Impossible(
            code="nothing_to_blend",
            reason=f"No material is left. {' '.join(text for _, _, text in out[:5])}",
            nearest="Loosen what leaves them out, or add a material.",
        )
    return Sorted(tuple(numbers), tuple(request.materials[number] for number in numbers), tuple(out))


def _why_out(material: Material, request: BlendRequest) -> tuple[OutBefore, str] | None:
    """The first of the reasons that holds."""
    name, oldest_d, animals = material.name, request.oldest_d, request.animals
    if material.on_hand is not None and not material.on_hand.value:
        return "none_on_hand", f"There is none of {name} on hand."
    if animals is not None and material.animal not in animals:
        return "animal_not_allowed", f"{name} is of {material.animal.replace('_', ' ')}, which may not go in."
    if oldest_d is not None and material.age_d is None:
        return "age_not_stated", f"{name} does not state its age, and the oldest may be {oldest_d:g} days."
    if oldest_d is not None and material.age_d is not None and material.age_d > oldest_d:
        return "too_old", f"{name} is {material.age_d:g} days old; the oldest may be {oldest_d:g}."
    if request.protein and material.protein_percent is None:
        return "protein_not_stated", f"{name} does not state its protein, and there is a rule on it."
    if request.moisture and material.moisture_percent is None:
        return "moisture_not_stated", f"{name} does not state its water, and there is a rule on it."
    return None


def _require_not_wanted(material: Material, why: str, request: BlendRequest) -> None:
    used_up = request.block.kind == "use_up" and request.block.material == material.name
    if used_up or material.least or material.least_share_percent:
        raise Impossible(
            code="wanted_and_left_out",
            reason=f"Some of {material.name} is to be used, and it is left out. {why}",
            nearest="Loosen what leaves it out, or ask for none of it.",
        )
