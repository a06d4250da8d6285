"""A crew's own odds and days: kept in the database, and as usual where nothing was settled."""

import pytest

from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import ANY_DAY
from scheduling.walk.odds import USUAL, Odds, settled


def test_a_new_crew_goes_by_the_usual_odds_on_any_day(records: CrewRecords) -> None:
    assert records.crew().odds == USUAL
    assert records.crew().weekdays == ANY_DAY


def test_odds_are_kept_and_go_back_to_the_usual(records: CrewRecords) -> None:
    bold = records.settle_odds(best=0.6, give_up=0.05)
    assert records.crew() == bold
    assert (bold.odds.best, bold.odds.give_up) == (0.6, 0.05)
    assert records.settle_odds().odds == USUAL


def test_days_are_kept_and_go_back_to_any(records: CrewRecords) -> None:
    assert records.settle_weekdays({6, 5}).weekdays == {5, 6}
    assert records.crew().weekdays == {5, 6}
    assert records.settle_weekdays(ANY_DAY).weekdays == ANY_DAY


@pytest.mark.parametrize("wrong", [set(), {7}, {-1, 0}], ids=str)
def test_a_week_without_a_day_or_with_a_strange_one_is_refused(
    records: CrewRecords, wrong: set[int]
) -> None:
    with pytest.raises(ValueError, match="weekday"):
        records.settle_weekdays(wrong)
    assert records.crew().weekdays == ANY_DAY


@pytest.mark.parametrize(
    ("best", "give_up"), [(0.49, None), (0.96, None), (None, 0.51), (None, 0.009)]
)
def test_odds_at_which_nobody_should_look_or_give_up_are_refused(
    records: CrewRecords, best: float | None, give_up: float | None
) -> None:
    with pytest.raises(ValueError, match=r"not at|under"):
        records.settle_odds(best=best, give_up=give_up)
    assert records.crew().odds == USUAL


def test_the_earliest_and_latest_look_follow_the_best() -> None:
    assert settled(0.95) == Odds(not_before=0.5, best=0.95, latest=0.95)
    assert settled(0.5) == Odds(not_before=0.5, best=0.5, latest=0.9)
    assert settled() == USUAL


def test_what_was_settled_stands_beside_the_yards_at_once(records: CrewRecords) -> None:
    assert records.at_a_glance().crew == records.crew()
    settled = records.settle_odds(best=0.7)
    assert records.at_a_glance().crew == settled == records.crew()
