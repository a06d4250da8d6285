"""Mornings of an invented yard, read as the keeper reads them."""

from datetime import date, timedelta
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.sms.segments import is_gsm7, segments, septets
from bot.wording.check_names import CHECK_WORDS
from bot.wording.groups import YardDay
from bot.wording.morning_message import due_message, morning_message, tomorrow_message
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.places import Place, UnitName

TODAY = date(2026, 5, 14)
TUESDAY = date(2026, 5, 12)
TWELVE = tuple(UnitName(box, letter) for box, letter in product(range(1, 5), "abc"))
TWENTY = tuple(UnitName(box, letter) for box, letter in product(range(1, 6), "abcd"))


def day(number: int) -> date:
    return TODAY + timedelta(days=number)


def check(unit: str, kind: CheckKind, why: Why, by: int | None = 2, yard: str = "River") -> Check:
    """A check best done today and useful for ``by`` days more."""
    last = None if by is None else day(by)
    first = min(TODAY, last or TODAY)
    return Check(Place(yard, UnitName.parse(unit)), kind, first, first, last, why)


def rest(unit: str, to: int, yard: str = "River") -> Check:
    why = Why(Cause.MATURING_AND_MATING, about=day(to))
    place = Place(yard, UnitName.parse(unit))
    return Check(place, CheckKind.REST, day(-1), None, day(to), why)


def laying(units: str, yard: str = "River") -> tuple[Check, ...]:
    why = Why(Cause.EGGS_EXPECTED, about=TODAY)
    return tuple(check(unit, CheckKind.LAYING, why, yard=yard) for unit in units.split())


def late_release(units: str, yard: str = "River") -> tuple[Check, ...]:
    why = Why(Cause.STILL_CAGED, seen=TUESDAY)
    return tuple(check(unit, CheckKind.RELEASE, why, -1, yard) for unit in units.split())


def food(units: str, yard: str = "River") -> tuple[Check, ...]:
    why = Why(Cause.FOOD_LOOK, seen=day(-7), days=7)
    return tuple(check(unit, CheckKind.FEED, why, yard=yard) for unit in units.split())


def traps(units: str, yard: str = "River") -> tuple[Check, ...]:
    why = Why(Cause.TRAP_FULL, seen=day(-7), days=7)
    return tuple(check(unit, CheckKind.TRAP, why, yard=yard) for unit in units.split())


BROOD = Why(Cause.WORKER_BROOD_SEALS, seen=day(-9), about=day(-1))
RIVER = YardDay(
    "River",
    due=(
        *laying("1a 1b 1c 2a"),
        check("2b", CheckKind.SEALED_BROOD, BROOD),
        *late_release("4a 4c"),
        *food("1a 1b 1c 4b"),
        *traps("1a 1b 1c 4b"),
    ),
    rests=(rest("3a", 3), rest("3b", 3), rest("3c", 5)),
    units=TWELVE,
)


def test_a_twelve_unit_morning_in_two_segments() -> None:
    message = morning_message([RIVER], TODAY)
    assert message is not None
    assert message.text == (
        "Thu 14 May, River:\n"
        "Late: check cage 4ac (still caged Tue)\n"
        "Look for eggs 1 2a (eggs due today)\n"
        "Look for sealed brood 2b (eggs seen Tue 5 May)\n"
        "Leave alone 3ab to Sun, 3c to Tue\n"
        "Check food 1 4b\n"
        "See to trap 1 4b\n"
        'Reply like "4a released, 4c still caged"\n'
        "More: due"
    )
    assert septets(message.text) == 258
    assert segments(message.text) == 2


def test_a_short_morning_keeps_every_reason_in_one_segment() -> None:
    message = morning_message(
        [YardDay("River", (*laying("4a 4b 4c"), *food("2a")), (), TWELVE)], TODAY
    )
    assert message is not None
    assert message.text == (
        "Thu 14 May, River:\n"
        "Look for eggs 4 (eggs due today)\n"
        "Check food 2a (food last seen Thu 7 May)\n"
        'Reply like "4a eggs, 4c no eggs"\n'
        "More: due"
    )
    assert segments(message.text) == 1


