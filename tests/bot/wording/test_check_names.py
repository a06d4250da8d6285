from datetime import date
from itertools import product

import pytest

from bot.channels.sms.segments import is_gsm7
from bot.wording.check_names import stage_name, to_do
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Why
from scheduling.places import Place, UnitName
from scheduling.units.state import Stage, UnitState

PLACE = Place("River", UnitName(4, "b"))


@pytest.mark.parametrize("kind", CheckKind)
def test_every_check_says_what_to_do_in_a_word_of_its_own(kind: CheckKind) -> None:
    others = {to_do(other) for other in CheckKind if other is not kind}
    assert to_do(kind) not in others
    assert is_gsm7(to_do(kind))
    assert len(to_do(kind)) <= 24


@pytest.mark.parametrize(
    ("kind", "cause", "words"),
    [
        (CheckKind.GIVE_UP, Cause.LATE_VIRGIN, "last look for eggs"),
        (CheckKind.GIVE_UP, Cause.LAYING_WORKERS_SEEN, "break up"),
        (CheckKind.FEED, Cause.FOOD_LOOK, "check food"),
        (CheckKind.FEED, Cause.FOOD_LOW, "feed"),
        (CheckKind.FEED, Cause.FOOD_RUNS_LOW, "feed"),
        (CheckKind.FEED, Cause.ROBBED, "check for robbing"),
        (CheckKind.BOOST, Cause.FEW_BEES, "add nurse bees"),
        (CheckKind.BOOST, Cause.BEES_RUN_SHORT, "give brood"),
        (CheckKind.RECELL, Cause.TOO_WEAK, "combine"),
    ],
)
def test_the_cause_may_change_what_there_is_to_do(
    kind: CheckKind, cause: Cause, words: str
) -> None:
    assert to_do(kind, Why(cause)) == words


def test_what_to_add_and_what_to_put_in_is_named() -> None:
    assert to_do(CheckKind.BOOST, Why(Cause.FEW_BEES, shakes=1)) == "add 1 shake of nurse bees"
    assert to_do(CheckKind.BOOST, Why(Cause.FEW_BEES, shakes=3)) == "add 3 shakes of nurse bees"
    in_on = date(2027, 5, 1)
    assert to_do(CheckKind.TRAP, Why(Cause.TRAP_FULL, about=in_on)) == "put a trap in"
    assert to_do(CheckKind.TRAP, Why(Cause.TRAP_FULL, seen=in_on)) == "see to trap"


def test_every_check_can_be_said_for_every_cause() -> None:
    assert all(to_do(kind, Why(cause)) for kind, cause in product(CheckKind, Cause))


@pytest.mark.parametrize("stage", Stage)
def test_every_stage_has_a_name_of_its_own(stage: Stage) -> None:
    others = {stage_name(UnitState(PLACE, other)) for other in Stage if other is not stage}
    assert stage_name(UnitState(PLACE, stage)) not in others


def test_a_released_mated_queen_is_not_called_a_virgin() -> None:
    state = UnitState(PLACE, Stage.VIRGIN, mated_when_placed=True)
    assert stage_name(state) == "mated queen, not yet seen to lay"
