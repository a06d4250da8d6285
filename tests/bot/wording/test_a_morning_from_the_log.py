"""A morning worked out from an invented log, through every room it passes."""

from datetime import UTC, date, datetime, timedelta

from bot.channels.sms.segments import segments
from bot.wording.groups import lay_out_by_yard
from bot.wording.morning_message import due_message, morning_message, week_message
from scheduling.checks.calendar import Calendar, work_out
from scheduling.checks.check import Check
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import CellAge, Value
from scheduling.visits import coming, due_on

TWELVE = [UnitName(box, letter) for box in range(1, 5) for letter in "abc"]
UNITS = {"River": TWELVE}
PLACED = date(2026, 5, 1)


def entry(unit: UnitName, kind: EntryKind, days: int, value: Value | None = None) -> Entry:
    on = PLACED + timedelta(days=days)
    noon = datetime(on.year, on.month, on.day, 12, tzinfo=UTC)
    uid = f"{unit} {kind} {days}"
    return Entry(uid, Place("River", unit), kind, value, on, noon, "Pat")


def season() -> Calendar:
    """Ripe cells in boxes 1 and 2 on 1 May, in 3 and 4 a week later; 2c was a dud."""
    log = []
    for unit in TWELVE:
        placed = 0 if unit.box < 3 else 7
        log.append(entry(unit, EntryKind.CELL_PLACED, placed, CellAge(days_since_graft=10)))
        log.append(entry(unit, EntryKind.TRAP_SET, placed))
        kind = EntryKind.CELL_FAILED if str(unit) == "2c" else EntryKind.EMERGED
        log.append(entry(unit, kind, placed + 3))
    return work_out(log)


def words_on(day: date) -> str | None:
    message = morning_message(lay_out_by_yard(due_on(season(), day), UNITS), day)
    return None if message is None else message.text


def test_on_the_day_eggs_are_looked_for_the_others_rest() -> None:
    text = words_on(date(2026, 5, 15))
    assert text is not None
    lines = text.split("\n")
    assert lines[0] == "Fri 15 May, River:"
    assert any(line.startswith("Look for eggs 1 2ab (eggs due ") for line in lines)
    assert any(line.startswith("Leave alone 3 4 to ") for line in lines)
    assert any(line.startswith("Late: give a cell 2c (bad cell Mon 4 May") for line in lines)
    assert segments(text) <= 2


def test_a_day_on_which_all_rest_has_no_message() -> None:
    assert words_on(date(2026, 5, 2)) is None


def test_what_the_partner_took_is_off_the_list_and_under_due_with_the_name() -> None:
    day = date(2026, 5, 15)
    plan = due_on(season(), day)
    assert morning_message(lay_out_by_yard(plan, UNITS, {"River": "Pat"}, "Sam"), day) is None
    assert due_message(lay_out_by_yard(plan, UNITS, {"River": "Pat"}, "Sam"), day).text == (
        "Due Fri 15 May, River:\nPat has it today"
    )
    assert morning_message(lay_out_by_yard(plan, UNITS, {"River": "Pat"}, "Pat"), day) is not None


def test_the_week_ahead_has_a_line_for_every_day_with_work() -> None:
    first = date(2026, 5, 12)
    days: dict[date, list[Check]] = {}
    for check in coming(season(), first, first + timedelta(days=6)):
        assert check.best is not None
        days.setdefault(check.best, []).append(check)
    text = week_message(days, UNITS).text
    assert text.startswith("This week, ")
    assert text.count("River: ") == len(days)
