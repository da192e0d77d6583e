"""Which cautions go with days in the cure or in the soak."""

from service.calculations.curing.timing.setting import TimedStage
from service.calculations.curing.timing.stages import Injection

STANDING = ("days-are-for-salt", "keep-cold-while-curing", "model-not-licence", "raw-meat-hygiene", "local-code")
LITTLE_SALT_PERCENT, WEEK_D = 2.0, 7.0
"""Less salt than this holds back little in so many days of cold (common practice, no source)."""
WET = ("hot-brine", "no-brine-reuse", "foil-salt-acid")


def caution_ids(
    stages: tuple[TimedStage, ...], injection: Injection | None, *, final_percent: float, longest_d: float
) -> list[str]:
    """Every caution whose trigger holds."""
    kinds = {one.stage.kind for one in stages}
    ids = list(STANDING)
    if injection or kinds & {"brine", "endless_brine"}:
        ids += WET
    elif "dry" in kinds:
        ids.append("foil-salt-acid")
    if final_percent < LITTLE_SALT_PERCENT and longest_d > WEEK_D:
        ids.append("little-salt-for-long")
    return ids
