"""Somebody of a crew joins a further one: with its code, or by a yes to its question."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.channels.known_channels import traits_of
from bot.conversation.newcomers import Arrival, accept_asked, arrive
from bot.reading.commands.command import command_of
from bot.reading.result import CommandName
from bot.reading.situation import Situation
from scheduling.records.addresses import find_people
from scheduling.records.crews import hold_crews
from scheduling.records.invites import InviteError, crew_of_code
from scheduling.records.numbers import open_asking
from scheduling.records.people import Person

_FIRST_WORDS = ("join", "/join", "/start", "start", "yes", "unstop")
"""With what a text begins that may be such a one; others are not read for it."""


@dataclass(frozen=True)
class Further:
    """What came of it; without an arrival the code was not good."""

    arrival: Arrival | None


def join_further(
    session: Session, message: IncomingMessage, zone: str, now: datetime
) -> Further | None:
    """Take somebody of a crew into one more; None if they are of none, or say something else.

    Who stopped their messages is not taken in: they start them first.
    """
    first = message.text.strip().casefold().partition(" ")[0].rstrip("!.")
    if first not in _FIRST_WORDS:
        return None
    people = find_people(session, message.channel, message.address)
    if not people or any(person.stopped for person in people):
        return None
    reading = command_of(message.text.strip(), Situation(today=now.date()))
    command = None if reading is None else reading.command
    if command is not None and command.name is CommandName.JOIN:
        own = crew_of_code(session, command.word or "") in {person.crew_id for person in people}
        return None if own else _by_code(session, message, zone, now)
    if (
        command is not None
        and command.name is CommandName.START
        and traits_of(message.channel).needs_consent
    ):
        return _by_yes(session, people, message, zone, now)
    return None


def _by_code(session: Session, message: IncomingMessage, zone: str, now: datetime) -> Further:
    try:
        return Further(arrive(session, message, zone, now))
    except InviteError:
        return Further(None)


def _by_yes(
    session: Session, people: tuple[Person, ...], message: IncomingMessage, zone: str, now: datetime
) -> Further | None:
    asked = open_asking(session, message.channel, message.address, now)
    if asked is None:
        return None
    hold_crews(session, {asked.crew_id, *(person.crew_id for person in people)})
    arrival = accept_asked(session, asked, message, zone, now)
    return None if arrival is None else Further(arrival)
