"""The sentences of a finding, which a cook and an inspector read."""

from service.rules.checker import Code, RuleInForce

OUTCOMES: dict[Code, str] = {
    "within_limit": "kept.",
    "at_limit": "kept, exactly at the limit.",
    "over_limit": "over it.",
    "under_limit": "under it.",
}
UNKNOWN: dict[Code, str] = {
    "laboratory_only": "Only a laboratory can measure this ({against}); it is not asked for here.",
    "not_computed": "Nothing stated lets this be worked out ({against}).",
    "plan_needed": "An option ({against}) that needs a written plan or a variance; not judged here.",
    "recalled_only": "The limit ({against}) is from memory: it warns, it proves nothing.",
    "statement": "The rule is written in words: read it at GET /v1/rules/{rule}.",
}


def why_not_judged(rule: RuleInForce, code: Code) -> str:
    """The message of a finding that cannot tell."""
    return UNKNOWN[code].format(against=_against(rule), rule=rule.id)


def endings_of(rule: RuleInForce, floor: float | None) -> dict[Code, str]:
    """How the message of a finding goes on after its figure, by its code."""
    against = _against(rule)
    endings: dict[Code, str] = {code: f" {rule.unit} against {against}: {words}" for code, words in OUTCOMES.items()}
    if floor is not None:
        band = f"kept within the design band from {floor:.6g}."
        endings["within_band"] = f" {rule.unit} after rounding down, against {against}: {band}"
    return endings


def told_apart(figure: float, *, limit: float | None) -> str:
    """A figure with as many digits as it takes to be told from the limit beside it."""
    short = f"{figure:.6g}"
    return short if limit is None or figure == limit or short != f"{limit:.6g}" else f"{figure:.12g}"


def why_open(rule: RuleInForce, span: tuple[float, float]) -> str:
    """The message of a finding whose figure may lie on either side of the limit."""
    low, high = (told_apart(end, limit=rule.limit) for end in span)
    return f"Between {low} and {high} {rule.unit} ({_against(rule)}): it may be kept or broken."


def remembered(rule: RuleInForce, figure: float) -> str:
    """The message where a figure is held against a limit from memory: on which side of it, and what that is worth."""
    shown, limit = told_apart(figure, limit=rule.limit), rule.limit or 0.0
    past = figure < limit if rule.bound == "minimum" else figure > limit
    side = "past" if past else "within"
    return f"{shown} {rule.unit} is {side} {_against(rule)}, a limit from memory: it warns, it proves nothing."


def _against(rule: RuleInForce) -> str:
    limit = "no number of its own" if rule.limit is None else f"{rule.limit:.6g} {rule.unit}"
    return f"{rule.bound} {limit}"