def test_nothing_due_is_no_message() -> None:
    assert morning_message([], TODAY) is None
    assert morning_message([YardDay("River", (), (rest("3a", 3),), TWELVE)], TODAY) is None


def test_the_yard_with_something_late_comes_first() -> None:
    hill = YardDay("Hill", late_release("7a", "Hill"), (), (UnitName(7, "a"), UnitName(7, "b")))
    message = morning_message([YardDay("River", laying("4a")), hill], TODAY)
    assert message is not None
    assert message.text == (
        "Thu 14 May, Hill:\n"
        "Late: check cage 7a (still caged Tue)\n"
        "River:\n"
        "Look for eggs 4a (eggs due today)\n"
        'Reply like "Hill 7a released"\n'
        "More: due"
    )


def test_a_yard_taken_by_the_partner_is_off_the_morning() -> None:
    hill = YardDay("Hill", laying("7a", "Hill"), taken_by="Pat")
    message = morning_message([RIVER, hill], TODAY)
    assert message is not None
    assert "Hill" not in message.text
    assert morning_message([hill], TODAY) is None


def test_due_says_who_has_a_yard() -> None:
    hill = YardDay("Hill", laying("7a", "Hill"), taken_by="Pat")
    assert due_message([hill], TODAY).text == "Due Thu 14 May, Hill:\nPat has it today"


def test_food_is_given_under_the_lid_while_a_unit_rests() -> None:
    low = check("3a", CheckKind.FEED, Why(Cause.FOOD_LOW, seen=day(-1)))
    message = morning_message([YardDay("River", (low,), (rest("3a", 3),))], TODAY)
    assert message is not None
    assert "Leave alone 3a to Sun\nFeed (lid only) 3a (food low yesterday)" in message.text


def test_a_batch_is_named_by_its_graft_day() -> None:
    ripe = Why(Cause.CELLS_READY, about=TODAY)
    batch = Place("River", batch="2026-05-04")
    cells = Check(batch, CheckKind.CELLS_RIPE, TODAY, TODAY, TODAY, ripe)
    message = morning_message([YardDay("River", (cells,))], TODAY)
    assert message is not None
    assert message.text == (
        "Thu 14 May, River:\nPlace cells batch Mon 4 May (cells ripe today)\nMore: due"
    )


def test_buttons_are_what_could_be_typed() -> None:
    message = morning_message([RIVER], TODAY)
    assert message is not None
    assert [[button.text for button in row] for row in message.buttons] == [
        ["1 2a eggs", "1 2a no eggs"],
        ["4ac released", "4ac still caged"],
        ["2b good brood", "2b spotty"],
        ["fed 1 4b"],
        ["trap 1 4b"],
    ]


def test_every_line_that_can_be_answered_has_its_button() -> None:
    full = Why(Cause.STILL_CAGED, seen=TUESDAY)
    kinds = [kind for kind, words in CHECK_WORDS.items() if words.replies]
    due = tuple(check(str(TWENTY[at]), kind, full) for at, kind in enumerate(kinds))
    message = morning_message([YardDay("River", due, (), TWENTY)], TODAY, most=9)
    assert message is not None
    assert [len(row) for row in message.buttons] == [
        len(CHECK_WORDS[kind].replies) for kind in kinds
    ]


def test_what_must_be_done_otherwise_is_answered_otherwise() -> None:
    few = check("1a", CheckKind.BOOST, Why(Cause.FEW_BEES, shakes=2))
    weak = check("1b", CheckKind.RECELL, Why(Cause.TOO_WEAK))
    message = morning_message([YardDay("River", (few, weak), (), TWELVE)], TODAY)
    assert message is not None
    assert [[button.text for button in row] for row in message.buttons] == [["bees added 1a"]]


def test_a_line_too_long_for_a_button_has_several() -> None:
    units = tuple(UnitName(box, letter) for box in range(101, 121) for letter in "abc")
    odd = " ".join(str(unit) for unit in units if unit.letter != "b")
    message = morning_message([YardDay("River", laying(odd), (), units)], TODAY)
    assert message is not None
    texts = [row[0].text for row in message.buttons]
    assert all(len(text.encode()) <= 48 for text in texts)
    assert all(any(f"{box}ac" in text for text in texts) for box in range(101, 121))


