"""Who comes in by a message, and how little the others hear whose address is nobody's.

On a channel of texts a number is first to say yes. Somebody of a crew may join a further one.

What a carrier asks of its customers: words that stop, start and explain stand alone, and a number
that said stop gets no message until it says start. "Does Twilio support STOP, BLOCK, and CANCEL
(aka SMS STOP Filtering)?", www.twilio.com/help/faq/sms/does-twilio-support-stop-block-and-cancel-
aka-sms-filtering: STOP, STOPALL, UNSUBSCRIBE, CANCEL, END and QUIT stop, START and YES begin again,
HELP and INFO explain, single words only. "Consent and Opt-in Policy",
www.twilio.com/docs/verify/consent-opt-in: whoever has not opted in counts as opted out, and each
consent is kept with its time. "CTIA Short Code Monitoring Handbook", A.1,
usshortcodedirectory.com/ctia-short-code-monitoring-handbook: giving a number is no consent, whoever
is to get messages must know what they will be; each stop is confirmed.
"""

from dataclasses import dataclass, replace
from datetime import datetime, time
from functools import partial

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.channels.traits import traits_of
from bot.conversation.code_tries import try_code
from bot.conversation.new_crews import (
    NAMELESS,
    FoundingRefusedError,
    NewCrews,
    found_by,
    is_founding,
)
from bot.delivery.notices_to_owners import tell_who_asked
from bot.delivery.outbox import withdraw_at
from bot.reading.commands.command import command_of
from bot.reading.reader import read
from bot.reading.result import Command, CommandName
from bot.reading.situation import Situation
from bot.wording import consent_texts as words
from bot.wording.message import Message
from scheduling.records.addresses import Address, crews_together, find_people
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import hold_crews
from scheduling.records.invites import InviteError, crew_of_code, is_own_code, redeem
from scheduling.records.numbers import (
    Asked,
    Outcome,
    accept_number,
    end_askings,
    may_answer,
    open_asking,
    refuse,
    welcome_again,
)
from scheduling.records.people import Person


@dataclass(frozen=True)
class Arrival:
    """A person who just came in, by which command, and where they were reached before."""

    person: Person
    command: Command
    ways_before: tuple[Address, ...] = ()


def arrive(
    session: Session, message: IncomingMessage, new_crews: NewCrews, now: datetime
) -> Arrival | None:
    """Take a newcomer in who joins a crew or founds one; None for any other text.

    Raises:
        FoundingRefusedError: a new crew needs a code here, or none is taken.
        InviteError: the code lets nobody in; nothing was changed.
    """
    command = read(message.text, Situation(today=now.date())).command
    return None if command is None else _arrive_by(session, command, message, new_crews, now)


def _arrive_by(
    session: Session, command: Command, message: IncomingMessage, new_crews: NewCrews, now: datetime
) -> Arrival | None:
    if is_founding(session, command):
        person = found_by(session, command, message, new_crews, now)
        yard = command.name is CommandName.YARD
        return Arrival(person, command if yard else Command(CommandName.BEGIN))
    if command.name is not CommandName.JOIN:
        return None
    joined = partial(_join, session, command, message, new_crews.zone, now)
    person = try_code(session, message, now, joined)
    if not is_own_code(session, command.word or ""):
        return Arrival(person, command)
    ways = CrewRecords(session, person.crew_id).addresses(person.id)
    return Arrival(person, Command(CommandName.ADD_CHANNEL), ways)


def _join(
    session: Session, command: Command, message: IncomingMessage, zone: str, now: datetime
) -> Person:
    return redeem(
        session,
        command.word or "",
        name=message.sender or NAMELESS,
        zone=zone,
        channel=message.channel,
        address=message.address,
        now=now,
    )


_MORNING_BY_TEXT = time(8)
"""When texts begin in the morning unless the person asks for an earlier hour."""


@dataclass(frozen=True)
class Met:
    """What comes of a text from a number that is nobody's: an answer, a person, or nothing."""

    answer: Message | None = None
    arrival: Arrival | None = None


def meet(
    session: Session,
    message: IncomingMessage,
    new_crews: NewCrews,
    now: datetime,
    *,
    answered: bool = True,
) -> Met:
    """Work through a text from a number that is nobody's.

    Args:
        session: the transaction.
        message: what came in.
        new_crews: how a new crew begins here.
        now: aware instant.
        answered: a stranger at such a number is told how one comes in.
    """
    asked = open_asking(session, message.channel, message.address, now)
    command = _named(_command(message, now))
    if command is CommandName.STOP:
        return _stop(session, message, now)
    if command is CommandName.START:
        welcome_again(session, message.channel, message.address)
        if asked is not None:
            return Met(arrival=_accept_asked(session, asked, message, new_crews.zone, now))
    arrival = _arrive(session, message, new_crews, now)
    if arrival is not None or not answered:
        return Met(arrival=arrival)
    return _answer_of_the_day(session, message, asked, new_crews, now)


