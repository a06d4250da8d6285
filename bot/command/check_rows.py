"""A check as scripts get it."""

from datetime import date

from bot.wording.reasons import reason
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check


def check_row(check: Check, day: date) -> dict[str, object]:
    """Give a check as plain values; ``rest`` is the span of a rest and null for all else."""
    span = {"from": check.not_before.isoformat(), "until": _iso(check.by)}
    return {
        "check": str(check.kind),
        "not_before": check.not_before.isoformat(),
        "best": _iso(check.best),
        "by": _iso(check.by),
        "rest": span if check.kind is CheckKind.REST else None,
        "why": reason(check.why, day),
    }


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
