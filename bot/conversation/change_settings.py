"""Settings changed by chat: a person's channels and quiet hours, a crew's odds and days out."""

from bot.conversation.turn import Turn
from bot.delivery.quiet_hours import look_anew, quiet_on
from bot.reading.result import Command
from bot.wording import set_up_texts as words
from bot.wording.message import Message
from scheduling.walk.odds import (
    BOLDEST,
    LATEST_GIVEN_UP,
    MOST_CAREFUL,
    SOONEST_GIVEN_UP,
    USUAL,
    shift_by,
)
from scheduling.wall_time import local_day


def quiet(turn: Turn, command: Command) -> Message:
    """Settle the hours in which nothing comes unasked, or show them."""
    if command.word is not None or command.at is not None:
        turn.person = turn.records.update_person(
            turn.person.id,
            quiet_from=command.at,
            quiet_until=command.until,
            quiet_asked_at=turn.now,
        )
        look_anew(turn.session, turn.person.id, turn.now)
    by_channel = {
        each.channel: quiet_on(each.channel, turn.person)
        for each in turn.records.addresses(turn.person.id, reachable=True)
    }
    spans = {channel: (hours.begin, hours.end) for channel, hours in by_channel.items()}
    return Message((words.quiet_hours_words(spans, turn.person.zone),))


def add_channel(turn: Turn, _command: Command) -> Message:
    """Give a code with which the person adds a chat or an e-mail address of their own."""
    made = turn.records.make_invite(turn.person.id, turn.now, own=True)
    expires = local_day(made.expires_at, turn.person.zone)
    return Message((words.add_by_code(made.code, expires, turn.invite_link(made.code)),))


def welcome_on_channel(turn: Turn) -> Message:
    """Welcome a person on a channel that they just added, and say which comes first."""
    mine = [each.channel for each in turn.records.addresses(turn.person.id)]
    ordered = sorted(mine, key=lambda each: each != turn.person.first_channel)
    return Message((words.channel_added(turn.person.name, ordered, turn.person.fallback_minutes),))


def channels(turn: Turn, command: Command) -> Message:
    """Settle which channel comes first or when the next one is tried, or show both."""
    mine = [each.channel for each in turn.records.addresses(turn.person.id)]
    if command.word is not None:
        if command.word not in mine:
            return Message((words.not_yours(command.word),))
        turn.person = turn.records.update_person(turn.person.id, first_channel=command.word)
    if command.minutes is not None:
        wait = command.minutes or None
        turn.person = turn.records.update_person(turn.person.id, fallback_minutes=wait)
    ordered = sorted(mine, key=lambda each: each != turn.person.first_channel)
    return Message((words.channels_words(ordered, turn.person.fallback_minutes),))


def odds(turn: Turn, command: Command) -> Message:
    """Show the crew's odds, or go back to the usual ones."""
    if command.word is None:
        return _odds_now(turn)
    return _settled(turn, best=USUAL.best, give_up=USUAL.give_up)


def look_at(turn: Turn, command: Command) -> Message:
    """Set the chance of eggs at which the crew looks for them."""
    now = turn.records.crew().odds
    return _settled(turn, best=command.chance or now.best, give_up=now.give_up)


def give_up_at(turn: Turn, command: Command) -> Message:
    """Set the chance of ever laying under which a queen is given up."""
    now = turn.records.crew().odds
    return _settled(turn, best=now.best, give_up=command.chance or now.give_up)


def days(turn: Turn, command: Command) -> Message:
    """Set the weekdays on which the crew goes out, or show them."""
    now = turn.records.crew().weekdays
    if command.weekdays is None:
        return Message.of(words.days_words(now))
    wanted = now - command.weekdays if command.but else command.weekdays
    if not wanted:
        return Message.of(words.no_day_left())
    return Message.of(words.days_words(turn.records.settle_weekdays(wanted).weekdays))


def _settled(turn: Turn, best: float, give_up: float) -> Message:
    if not BOLDEST <= best <= MOST_CAREFUL:
        return Message.of(words.look_refused())
    if not LATEST_GIVEN_UP <= give_up <= SOONEST_GIVEN_UP:
        return Message.of(words.give_up_refused())
    turn.records.settle_odds(
        best=_or_usual(best, USUAL.best), give_up=_or_usual(give_up, USUAL.give_up)
    )
    turn.look_again()
    return _odds_now(turn)


def _or_usual(chance: float, usual: float) -> float | None:
    """Keep nothing where the crew wants the usual, so that it follows that if it ever changes."""
    return None if chance == usual else chance


def _odds_now(turn: Turn) -> Message:
    settled = turn.records.crew().odds
    return Message.of(words.odds_words(settled, shift_by(settled)))
