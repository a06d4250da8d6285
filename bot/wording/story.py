"""A unit's story in three lines, and the lists of ready queens and failing units."""

from collections.abc import Iterable, Sequence
from datetime import date

from bot.wording.check_names import stage_name, to_do
from bot.wording.days import day_words, full_day
from bot.wording.findings import finding_words
from bot.wording.lines import Line
from bot.wording.message import Message
from bot.wording.pages import pages
from bot.wording.plain_letters import to_gsm7
from bot.wording.quantities import counted
from bot.wording.reasons import reason
from scheduling.checks.check import Check, CheckKind
from scheduling.entries import Entry
from scheduling.units import Stage, UnitState

_MOST_SEGMENTS = 3

_LOST = frozenset({Stage.WAITING, Stage.ENDED, Stage.DRONE_LAYER, Stage.LAYING_WORKERS})


def story(state: UnitState, checks: Iterable[Check], today: date) -> str:
    """Three lines: what the unit is and since when, what was last seen, what comes next."""
    lines = [
        f"{state.place}: {_now(state, today)}",
        f"Last: {_last(state.entries, today)}",
        f"Next: {_next(list(checks), today)}",
    ]
    return to_gsm7("\n".join(lines))


def queens(ready: Sequence[UnitState], today: date) -> Message:
    """List the queens that may be taken, in the order given (longest laying first)."""
    if not ready:
        return Message(("No queen ready to take yet.",))
    lines = [Line(state.place.yard, _laying_words(state, today), (state.place,)) for state in ready]
    return Message(pages("Ready to take, longest laying first", lines, "", _MOST_SEGMENTS))


def failing(units: Sequence[tuple[UnitState, Check | None]], today: date) -> Message:
    """List the units without a queen that will lay, each with what to do, in the order given."""
    if not units:
        return Message(("No unit is failing.",))
    lines = [
        Line(state.place.yard, _failing_words(state, check, today), (state.place,))
        for state, check in units
    ]
    return Message(pages("Failing", lines, "", _MOST_SEGMENTS))


def since(state: UnitState) -> date | None:
    """Give the local date from which the present stage counts, as far as it is known."""
    if state.stage in (Stage.LAYING, Stage.PROVEN):
        return state.eggs_on
    if state.stage is Stage.VIRGIN:
        return state.released_on or state.emergence_due or state.started_on
    if state.stage in _LOST:
        return state.lost_on or (state.entries[-1].on if state.entries else None)
    return state.started_on


def _now(state: UnitState, today: date) -> str:
    day = since(state)
    if day is None:
        return stage_name(state)
    if day > today:
        return f"{stage_name(state)} from {day_words(day, today)}"
    return f"{stage_name(state)}, day {(today - day).days} since {full_day(day)}"


def _last(entries: Sequence[Entry], today: date) -> str:
    if not entries:
        return "nothing noted yet"
    last = entries[-1]
    words = finding_words(last.kind, last.value, last.note)
    return f"{words}, {day_words(last.on, today)}, {last.person}"


def _next(checks: Sequence[Check], today: date) -> str:
    real = [check for check in checks if check.follows is None]
    rests = [c for c in real if c.kind is CheckKind.REST and c.by and c.not_before <= today <= c.by]
    due = sorted(
        (c.best, c.place, c) for c in real if c.kind is not CheckKind.REST and c.best is not None
    )
    alone = (
        [f"leave alone to {day_words(max(c.by for c in rests if c.by), today)}"] if rests else []
    )
    if not due:
        return ", ".join(alone) or "nothing due"
    best, _, check = due[0]
    step = f"{to_do(check.kind, check.why)} {day_words(max(best, today), today)}"
    return ", ".join([*alone, f"{step} ({reason(check.why, today)})"])


def _laying_words(state: UnitState, today: date) -> str:
    if state.eggs_on is None:
        return f"{state.place.unit}"
    days = counted((today - state.eggs_on).days, "day", "days")
    return f"{state.place.unit} {days}, since {full_day(state.eggs_on)}"


def _failing_words(state: UnitState, check: Check | None, today: date) -> str:
    day = since(state)
    when = "" if day is None else f" since {day_words(day, today)}"
    todo = "" if check is None else f": {to_do(check.kind, check.why)}{_by(check, today)}"
    return f"{state.place.unit} {stage_name(state)}{when}{todo}"


def _by(check: Check, today: date) -> str:
    return "" if check.by is None else f" by {day_words(check.by, today)}"
