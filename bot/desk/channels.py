"""On which channels a person is reached, and when the next one is tried, by chat."""

from bot.desk.step import Step
from bot.reading.result import Command
from bot.wording import channels as words
from bot.wording.message import Message


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
