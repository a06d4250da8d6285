"""``week`` by chat: one drive for checks of different days, across boxes and yards."""

from datetime import date

from deploy.standins.phones import Phones, river_of_three


def days_told(week: str) -> list[str]:
    return [line for line in week.splitlines() if line.endswith(" May:")]


def test_two_looks_a_few_days_apart_share_one_day(phones: Phones) -> None:
    river_of_three(phones)
    phones.on(date(2027, 5, 1)).say("Ada", "10 day cells in 1a-c")
    phones.on(date(2027, 5, 2)).say("Ada", "10 day cells in 2a-c")

    week = phones.say("Ada", "week")

    assert "see if out 1 2" in week
    assert len(days_told(week)) == 1


def test_late_work_is_told_for_today(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "10 day cells in 1a, 1b dud")
    phones.on(date(2027, 5, 27))

    first, second, *_ = phones.say("Ada", "week").splitlines()

    assert first == "This week, Thu 27 May:"
    assert second.startswith("River: late: ")


def test_a_yard_by_name_shows_its_own_visits_only(phones: Phones) -> None:
    river_of_three(phones)
    phones.each("Ada", "10 day cells in 1a-c", "new yard Hill", "boxes 1-2 of 3")
    phones.say("Ada", "10 day cells in hill 1a-c")

    assert {"River: ", "Hill: "} <= {
        line.split(": ")[0] + ": " for line in phones.say("Ada", "week").splitlines()
    }
    assert "River" not in phones.say("Ada", "week hill")
