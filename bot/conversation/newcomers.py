"""The first message from an address that belongs to nobody yet."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.reading.reader import read
from bot.reading.result import Command, CommandName
from bot.reading.situation import Situation
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.invites import InviteError, is_own_code, redeem
from scheduling.records.people import Person

NAMELESS = "Keeper"
"""What somebody is called whose name nobody told."""

_FOUNDING = frozenset({CommandName.BEGIN, CommandName.YARD})
"""Commands that make sense only for somebody with a crew of their own."""


@dataclass(frozen=True)
class Arrival:
    """A person who just came in, and by which command."""

    person: Person
    command: Command


def arrive(session: Session, message: IncomingMessage, zone: str, now: datetime) -> Arrival | None:
    """Take a newcomer in who joins a crew or founds one; None for any other text.

    Raises:
        InviteError: the code lets nobody in; nothing was changed.

    """
    command = read(message.text, Situation(today=now.date())).command
    if command is None:
        return None
    if command.name is CommandName.JOIN:
        person = _join(session, command, message, zone, now)
        own = is_own_code(session, command.word or "")
        return Arrival(person, Command(CommandName.ADD_CHANNEL) if own else command)
    if command.name in _FOUNDING:
        return Arrival(_found(session, message, zone, now), command)
    return None


def _join(
    session: Session, command: Command, message: IncomingMessage, zone: str, now: datetime
) -> Person:
    with session.begin_nested():
        return redeem(
            session,
            command.word or "",
            name=message.sender or NAMELESS,
            zone=zone,
            channel=message.channel,
            address=message.address,
            now=now,
        )


def _found(session: Session, message: IncomingMessage, zone: str, now: datetime) -> Person:
    name = message.sender or NAMELESS
    crew, person = found_crew(session, f"{name}'s crew", name, zone, now)
    CrewRecords(session, crew.id).add_address(person.id, message.channel, message.address)
    return person


__all__ = ["NAMELESS", "Arrival", "InviteError", "arrive"]
