"""Answers to what a person asks: due, tomorrow, week, queens, failing, a unit's story."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from bot.desk.corrections import finding_of
from bot.desk.day_view import yard_days
from bot.desk.step import Step
from bot.reading.result import Command
from bot.wording import morning_message, set_up_texts, start_plans, story
from bot.wording import week as week_words
from bot.wording.groups import YardDay
from bot.wording.help import nothing_more
from bot.wording.message import Message
from bot.wording.report_answers import noted_by_another
from scheduling import visits
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check
from scheduling.entries import standing
from scheduling.entry_kinds import EntryKind
from scheduling.fit_days import unfit_days
from scheduling.places import Place, UnitName
from scheduling.trade.batches import plan_back
from scheduling.visit_plan import Drives, plan_visits
from scheduling.visit_plan.drives import days_away
from scheduling.visit_plan.errands import errands
from scheduling.visit_plan.worth import chances_of

_WEEK = 7
_FAR = timedelta(days=60)


def answer_due(step: Step, command: Command) -> Message:
    """What is due today, and what others have noted today."""
    days = _days(step, step.today, command)
    answer = morning_message.due_message(
        days, step.today, _next(step, step.today, command), _room(step)
    )
    return _with_line(answer, _noted_today(step))


def answer_tomorrow(step: Step, command: Command) -> Message:
    """What is due tomorrow if today's work is done."""
    day = step.today + timedelta(days=1)
    days = _days(step, day, command)
    return morning_message.tomorrow_message(days, day, _next(step, day, command), _room(step))


def answer_week(step: Step, command: Command) -> Message:
    """On which days of the coming week to go to which yard, so that few visits serve every check.

    The plan looks a week further, so that what may wait for a later visit does.
    """
    away = days_away(step.today, step.records.crew().weekdays)
    drives = Drives(step.today, away=away, unfit=unfit_days(step.weather))
    plan = plan_visits(errands(step.calendar, drives, chances_of(step.calendar)), drives)
    days = {step.today + timedelta(days=ahead): list[Check]() for ahead in range(_WEEK)}
    later = list(plan.waiting)
    for visit in plan.visits:
        days.get(visit.day, later).extend(visit.checks)
    return week_words.week_message(
        {
            day: [check for check in checks if _wanted(check, command)]
            for day, checks in days.items()
        },
        step.units,
        _room(step),
        no_day=[check for check in plan.unserved if _wanted(check, command)],
        waiting=[
            check for check in later if _wanted(check, command) and _by_best(check, max(days))
        ],
    )


def answer_more(step: Step, _command: Command) -> Message:
    """What did not fit into the last answer."""
    return Message(step.talk.more) if step.talk.more else Message((nothing_more(),))


def answer_queens(step: Step, command: Command) -> Message:
    """The queens that may be taken, the longest laying first."""
    ready = visits.ready_queens(step.calendar, step.today)
    here = [queen for queen in ready if command.yard in (None, queen.place.yard)]
    return story.queens_list(here, step.today)


def answer_failing(step: Step, command: Command) -> Message:
    """The units that go wrong, each with what to do."""
    repairs = visits.failing(step.calendar, step.today)
    here = [check for check in repairs if _wanted(check, command)]
    return story.failing_list(here, step.calendar.units, step.today)


def answer_history(step: Step, command: Command) -> Message:
    """The story in three lines of one unit, or of each unit of a box."""
    units = {yard: _asked_about(step.units[yard], command.unit) for yard in step.units}
    having = [yard for yard, found in units.items() if found]
    here = [name for name in (command.yard, step.current_yard) if name in having]
    if not here and len(having) > 1:
        return Message((set_up_texts.which_yard(having, str(command.unit)),))
    yard = (here or having)[0]
    return Message(("\n".join(_story(step, Place(yard, unit)) for unit in units[yard]),))


def _asked_about(units: Sequence[UnitName], named: UnitName | None) -> list[UnitName]:
    """The unit of a name, or all of a box's units if the box is divided."""
    if named is None or named in units:
        return [unit for unit in units if unit == named]
    return [unit for unit in units if unit.box == named.box and not named.letter]


def _story(step: Step, place: Place) -> str:
    calendar = step.calendar
    return story.story(calendar.queen(place), calendar.checks.get(place, ()), step.today)


def answer_plan(step: Step, command: Command) -> Message:
    """When to graft, and how many, to have queens laying on a date."""
    if not command.count or command.on is None:
        return Message((start_plans.how_many(command.on),))
    return Message((start_plans.graft_plan(plan_back(command.count, command.on), step.today),))


def _days(step: Step, day: date, command: Command) -> list[YardDay]:
    days = yard_days(step.calendar, step.log, step.units, day, step.person.name, step.weather)
    return [yard_day for yard_day in days if command.yard in (None, yard_day.yard)]


def _next(step: Step, day: date, command: Command) -> morning_message.Coming:
    def first() -> Check | None:
        ahead = visits.coming(step.calendar, day + timedelta(days=1), day + _FAR)
        real = (c for c in ahead if c.follows is None and c.kind is not CheckKind.TAKE)
        return next((check for check in real if _wanted(check, command)), None)

    return first


def _room(step: Step) -> int:
    return morning_message.room_on(step.message.channel)


def _wanted(check: Check, command: Command) -> bool:
    return command.yard in (None, check.place.yard)


def _noted_today(step: Step) -> list[str]:
    """What other people of the crew noted of today, so that nobody does it twice."""
    today, strike = step.today, EntryKind.STRIKE
    log = [e for e in step.log if e.on == today or e.kind is strike]
    noted = [e for e in standing(log) if e.person != step.person.name]
    people = dict.fromkeys(entry.person for entry in noted)
    return [
        noted_by_another(
            who,
            [finding_of(entry) for entry in noted if entry.person == who],
            today,
            step.units,
        )
        for who in people
    ]


def _by_best(check: Check, day: date) -> bool:
    return check.best is not None and check.best <= day


def _with_line(answer: Message, lines: list[str]) -> Message:
    return replace(answer, parts=("\n".join([answer.text, *lines]), *answer.parts[1:]))
