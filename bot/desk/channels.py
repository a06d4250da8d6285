"""On which channels a person is reached, and when the next one is tried, by chat."""

from bot.bell.wall_time import local_day
from bot.desk.step import Step
from bot.reading.result import Command
from bot.wording import settings_answers as words
from bot.wording.message import Message


def add_channel(step: Step, _command: Command) -> Message:
    """Give a code with which the person adds a chat or an e-mail address of their own."""
    made = step.records.make_invite(step.person.id, step.now, own=True)
    expires = local_day(made.expires_at, step.person.zone)
    return Message((words.add_by_code(made.code, expires, step.invite_link(made.code)),))


def added(step: Step) -> Message:
    """Welcome a person on a channel that they just added, and say which comes first."""
    mine = [each.channel for each in step.records.addresses(step.person.id)]
    ordered = sorted(mine, key=lambda each: each != step.person.first_channel)
    return Message((words.channel_added(step.person.name, ordered, step.person.fallback_minutes),))


def channels(step: Step, command: Command) -> Message:
    """Settle which channel comes first or when the next one is tried, or show both."""
    mine = [each.channel for each in step.records.addresses(step.person.id)]
    if command.word is not None:
        if command.word not in mine:
            return Message((words.not_yours(command.word),))
        step.person = step.records.update_person(step.person.id, first_channel=command.word)
    if command.minutes is not None:
        wait = command.minutes or None
        step.person = step.records.update_person(step.person.id, fallback_minutes=wait)
    ordered = sorted(mine, key=lambda each: each != step.person.first_channel)
    return Message((words.channels_words(ordered, step.person.fallback_minutes),))
