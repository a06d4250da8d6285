"""Cases of the walk that can be worked out by hand."""

from dataclasses import replace

import pytest

from scheduling.walk.case import DAYS, GOOD_WEATHER, Case, Sight
from scheduling.walk.model import walk
from scheduling.walk.stages import PUBLISHED, Spread, Stages, certain
from tests.scheduling.walk.queens import (
    CELL,
    OUT,
    SURE,
    always_raining,
    raining,
    seen,
    without_losses,
)


def eggs(case: Case, stages: Stages = PUBLISHED) -> list[float]:
    return list(walk(case, stages).eggs)


def first_sure_day(case: Case, stages: Stages) -> int:
    return eggs(case, stages).index(1.0)


def test_without_spread_the_walk_is_the_calendar() -> None:
    assert eggs(OUT, SURE) == [0.0] * 8 + [1.0] * (DAYS - 8)


def test_without_spread_each_day_of_rain_is_one_day() -> None:
    assert first_sure_day(raining(OUT, 5), SURE) == 9
    assert first_sure_day(raining(OUT, 5, 6, 7), SURE) == 11
    assert first_sure_day(raining(OUT, 4, 6), SURE) == 8


def test_a_queen_that_can_never_fly_never_lays() -> None:
    walked = walk(always_raining(OUT))
    assert not any(walked.eggs)
    assert walked.failed[PUBLISHED.mates_until] == pytest.approx(1)
    assert walked.virgin[PUBLISHED.mates_until - 1] > 0.9


def test_half_a_mating_day_twice_is_a_whole_one() -> None:
    once = replace(OUT, flying=(0.0,) * 7 + (1.0,) + (0.0,) * (DAYS - 8))
    twice = replace(OUT, flying=(0.0,) * 7 + (0.5, 0.5) + (0.0,) * (DAYS - 9))
    last = [eggs(case, without_losses())[-1] for case in (once, twice)]
    assert last[0] == pytest.approx(last[1], abs=1e-3)


def test_one_day_of_flying_weather_mates_the_share_that_is_mature() -> None:
    case = replace(OUT, flying=(0.0,) * 10 + (1.0,) + (0.0,) * (DAYS - 11))
    walked = walk(case, without_losses())
    assert walked.eggs[-1] == pytest.approx(PUBLISHED.flight_chance)


def test_a_queen_of_24_days_mates_well_in_four_of_seven() -> None:
    stages = replace(SURE, flight_chance=1.0)
    case = replace(OUT, flying=(0.0,) * 24 + (1.0,) * (DAYS - 24))
    walked = walk(case, stages)
    assert walked.eggs[-1] == pytest.approx(4 / 7)
    assert walked.failed[-1] == pytest.approx(3 / 7)


def test_a_cell_is_a_dud_in_one_of_four() -> None:
    walked = walk(CELL)
    assert walked.failed[0] == pytest.approx(1 - PUBLISHED.emerge)
    assert walked.emerged[5] == pytest.approx(PUBLISHED.emerge)


def test_a_cell_still_sealed_a_day_late_is_a_dud_more_often() -> None:
    """Bayes by hand: three in four emerge, half of them on day 0 and half on day 1."""
    case = Case(Spread(0, (0.5, 0.5)))
    sealed = walk(seen(case, (0, Sight.SEALED)))
    assert sealed.failed[0] == pytest.approx(0.25 / (0.25 + 0.375))
    late = walk(seen(case, (1, Sight.SEALED)))
    assert late.failed[1] == 1


def test_a_cell_that_is_open_is_no_dud() -> None:
    walked = walk(seen(CELL, (3, Sight.OUT)))
    assert walked.emerged[3] == pytest.approx(1)
    assert walked.failed[3] < 0.01


def test_eggs_seen_are_certain_from_then_on() -> None:
    assert eggs(seen(CELL, (12, Sight.EGGS)))[12:] == pytest.approx([1.0] * (DAYS - 12))


def test_drone_brood_is_the_end_of_it() -> None:
    walked = walk(seen(raining(OUT, *range(26)), (30, Sight.DRONE_BROOD)))
    assert walked.failed[-1] == pytest.approx(1)


def test_a_look_that_may_miss_eggs_leaves_some_chance_of_them() -> None:
    """Bayes by hand: she lays with certainty, so they must have been missed."""
    assert eggs(seen(OUT, (9, Sight.NO_EGGS)), SURE)[9] == 1
    half = replace(SURE, flight_chance=0.5)
    before = eggs(OUT, half)[8]
    missed = half.eggs_missed
    after = before * missed / (before * missed + 1 - before)
    assert eggs(seen(OUT, (8, Sight.NO_EGGS)), half)[8] == pytest.approx(after)


def test_no_queen_found_makes_a_lost_one_likelier() -> None:
    """Bayes by hand: four in five came home, and three in ten looks miss one who is there."""
    stages = replace(SURE, back=0.8)
    walked = walk(seen(OUT, (6, Sight.NO_QUEEN)), stages)
    lost = 0.2 / (0.2 + 0.8 * stages.queen_missed)
    assert walked.failed[6] == pytest.approx(lost)


def test_a_virgin_seen_is_not_lost() -> None:
    walked = walk(seen(CELL, (10, Sight.VIRGIN)))
    assert walked.failed[10] == pytest.approx(0)
    assert walked.eggs[10] < 0.1


def test_a_queen_seen_tells_that_she_is_there_and_nothing_of_eggs() -> None:
    told, untold = walk(seen(OUT, (12, Sight.QUEEN))).eggs[12], walk(OUT).eggs[12]
    assert told == pytest.approx(untold / (1 - walk(OUT).failed[12]))


def test_what_cannot_be_is_known_for_it() -> None:
    assert walk(CELL).possible
    assert not walk(seen(CELL, (2, Sight.OUT), (4, Sight.SEALED))).possible


def test_what_the_walk_is_told_is_checked() -> None:
    with pytest.raises(ValueError, match="spread"):
        Case(certain(1))
    with pytest.raises(ValueError, match="weather of 3 days"):
        Case(certain(0), flying=(1.0,) * 3)
    with pytest.raises(ValueError, match="seen on no other"):
        Case(certain(0), flying=GOOD_WEATHER, seen=((-1, Sight.EGGS),))
