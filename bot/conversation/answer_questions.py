"""Answers to what a person asks: due, tomorrow, week, queens, failing, a unit's story."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from bot.conversation.record_findings import finding_of
from bot.conversation.turn import Turn
from bot.conversation.work_out_morning import yard_days
from bot.reading.result import Command
from bot.wording import morning_message, set_up_texts, start_plans, story
from bot.wording.groups import YardDay
from bot.wording.help import nothing_more
from bot.wording.message import Message
from bot.wording.report_answers import noted_by_another
from scheduling import visits
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check
from scheduling.entries import standing
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.trade.batches import plan_back
from scheduling.visit_plan import Drives, plan_visits
from scheduling.visit_plan.errands import days_away, errands
from scheduling.visit_plan.worth import chances_of
from scheduling.visits import unfit_days

_WEEK = 7
_FAR = timedelta(days=60)


def answer_due(turn: Turn, command: Command) -> Message:
    """What is due today, and what others have noted today."""
    days = _days(turn, turn.today, command)
    answer = morning_message.due_message(
        days, turn.today, _next(turn, turn.today, command), _room(turn)
    )
    parts = "\n".join([answer.text, *_noted_today(turn)]), *answer.parts[1:]
    return replace(answer, parts=parts)


def answer_tomorrow(turn: Turn, command: Command) -> Message:
    """What is due tomorrow if today's work is done."""
    day = turn.today + timedelta(days=1)
    days = _days(turn, day, command)
    return morning_message.tomorrow_message(days, day, _next(turn, day, command), _room(turn))


def answer_week(turn: Turn, command: Command) -> Message:
    """On which days of the coming week to go to which yard, so that few visits serve every check.

    The plan looks a week further, so that what may wait for a later visit does.
    """
    away = days_away(turn.today, turn.records.crew().weekdays)
    drives = Drives(turn.today, away=away, unfit=unfit_days(turn.weather))
    plan = plan_visits(errands(turn.calendar, drives, chances_of(turn.calendar)), drives)
    days = {turn.today + timedelta(days=ahead): list[Check]() for ahead in range(_WEEK)}
    later = list(plan.waiting)
    for visit in plan.visits:
        days.get(visit.day, later).extend(visit.checks)
    return morning_message.week_message(
        {
            day: [check for check in checks if _wanted(check, command)]
            for day, checks in days.items()
        },
        turn.units,
        _room(turn),
        no_day=[check for check in plan.unserved if _wanted(check, command)],
        waiting=[
            check for check in later if _wanted(check, command) and _by_best(check, max(days))
        ],
    )


def answer_more(turn: Turn, _command: Command) -> Message:
    """What did not fit into the last answer."""
    return Message(turn.state.more) if turn.state.more else Message((nothing_more(),))


def answer_queens(turn: Turn, command: Command) -> Message:
    """The queens that may be taken, the longest laying first."""
    ready = visits.ready_queens(turn.calendar, turn.today)
    here = [queen for queen in ready if command.yard in (None, queen.place.yard)]
    return story.queens_list(here, turn.today)


def answer_failing(turn: Turn, command: Command) -> Message:
    """The units that go wrong, each with what to do."""
    repairs = visits.failing(turn.calendar, turn.today)
    here = [check for check in repairs if _wanted(check, command)]
    return story.failing_list(here, turn.calendar.units, turn.today)


def answer_history(turn: Turn, command: Command) -> Message:
    """The story in three lines of one unit, or of each unit of a box."""
    units = {yard: _asked_about(turn.units[yard], command.unit) for yard in turn.units}
    having = [yard for yard, found in units.items() if found]
    here = [name for name in (command.yard, turn.current_yard) if name in having]
    if not here and len(having) > 1:
        return Message((set_up_texts.which_yard(having, str(command.unit)),))
    yard = (here or having)[0]
    places = tuple(Place(yard, unit) for unit in units[yard])
    return Message(("\n".join(_story(turn, place) for place in places),), places=places)


def _asked_about(units: Sequence[UnitName], named: UnitName | None) -> list[UnitName]:
    """The unit of a name, or all of a box's units if the box is divided."""
    if named is None or named in units:
        return [unit for unit in units if unit == named]
    return [unit for unit in units if unit.box == named.box and not named.letter]


def _story(turn: Turn, place: Place) -> str:
    calendar = turn.calendar
    if place in calendar.left_out:
        return story.not_worked_out(place)
    return story.story(calendar.queen(place), calendar.checks.get(place, ()), turn.today)


def answer_plan(turn: Turn, command: Command) -> Message:
    """When to graft, and how many, to have queens laying on a date."""
    if not command.count or command.on is None:
        return Message((start_plans.how_many(command.on),))
    return Message((start_plans.graft_plan(plan_back(command.count, command.on), turn.today),))


def _days(turn: Turn, day: date, command: Command) -> list[YardDay]:
    days = yard_days(turn.calendar, turn.log, turn.units, day, turn.person.name, turn.weather)
    return [yard_day for yard_day in days if command.yard in (None, yard_day.yard)]


def _next(turn: Turn, day: date, command: Command) -> morning_message.Coming:
    def first() -> Check | None:
        ahead = visits.coming(turn.calendar, day + timedelta(days=1), day + _FAR)
        real = (c for c in ahead if c.follows is None and c.kind is not CheckKind.TAKE)
        return next((check for check in real if _wanted(check, command)), None)

    return first


def _room(turn: Turn) -> int:
    return morning_message.room_on(turn.message.channel)


def _wanted(check: Check, command: Command) -> bool:
    return command.yard in (None, check.place.yard)


def _noted_today(turn: Turn) -> list[str]:
    """What other people of the crew noted of today, so that nobody does it twice."""
    today, strike = turn.today, EntryKind.STRIKE
    log = [e for e in turn.log if e.on == today or e.kind is strike]
    noted = [e for e in standing(log) if e.person != turn.person.name]
    people = dict.fromkeys(entry.person for entry in noted)
    return [
        noted_by_another(
            who,
            [finding_of(entry) for entry in noted if entry.person == who],
            today,
            turn.units,
        )
        for who in people
    ]


def _by_best(check: Check, day: date) -> bool:
    return check.best is not None and check.best <= day
