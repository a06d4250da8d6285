"""The week as a keeper reads it: yards by day, late work first, and what can wait."""

from datetime import date, timedelta
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from bot.channels.sms.segments import is_gsm7, segments
from bot.wording.morning_message import week_message
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.places import Place, UnitName

TODAY = date(2026, 5, 14)
TWELVE = tuple(UnitName(box, letter) for box, letter in product(range(1, 5), "abc"))
YARDS = {"River": TWELVE}


def day(number: int) -> date:
    return TODAY + timedelta(days=number)


def checks(units: str, kind: CheckKind, by: int = 2, yard: str = "River") -> tuple[Check, ...]:
    why = Why(Cause.EGGS_EXPECTED, about=TODAY)
    places = (Place(yard, UnitName.parse(unit)) for unit in units.split())
    return tuple(Check(place, kind, min(TODAY, day(by)), TODAY, day(by), why) for place in places)


def laying(units: str, by: int = 2, yard: str = "River") -> tuple[Check, ...]:
    return checks(units, CheckKind.LAYING, by, yard)


def food(units: str, by: int = 2, yard: str = "River") -> tuple[Check, ...]:
    return checks(units, CheckKind.FEED, by, yard)


def test_the_week_by_day_and_yard() -> None:
    days = {day(0): laying("1a 1b 1c"), day(1): (), day(2): (*laying("2b"), *food("7", 2, "Hill"))}
    assert week_message(days, {"River": TWELVE}).text == (
        "This week, Thu 14 May:\n"
        "River: look for eggs 1\n"
        "Sat 16 May:\n"
        "Hill: check food 7\n"
        "River: look for eggs 2b"
    )
    assert week_message({}, {}).text == "Nothing due this week."


def test_late_work_stands_first_in_its_yard_and_its_yard_first_in_the_day() -> None:
    today = (*food("7", 2, "Hill"), *laying("1a 1b 1c"), *food("4a", -1))
    assert week_message({day(0): today}, YARDS).text == (
        "This week, Thu 14 May:\nRiver: late: check food 4a; look for eggs 1\nHill: check food 7"
    )


def test_a_check_without_a_day_left_is_named_before_all_else() -> None:
    text = week_message({day(0): laying("1a")}, YARDS, no_day=food("4a", -1)).text
    assert text == (
        "This week, no day left for:\n"
        "River: late: check food 4a\n"
        "Thu 14 May:\n"
        "River: look for eggs 1a"
    )


def test_what_can_wait_stands_last_and_is_never_called_late() -> None:
    text = week_message({day(0): laying("1a")}, YARDS, waiting=food("4a", -1)).text
    assert (
        text == "This week, Thu 14 May:\nRiver: look for eggs 1a\nCan wait:\nRiver: check food 4a"
    )


def test_a_week_without_a_drive_says_so_before_what_can_wait() -> None:
    text = week_message({day(0): ()}, YARDS, waiting=checks("4a", CheckKind.TAKE)).text
    assert text == "Nothing due this week, can wait:\nRiver: queen ready 4a"


@given(st.lists(st.tuples(st.integers(0, 6), st.sampled_from(TWELVE), st.sampled_from(CheckKind))))
def test_every_page_fits_three_segments_and_no_place_is_left_out(
    told: list[tuple[int, UnitName, CheckKind]],
) -> None:
    yards = [f"Yard {number}" for number in range(4)]
    days: dict[date, list[Check]] = {}
    for ahead, unit, kind in told:
        for yard in yards:
            days.setdefault(day(ahead), []).extend(checks(str(unit), kind, 6, yard))
    message = week_message(days, dict.fromkeys(yards, TWELVE), 3)
    assert all(is_gsm7(part) and segments(part) <= 3 for part in message.parts)
    shown = "\n".join(message.parts)
    assert all(f"{yard}: " in shown for yard in yards) or not told
