"""A person's morning message, worked out from the log."""

from dataclasses import dataclass
from datetime import date

from bot.desk.calendars import calendar_of, weather_about
from bot.desk.day_view import yard_days
from bot.wording import morning as words
from bot.wording.groups import YardDay
from bot.wording.message import Message
from scheduling.records.gateway import CrewRecords
from scheduling.records.people import Person


@dataclass(frozen=True)
class Morning:
    """A person's morning: the yards of the crew that day, and the message, if there is one."""

    yards: tuple[YardDay, ...]
    message: Message | None


def morning_of(records: CrewRecords, person: Person, day: date) -> Morning:
    """Work out a person's morning on a local date, for their first channel; nothing is changed.

    A day with nothing due has no message, unless the person asked for a daily word.
    """
    log = records.entries()
    units = {yard.name: records.units(yard.name) for yard in records.yards()}
    weather = weather_about(records, day)
    calendar = calendar_of(log, weather, person.feeder_litres, records.crew().odds)
    days = yard_days(calendar, log, units, day, person.name, weather)
    reached = records.addresses(person.id)
    most = words.room_on(reached[0].channel) if reached else words.SMS_SEGMENTS
    message = words.morning(days, day, most)
    if message is None and person.daily_word:
        message = words.due(days, day, most=most)
    return Morning(days, message)
