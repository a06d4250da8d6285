"""The order in which checks are told: by date, then as they stand in the list of kinds."""

from collections.abc import Iterable
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check

_RANK = {kind: rank for rank, kind in enumerate(CheckKind)}


def in_order(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Sort by the best date, a rest by its first day."""
    return tuple(sorted(checks, key=_key))


def _key(check: Check) -> tuple[date, int]:
    return (check.best or check.not_before, _RANK[check.kind])
