"""A person's quiet hours, shown and settled by chat."""

from bot.desk.step import Step
from bot.post.quiet_hours import look_anew, quiet_on
from bot.reading.result import Command
from bot.wording import settings_answers as words
from bot.wording.message import Message


def quiet(step: Step, command: Command) -> Message:
    """Settle the hours in which nothing comes unasked, or show them."""
    if command.word is not None or command.at is not None:
        step.person = step.records.update_person(
            step.person.id,
            quiet_from=command.at,
            quiet_until=command.until,
            quiet_asked_at=step.now,
        )
        look_anew(step.session, step.person.id, step.now)
    by_channel = {
        each.channel: quiet_on(each.channel, step.person)
        for each in step.records.reachable_addresses(step.person.id)
    }
    spans = {channel: (hours.begin, hours.end) for channel, hours in by_channel.items()}
    return Message((words.quiet_hours_words(spans, step.person.zone),))
