from datetime import date, timedelta

import pytest

from bot.channels.sms.segments import is_gsm7
from bot.wording.reasons import reason
from scheduling.checks.check import Cause, Why
from scheduling.colony.stores import Dose

TODAY = date(2026, 5, 14)
TUESDAY = date(2026, 5, 12)
SUNDAY = date(2026, 5, 17)


@pytest.mark.parametrize(
    ("why", "clause"),
    [
        (Why(Cause.CELLS_READY, about=TODAY), "cells ripe today"),
        (Why(Cause.PUPAE_HANG_LOOSE), "pupae hang loose, do not jolt the cells"),
        (Why(Cause.SHOULD_BE_OUT, about=TUESDAY), "should be out since Tue"),
        (Why(Cause.SHOULD_BE_OUT, about=TODAY), "should be out today"),
        (Why(Cause.SHOULD_BE_OUT, about=SUNDAY), "should be out Sun"),
        (Why(Cause.STILL_SEALED, seen=TUESDAY), "still sealed Tue"),
        (Why(Cause.SETTLING), "just placed, let them settle"),
        (Why(Cause.CANDY_EATEN, days=3), "candy should be eaten after 3 days"),
        (Why(Cause.STILL_CAGED, seen=TUESDAY), "still caged Tue"),
        (Why(Cause.MATURING_AND_MATING, about=SUNDAY), "maturing and mating to Sun"),
        (Why(Cause.EGGS_EXPECTED, about=TUESDAY), "eggs due since Tue"),
        (Why(Cause.EGGS_EXPECTED, about=date(2026, 5, 24)), "eggs due from Sun 24 May"),
        (
            Why(Cause.EGGS_DELAYED, about=TODAY, days=3),
            "eggs due today, 3 days late for no flying weather",
        ),
        (Why(Cause.NO_EGGS_YET, seen=date(2026, 5, 7)), "no eggs Thu 7 May, may still lay"),
        (Why(Cause.LATE_VIRGIN, days=21, about=SUNDAY), "not laying at 21 days, give up from Sun"),
        (Why(Cause.WORKER_BROOD_SEALS, seen=date(2026, 5, 5)), "eggs seen Tue 5 May"),
        (Why(Cause.SPOTTY_BROOD, seen=TUESDAY), "spotty Tue, look again"),
        (Why(Cause.LAYING_LONG_ENOUGH, seen=date(2026, 4, 23)), "laying since Thu 23 Apr"),
        (
            Why(Cause.CELL_WAS_BAD, seen=TUESDAY, about=date(2026, 5, 26)),
            "bad cell Tue, laying workers likely from Tue 26 May",
        ),
        (Why(Cause.QUEEN_LOST, seen=TUESDAY), "no queen since Tue"),
        (Why(Cause.QUEEN_WAS_TAKEN, seen=TUESDAY), "queen taken Tue, next cell goes in"),
        (Why(Cause.DRONE_LAYER_SEEN, seen=TUESDAY), "only drone brood Tue, she must go"),
        (Why(Cause.LAYING_WORKERS_SEEN, seen=TUESDAY), "laying workers Tue, combine or shake out"),
        (Why(Cause.OWN_CELLS_SEEN, seen=TUESDAY), "own cells seen Tue"),
        (
            Why(Cause.NO_OPEN_BROOD, seen=TUESDAY, about=SUNDAY),
            "no open brood since Tue, laying workers likely from Sun",
        ),
        (Why(Cause.FOOD_LOOK, seen=date(2026, 5, 7), days=7), "food last seen Thu 7 May"),
        (Why(Cause.FOOD_LOW, seen=TUESDAY), "food low Tue"),
        (Why(Cause.TRAP_FULL, seen=date(2026, 5, 7), days=7), "trap last done Thu 7 May"),
        (Why(Cause.FOOD_LOW, seen=TUESDAY, dose=Dose(0.5, 3.9)), "food low Tue, 4 jars 1:1"),
        (Why(Cause.FOOD_RUNS_LOW, about=SUNDAY, dose=Dose(0, 2)), "food low from Sun, 2 jars 1:1"),
        (
            Why(Cause.FOOD_RUNS_LOW, about=TODAY, dose=Dose(0, 1.9, feeder_litres=4), dearth=True),
            "food low today, 1.9 l 1:1, dearth: 19 mm entrance, feed inside at dusk",
        ),
        (Why(Cause.FEW_BEES, shakes=1), "too few to warm the brood, add them at once"),
        (Why(Cause.BEES_RUN_SHORT, about=SUNDAY), "too few bees from Sun"),
        (Why(Cause.TOO_WEAK, seen=TUESDAY), "no queen since Tue, too few bees for another round"),
        (Why(Cause.TRAP_FULL), "no trap in yet"),
        (Why(Cause.BEETLES_RISE, seen=date(2026, 5, 7), beetles=6), "up to 6 beetles Thu 7 May"),
        (Why(Cause.ROBBED, seen=TUESDAY), "robbed Tue, look for damage and food"),
        (Why(Cause.PUT_OFF, about=TODAY), "put off to today"),
    ],
)
def test_a_cause_is_said_in_one_clause(why: Why, clause: str) -> None:
    assert reason(why, TODAY) == clause


@pytest.mark.parametrize("cause", Cause)
@pytest.mark.parametrize("day", [None, TODAY - timedelta(days=40), TODAY, SUNDAY])
@pytest.mark.parametrize("days", [None, 1, 9])
def test_every_cause_has_a_short_clause_whatever_is_known(
    cause: Cause, day: date | None, days: int | None
) -> None:
    clause = reason(Why(cause, seen=day, about=day, days=days), TODAY)
    assert is_gsm7(clause)
    assert 0 < len(clause) <= 72
    assert "None" not in clause
