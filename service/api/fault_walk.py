"""Following pydantic's errors into the body that was sent, past the labels that only pydantic knows."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

MOST_LOOKED_AT = 200


@dataclass(frozen=True, slots=True)
class Step:
    """A step of pydantic's location: into the body, or the label of a branch that the body knows nothing of."""

    part: str | int
    is_label: bool


@dataclass(frozen=True, slots=True)
class Fault:
    """One error of pydantic, walked through the body that was sent."""

    error: Mapping[str, Any]
    steps: tuple[Step, ...]

    @property
    def path(self) -> tuple[str | int, ...]:
        return tuple(step.part for step in self.steps if not step.is_label)


def faults_of(error: ValidationError, body: Any) -> list[Fault]:
    """What is wrong, in order; of a union that nothing fits, only the branch that fits best."""
    errors = error.errors(include_url=False)[:MOST_LOOKED_AT]
    faults = [Fault(one, tuple(_walk(one, body))) for one in errors]
    deepest = max(len(fault.steps) for fault in faults)
    for position in range(deepest):
        faults = _best_branches(faults, position)
    return faults


def _walk(error: Mapping[str, Any], body: Any) -> Iterator[Step]:
    node, last = body, len(error["loc"]) - 1
    for index, part in enumerate(error["loc"]):
        if _holds(node, part):
            node = node[part]
            yield Step(part, is_label=False)
        else:
            yield Step(part, is_label=not (index == last and error["type"] == "missing"))
    if error["type"] in ("union_tag_invalid", "union_tag_not_found"):
        yield Step(error["ctx"]["discriminator"].strip("'"), is_label=False)


def _holds(node: Any, part: str | int) -> bool:
    if isinstance(node, list):
        return isinstance(part, int) and part < len(node)
    return isinstance(node, dict) and part in node


def _best_branches(faults: list[Fault], position: int) -> list[Fault]:
    """Where faults part into branches at this step, keep those of the best branch."""
    branches: dict[tuple[Step, ...], dict[str | int, list[Fault]]] = {}
    for fault in faults:
        if len(fault.steps) > position and fault.steps[position].is_label:
            group = branches.setdefault(fault.steps[:position], {})
            group.setdefault(fault.steps[position].part, []).append(fault)
    lost = {
        id(fault)
        for group in branches.values()
        for label, branch in group.items()
        if label != min(group, key=lambda one: _misfit(group[one], position))
        for fault in branch
    }
    return [fault for fault in faults if id(fault) not in lost]


def _misfit(branch: list[Fault], position: int) -> tuple[bool, bool, int]:
    """How badly a branch fits: absence worst, then one of another type altogether, then the one with most faults."""
    is_absence = any(fault.error["type"] == "none_required" for fault in branch)
    of_another_type = any(len(fault.steps) == position + 1 for fault in branch)
    wrong_kind = any(fault.steps[-1].part == "kind" for fault in branch)
    return is_absence, of_another_type or wrong_kind, len(branch)
