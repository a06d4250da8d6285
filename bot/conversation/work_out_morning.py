"""A person's morning message with the yearly caution before it, and any day as they see it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from dateutil.relativedelta import relativedelta
from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage
from bot.delivery.outbox import Recipient, plan
from bot.delivery.rules import Purpose
from bot.wording import groups as layout
from bot.wording import morning_message as words
from bot.wording.cautions import cautions
from bot.wording.groups import YardDay
from bot.wording.message import Message
from scheduling.checks.calendar import Calendar
from scheduling.entries import Entry, standing
from scheduling.entry_facts import entry_kinds
from scheduling.entry_kinds import Scope
from scheduling.places import Place, UnitName
from scheduling.records.addresses import crews_together
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person
from scheduling.visits import due_on, moved_to_fit_days, taken_on
from scheduling.wall_time import local_day
from scheduling.weather.yard_weather import YardWeather, warnings_on, with_words


@dataclass(frozen=True)
class Morning:
    """A person's morning.

    Attributes:
        yards: the yards of the crew that day.
        message: what is said, if anything is.
        left_out: the units and batches that could not be worked out.
    """

    yards: tuple[YardDay, ...]
    message: Message | None
    left_out: tuple[Place, ...] = ()


def morning_of(
    records: CrewRecords,
    person: Person,
    day: date,
    channel: str | None = None,
    before: str = "",
) -> Morning:
    """Work out a person's morning on a local date; nothing is changed.

    A day with nothing due has no message, unless the person asked for a daily word.

    Args:
        records: the person's crew.
        person: whose morning it is.
        day: the local date.
        channel: the channel it goes over, by which its length is measured; None for the first
            on which the person takes messages.
        before: what is said first.
    """
    log, crew = records.entries(), records.at_a_glance()
    weather = records.weather_about(day)
    calendar = records.calendar(log, weather, crew.crew.odds, person.feeder_litres, crew.removed)
    days = yard_days(calendar, log, crew.by_yard, day, person.name, weather)
    most = _room(records, person, channel)
    message = words.morning_message(days, day, most, before)
    if message is None and person.daily_word:
        message = _after(before, words.due_message(days, day, most=most))
    return Morning(days, message, tuple(calendar.left_out))


def _room(records: CrewRecords, person: Person, channel: str | None) -> int:
    if channel is not None:
        return words.room_on(channel)
    reached = records.addresses(person.id, reachable=True) or records.addresses(person.id)
    return words.room_on(reached[0].channel) if reached else words.SMS_SEGMENTS


def _after(before: str, message: Message) -> Message:
    if not before:
        return message
    return replace(message, parts=(f"{before}\n{message.text}", *message.parts[1:]))


_SAID_OF_YARDS = entry_kinds(lambda facts: facts.scope in (Scope.YARD, Scope.ENTRY))
"""What of the log bears on a day beside the calendar, and what strikes it; a small part of it."""


def yard_days(
    calendar: Calendar,
    log: Iterable[Entry],
    units: Mapping[str, Sequence[UnitName]],
    day: date,
    person: str,
    weather: Mapping[str, YardWeather],
) -> tuple[YardDay, ...]:
    """The yards of the crew on a local date.

    A yard that somebody else has taken on for the day says so and is off this person's list.
    What the weather forbids that day waits for the next fit one.
    """
    stands = standing([entry for entry in log if entry.kind in _SAID_OF_YARDS])
    plan = moved_to_fit_days(due_on(calendar, day), weather)
    said = with_words(weather, stands)
    warnings = {yard: warnings_on(day, known) for yard, known in said.items()}
    return layout.lay_out_by_yard(plan, units, taken_on(stands, day), person, warnings)


_EVERY = relativedelta(years=1)


def caution_if_due(
    session: Session,
    person: Person,
    to: Recipient,
    now: datetime,
    purpose: Purpose = Purpose.CAUTION,
) -> None:
    """Queue the caution if the person never had it, or not for a year."""
    today = local_day(now, person.zone)
    if person.cautioned_on is not None and today < person.cautioned_on + _EVERY:
        return
    key = f"caution:{person.id}:{today}"
    plan(session, key, purpose, to, OutgoingMessage(to.address, cautions()), now)
    for each in crews_together(session, person.id):
        CrewRecords(session, each.crew_id).update_person(each.id, cautioned_on=today)
