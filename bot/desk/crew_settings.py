"""What a crew settles on by chat: at which chances to look and give up, and which days it goes."""

from bot.desk.people import owner_of
from bot.desk.step import Step
from bot.reading.result import Command
from bot.wording import settings_answers as words
from bot.wording.crew import only_the_owner, only_watching
from bot.wording.message import Message
from scheduling.records.tables import Role
from scheduling.walk.looks import shift_by
from scheduling.walk.odds import (
    BOLDEST,
    LATEST_GIVEN_UP,
    MOST_CAREFUL,
    SOONEST_GIVEN_UP,
    USUAL,
)


def odds(step: Step, command: Command) -> Message:
    """Show the crew's odds, or go back to the usual ones."""
    if command.word is None:
        return _odds_now(step)
    return _settled(step, best=USUAL.best, give_up=USUAL.give_up)


def look_at(step: Step, command: Command) -> Message:
    """Set the chance of eggs at which the crew looks for them."""
    now = step.records.crew().odds
    return _settled(step, best=command.chance or now.best, give_up=now.give_up)


def give_up_at(step: Step, command: Command) -> Message:
    """Set the chance of ever laying under which a queen is given up."""
    now = step.records.crew().odds
    return _settled(step, best=now.best, give_up=command.chance or now.give_up)


def days(step: Step, command: Command) -> Message:
    """Set the weekdays on which the crew goes out, or show them."""
    now = step.records.crew().weekdays
    if command.weekdays is None:
        return _said(words.days_words(now))
    if step.person.role is Role.WATCHER:
        return _said(only_watching())
    wanted = now - command.weekdays if command.but else command.weekdays
    if not wanted:
        return _said(words.no_day_left())
    return _said(words.days_words(step.records.settle_weekdays(wanted).weekdays))


def _settled(step: Step, best: float, give_up: float) -> Message:
    if step.person.role is not Role.OWNER:
        return _said(only_the_owner(owner_of(step)))
    if not BOLDEST <= best <= MOST_CAREFUL:
        return _said(words.look_refused())
    if not LATEST_GIVEN_UP <= give_up <= SOONEST_GIVEN_UP:
        return _said(words.give_up_refused())
    step.records.settle_odds(
        best=_or_usual(best, USUAL.best), give_up=_or_usual(give_up, USUAL.give_up)
    )
    step.reckon_anew()
    return _odds_now(step)


def _or_usual(chance: float, usual: float) -> float | None:
    """Keep nothing where the crew wants the usual, so that it follows that if it ever changes."""
    return None if chance == usual else chance


def _odds_now(step: Step) -> Message:
    settled = step.records.crew().odds
    return _said(words.odds_words(settled, shift_by(settled)))


def _said(text: str) -> Message:
    return Message((text,))