def test_buttons_name_the_yard_when_there_are_several() -> None:
    message = morning_message([YardDay("River", food("4a 4b")), YardDay("Hill", traps("2"))], TODAY)
    assert message is not None
    assert [[button.text for button in row] for row in message.buttons] == [
        ["fed River 4ab"],
        ["trap Hill 2"],
    ]


def mixed_yard(yard: str, shift: int) -> YardDay:
    """Twenty units at as many points of their round as there are kinds of work."""
    found: list[Check] = []
    rests: list[Check] = []
    for turn, unit in enumerate(map(str, TWENTY)):
        match (turn + shift) % 5:
            case 0:
                found += (*laying(unit, yard), *traps(unit, yard))
            case 1:
                found += late_release(unit, yard)
            case 2:
                why = Why(Cause.NO_EGGS_YET, seen=day(-7 - turn % 3))
                found += (check(unit, CheckKind.LAYING, why, yard=yard), *food(unit, yard))
            case 3:
                found.append(check(unit, CheckKind.SEALED_BROOD, BROOD, yard=yard))
            case _:
                rests.append(rest(unit, 3 + turn % 4, yard))
    return YardDay(yard, tuple(found), tuple(rests), TWENTY)


def test_sixty_units_in_three_yards_take_three_segments_and_more_gives_the_rest() -> None:
    yards = [mixed_yard("River", 0), mixed_yard("Hill", 1), mixed_yard("Old Orchard", 2)]
    message = morning_message(yards, TODAY)
    assert message is not None
    assert [segments(part) for part in message.parts] == [3, 2]
    assert "more: type more\nReply like " in message.parts[0]
    assert "\nOld Orchard:\n" in message.parts[-1]


@pytest.mark.parametrize("count", [60, 200, 900])
def test_a_list_of_any_length_loses_no_unit(count: int) -> None:
    names = [f"{box}{letter}" for box in range(1, count + 1, 2) for letter in "ac"]
    message = morning_message([YardDay("River", laying(" ".join(names)))], TODAY)
    assert message is not None
    words = " ".join(message.parts).replace("ac", "a").split()
    assert [f"{box}a" for box in range(1, count + 1, 2) if f"{box}a" not in words] == []
    assert all(segments(part) <= 3 for part in message.parts)


OPENED = [kind for kind in CheckKind if kind not in (CheckKind.REST, CheckKind.CELLS_RIPE)]


@st.composite
def twelve_units(draw: st.DrawFn) -> YardDay:
    """Any mix a yard of twelve could show, likely or not: early, late, at rest, fed, trapped."""
    found: list[Check] = []
    rests: list[Check] = []
    for unit in map(str, TWELVE):
        if draw(st.booleans()):
            rests.append(rest(unit, draw(st.integers(1, 12))))
        for kind in draw(st.sets(st.sampled_from(OPENED), max_size=3)):
            why = Why(draw(st.sampled_from(Cause)), day(draw(st.integers(-30, 0))), day(3), 12)
            found.append(check(unit, kind, why, draw(st.integers(-3, 5))))
    return YardDay("River", (*found, *laying("1a")), tuple(rests), TWELVE)


@given(twelve_units())
def test_twelve_units_never_take_more_than_two_segments(yard_day: YardDay) -> None:
    message = morning_message([yard_day], TODAY)
    assert message is not None
    assert all(is_gsm7(part) and septets(part) <= 306 for part in message.parts)


def test_nothing_due_says_what_comes() -> None:
    (coming,) = laying("4a")
    coming = Check(coming.place, coming.kind, day(3), day(3), day(5), coming.why)
    assert due_message([], TODAY).text == "Nothing due today."
    assert (
        due_message([], TODAY, lambda: coming).text
        == "Nothing due today. Next: River, look for eggs 4a, Sun."
    )


def test_tomorrow() -> None:
    assert tomorrow_message([], day(1)).text == "Nothing due tomorrow."
    assert tomorrow_message([YardDay("River", traps("4a"))], day(1)).text == (
        "Tomorrow Fri 15 May, River:\nSee to trap 4a (trap last done Thu 7 May)"
    )
