"""What is ahead of a unit's bees: how few they become, and what they are still good for."""

from dataclasses import dataclass
from datetime import date

from scheduling.checks.colonies import colony_of
from scheduling.checks.next_round import laying_workers_likely, queenless_since, verdict_on
from scheduling.checks.queen_dates import QueenDates
from scheduling.colony.another_round import AnotherRound
from scheduling.colony.bees_enough import LowPoint, brood_by, low_point, too_few_from
from scheduling.colony.unit_make_up import strength_told
from scheduling.units.state import Stage, UnitState

_QUEENLESS = frozenset({Stage.WAITING, Stage.DRONE_LAYER})


@dataclass(frozen=True)
class BeesAhead:
    """What the account of a unit says.

    Attributes:
        low: its fewest bees, and when; None where it has no queen whose bees could follow.
        too_few_from: the date from which they cannot hold their own; None for never.
        brood_by: the date by which brood must be given so that they can.
        laying_workers_from: from when laying workers are likely; None with a queen.
        another_round: what a unit without a queen is still worth; None with one.

    """

    low: LowPoint | None = None
    too_few_from: date | None = None
    brood_by: date | None = None
    laying_workers_from: date | None = None
    another_round: AnotherRound | None = None


def bees_ahead(queen: QueenDates) -> BeesAhead | None:
    """Give what is ahead; None where nothing was told of the bees and brood it was made of."""
    state = queen.state
    if state.stage in _QUEENLESS:
        return _without_queen(state)
    if state.stage in {Stage.EMPTY, Stage.ENDED}:
        return None
    eggs, account = queen.expected_eggs, colony_of(queen).account
    if account is None or not strength_told(account.told):
        return None
    too_few = too_few_from(account, eggs)
    by = brood_by(too_few) if too_few is not None else None
    return BeesAhead(low_point(account, eggs), too_few, by)


def _without_queen(state: UnitState) -> BeesAhead | None:
    since = queenless_since(state)
    verdict = verdict_on(state, since) if since is not None else None
    if verdict is None:
        return None
    return BeesAhead(laying_workers_from=laying_workers_likely(state), another_round=verdict)
