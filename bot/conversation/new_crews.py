"""Who founds a crew by a message: whoever the owner of the machine lets."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.conversation.code_tries import try_code
from bot.reading.result import Command, CommandName
from bot.settings.founding import Founding
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.founding_codes import is_founding_code, use_founding_code
from scheduling.records.people import Person

NAMELESS = "Keeper"
"""What somebody is called whose name nobody told."""

_OF_A_CREW = frozenset({CommandName.BEGIN, CommandName.YARD})
"""Commands that make sense only for somebody with a crew of their own."""


class FoundingRefusedError(Exception):
    """Somebody would found a crew and may not."""


@dataclass(frozen=True)
class NewCrews:
    """How a new crew begins on this machine.

    Attributes:
        zone: the time zone it starts with, until its owner says otherwise.
        founding: who may found one.
    """

    zone: str = "UTC"
    founding: Founding = Founding.ANYBODY


def is_founding(session: Session, command: Command) -> bool:
    """Tell whether a stranger's command is to found a crew: so is joining with a code for it."""
    joins = command.name is CommandName.JOIN
    return command.name in _OF_A_CREW or (joins and is_founding_code(session, command.word or ""))


def found_by(
    session: Session,
    command: Command,
    message: IncomingMessage,
    new_crews: NewCrews,
    now: datetime,
) -> Person:
    """Found a crew with the message's writer as its owner.

    Raises:
        FoundingRefusedError: it needs a code here, or none is taken.
        InviteError: the code is not good.
    """
    code = None if command.name is CommandName.YARD else command.word
    invited = new_crews.founding is Founding.INVITED
    if new_crews.founding is Founding.NOBODY or (invited and code is None):
        raise FoundingRefusedError
    if invited and code is not None:
        try_code(session, message, now, lambda: use_founding_code(session, code, now))
    name = message.sender or NAMELESS
    crew, person = found_crew(session, f"{name}'s crew", name, new_crews.zone, now)
    CrewRecords(session, crew.id).add_address(person.id, message.channel, message.address)
    return person
