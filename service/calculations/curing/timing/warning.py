"""Which cautions go with days in the cure or in the soak."""

from service.calculations.curing.timing.setting import TimedStage
from service.calculations.curing.timing.stages import Injection

STANDING = ("days-are-for-salt", "keep-cold-while-curing", "model-not-licence", "raw-meat-hygiene", "local-code")
WET = ("hot-brine", "no-brine-reuse", "foil-salt-acid")


def caution_ids(stages: tuple[TimedStage, ...], injection: Injection | None) -> list[str]:
    """Every caution whose trigger holds."""
    kinds = {one.stage.kind for one in stages}
    ids = list(STANDING)
    if injection or kinds & {"brine", "endless_brine"}:
        ids += WET
    elif "dry" in kinds:
        ids.append("foil-salt-acid")
    return ids
