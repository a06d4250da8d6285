"""Who belongs to the crew, who is asked to join, and who wants to hear from us."""

from collections.abc import Sequence
from datetime import time
from zoneinfo import ZoneInfo

from bot.channels.channel import OutgoingMessage
from bot.channels.sms.phone_number import NumberFault, example_of
from bot.channels.traits import SMS, traits_of
from bot.conversation.newcomers import decline
from bot.conversation.set_up import first_morning
from bot.conversation.turn import Turn
from bot.delivery.outbox import Recipient, plan, question_key, withdraw
from bot.delivery.quiet_hours import quiet_end
from bot.delivery.rules import Purpose
from bot.reading.result import Command
from bot.wording import consent_texts
from bot.wording import crew as words
from bot.wording.message import Message
from scheduling.records.addresses import find_people
from scheduling.records.invites import GOOD_FOR
from scheduling.records.numbers import Asked, AskLimits, Refusal, ask_number, refusal
from scheduling.records.people import Person
from scheduling.wall_time import local_day

_REFUSALS = {
    Refusal.OURS: consent_texts.ours,
    Refusal.ASKED: consent_texts.asked_before,
    Refusal.CLOSED: consent_texts.closed,
    Refusal.MANY: consent_texts.too_many,
    Refusal.DAY: consent_texts.asked_enough_today,
    Refusal.FULL: consent_texts.all_asked_enough_today,
}


def invite(turn: Turn, command: Command) -> Message:
    """A code with which one more person joins, or a question to their number."""
    if command.number is not None:
        return ask_partner(turn, command)
    made = turn.records.make_invite(turn.person.id, turn.now)
    expires = local_day(made.expires_at, turn.person.zone)
    return Message.of(words.invited(made.code, expires, turn.invite_link(made.code)))


def already_in(turn: Turn, command: Command) -> Message:
    """A member begins or joins again: nothing changes, but a stopped one is started."""
    if turn.person.stopped:
        return start(turn, command)
    return Message.of(words.already_in_a_crew(others(turn)))


def crew(turn: Turn, _command: Command) -> Message:
    """List everybody."""
    people = turn.records.people()
    return Message.of(words.crew_list([_member(person) for person in people]))


def stop(turn: Turn, _command: Command) -> Message:
    """No more messages that were not asked for."""
    turn.person = turn.records.update_person(turn.person.id, stopped=True)
    by_text = traits_of(turn.message.channel).needs_consent
    if by_text:
        decline(turn.session, turn.message, turn.now)
    withdraw(turn.session, turn.person.id, turn.now, all_of_it=by_text)
    return Message((words.stopped(),), once=True)


def start(turn: Turn, _command: Command) -> Message:
    """Messages go on from the next morning."""
    turn.person = turn.records.update_person(turn.person.id, stopped=False)
    first_morning(turn.person, turn)
    return Message.of(words.started(turn.person.morning))


def others(turn: Turn) -> list[str]:
    """The names of the crew's other people."""
    return [each.name for each in turn.records.people() if each.id != turn.person.id]


def _member(person: Person) -> words.Member:
    return words.Member(person.name, person.role, person.morning, person.stopped)


def ask_partner(turn: Turn, command: Command) -> Message:
    """Ask a partner's number whether it wants to join; it is sent this one message and no other."""
    number, problem = _number(turn, command)
    if number is None:
        return problem
    asked = ask_number(turn.session, turn.person, SMS.name, number, turn.now, name=command.word)
    known = find_people(turn.session, SMS.name, number)
    ask = consent_texts.asked_further if known else consent_texts.asked
    at = _send(turn, asked, number, ask(turn.person.name))
    return Message.of(consent_texts.consent_question(command.word, number, at))


def own_number(turn: Turn, command: Command) -> Message:
    """Ask a number that somebody says is theirs; on its yes it takes the old one's place."""
    number, problem = _number(turn, command)
    if number is None:
        return problem
    asked = ask_number(turn.session, turn.person, SMS.name, number, turn.now, own=True)
    at = _send(turn, asked, number, consent_texts.asked_own(turn.person.name))
    return Message.of(consent_texts.asking_own(number, at))


def _number(turn: Turn, command: Command) -> tuple[str | None, Message]:
    """The number in full, or what to answer when it may not be asked."""
    written = command.number or ""
    if not turn.texting.running:
        return None, Message.of(consent_texts.no_texts())
    here = turn.message
    own = here.address if here.channel == SMS.name else None
    number = turn.texting.number(written, own)
    if number is None:
        return None, Message.of(consent_texts.unreadable(written, example_of(turn.texting.region)))
    if (fault := turn.texting.fault_of(number)) is not None:
        return None, Message.of(_fault_words(fault, number, turn.texting.asked_lands))
    of = (turn.person.crew_id, SMS.name, number)
    limits = AskLimits(turn.texting.crew_daily_invites, turn.texting.daily_invites)
    refused = refusal(turn.session, *of, turn.now, limits)
    return (number, Message.of("")) if refused is None else (None, Message.of(_REFUSALS[refused]()))


def _fault_words(fault: NumberFault, number: str, lands: Sequence[str]) -> str:
    if fault is NumberFault.NO_MOBILE:
        return consent_texts.no_mobile(number)
    return consent_texts.other_land(lands)


def _send(turn: Turn, asked: Asked, number: str, text: str) -> time | None:
    """Queue the question; gives the asking person's time at which it goes, or None for now."""
    key, to = question_key(asked.id), Recipient(SMS.name, number)
    until = turn.now + GOOD_FOR
    # Where the number is nobody knows; most partners live near who asks them.
    quiet = quiet_end(turn.now, SMS.quiet, turn.person.zone)
    outgoing = OutgoingMessage(number, text)
    plan(turn.session, key, Purpose.INVITE, to, outgoing, turn.now, until, quiet_until=quiet)
    return None if quiet is None else quiet.astimezone(ZoneInfo(turn.person.zone)).time()