def keeps_silent(message: IncomingMessage, before: Person, after: Person) -> bool:
    """Tell whether a text is not answered: after a stop, all but a start and a call for help."""
    silent = traits_of(message.channel).needs_consent and before.stopped and after.stopped
    return silent and _named(_command(message, message.sent_at)) is not CommandName.HELP


def _command(message: IncomingMessage, now: datetime) -> Command | None:
    by_consent = traits_of(message.channel).needs_consent
    situation = Situation(today=now.date(), by_consent=by_consent)
    reading = command_of(message.text.strip(), situation)
    return None if reading is None else reading.command


def _named(command: Command | None) -> CommandName | None:
    return None if command is None else command.name


def _stop(session: Session, message: IncomingMessage, now: datetime) -> Met:
    """End what was asked of the number, and confirm once; later words of refusal get no answer."""
    decline(session, message, now)
    first = refuse(session, message.channel, message.address, now)
    return Met(Message((words.refused(),), once=True)) if first else Met()


def decline(session: Session, message: IncomingMessage, now: datetime) -> None:
    """Let nothing more go to a number, and tell who asked it that it said no."""
    withdraw_at(session, message.channel, message.address, now)
    for asked in end_askings(session, message.channel, message.address, Outcome.NO, now):
        tell_who_asked(session, asked, words.said_no(asked.name, message.address), now)


def _accept_asked(
    session: Session, asked: Asked, message: IncomingMessage, zone: str, now: datetime
) -> Arrival | None:
    """Take in whoever said yes; their clock is at first that of who asked them."""
    records = CrewRecords(session, asked.crew_id)
    zone = records.person(asked.made_by).zone or zone
    ways = () if asked.person_id is None else records.addresses(asked.person_id)
    person = accept_number(session, message.channel, message.address, now, zone, NAMELESS)
    if person is None:
        return None
    if asked.person_id is not None:
        return Arrival(person, Command(CommandName.NUMBER), ways)
    known = len(crews_together(session, person.id)) > 1
    return Arrival(person if known else _late_riser(session, person), Command(CommandName.JOIN))


def _arrive(
    session: Session, message: IncomingMessage, new_crews: NewCrews, now: datetime
) -> Arrival | None:
    """Take in who has a code or begins a crew: to write that is their yes."""
    try:
        arrival = arrive(session, message, new_crews, now)
    except (InviteError, FoundingRefusedError):
        return None
    if arrival is None:
        return None
    welcome_again(session, message.channel, message.address)
    if arrival.command.name is CommandName.ADD_CHANNEL:
        return arrival
    return replace(arrival, person=_late_riser(session, arrival.person))


def _late_riser(session: Session, person: Person) -> Person:
    records = CrewRecords(session, person.crew_id)
    return records.update_person(person.id, morning=_MORNING_BY_TEXT)


def _answer_of_the_day(
    session: Session,
    message: IncomingMessage,
    asked: Asked | None,
    new_crews: NewCrews,
    now: datetime,
) -> Met:
    if not may_answer(session, message.channel, message.address, now):
        return Met()
    if asked is None:
        return Met(Message((words.stranger(new_crews.founding),)))
    who = CrewRecords(session, asked.crew_id).person(asked.made_by).name
    return Met(Message((words.help_asked(who),)))


_WORDS_OF_JOINING = ("join", "/join", "/start", "start", "yes", "unstop")
"""With what a text begins that may join somebody to a further crew; others are not read for it."""


def join_further(
    session: Session, message: IncomingMessage, new_crews: NewCrews, now: datetime
) -> Arrival | None:
    """Take somebody of a crew into one more; None if they are of none, or say something else.

    Who stopped their messages is not taken in: they start them first.

    Raises:
        InviteError: the code lets nobody in; nothing was changed.
    """
    first = message.text.strip().casefold().partition(" ")[0].rstrip("!.")
    if first not in _WORDS_OF_JOINING:
        return None
    people = find_people(session, message.channel, message.address)
    if not people or any(person.stopped for person in people):
        return None
    command = _command(message, now)
    if command is not None and command.name is CommandName.JOIN:
        own = crew_of_code(session, command.word or "") in {person.crew_id for person in people}
        return (
            None
            if own or is_founding(session, command)
            else _arrive_by(session, command, message, new_crews, now)
        )
    if _named(command) is CommandName.START and traits_of(message.channel).needs_consent:
        return _by_yes(session, people, message, new_crews.zone, now)
    return None


def _by_yes(
    session: Session, people: tuple[Person, ...], message: IncomingMessage, zone: str, now: datetime
) -> Arrival | None:
    asked = open_asking(session, message.channel, message.address, now)
    if asked is None:
        return None
    hold_crews(session, {asked.crew_id, *(person.crew_id for person in people)})
    return _accept_asked(session, asked, message, zone, now)
