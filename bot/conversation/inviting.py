"""Asking a phone number by text: a partner's, or a further one of one's own."""

from datetime import time
from zoneinfo import ZoneInfo

from bot.channels.channel import OutgoingMessage
from bot.channels.known_channels import SMS
from bot.conversation.texting import example_of
from bot.conversation.turn import Turn
from bot.delivery.outbox import plan
from bot.delivery.quiet_hours import quiet_end
from bot.delivery.recipients import Recipient
from bot.delivery.rules import Purpose
from bot.reading.result import Command
from bot.wording import consent_texts as words
from bot.wording.message import Message
from scheduling.records.addresses import find_people
from scheduling.records.invites import GOOD_FOR
from scheduling.records.numbers import Asked, Refusal, ask_number, refusal

_REFUSALS = {
    Refusal.OURS: words.ours,
    Refusal.ASKED: words.asked_before,
    Refusal.CLOSED: words.closed,
    Refusal.MANY: words.too_many,
}


def ask_partner(turn: Turn, command: Command) -> Message:
    """Ask a partner's number whether it wants to join; it is sent this one message and no other."""
    number, problem = _number(turn, command)
    if number is None:
        return problem
    asked = ask_number(turn.session, turn.person, SMS.name, number, turn.now, name=command.word)
    known = find_people(turn.session, SMS.name, number)
    ask = words.asked_further if known else words.asked
    at = _send(turn, asked, number, ask(turn.person.name))
    return _said(words.consent_question(command.word, number, at))


def own_number(turn: Turn, command: Command) -> Message:
    """Ask a number that somebody says is theirs; on its yes it takes the old one's place."""
    number, problem = _number(turn, command)
    if number is None:
        return problem
    asked = ask_number(turn.session, turn.person, SMS.name, number, turn.now, own=True)
    at = _send(turn, asked, number, words.asked_own(turn.person.name))
    return _said(words.asking_own(number, at))


def _number(turn: Turn, command: Command) -> tuple[str | None, Message]:
    """The number in full, or what to answer when it may not be asked."""
    written = command.number or ""
    if not turn.texting.running:
        return None, _said(words.no_texts())
    here = turn.message
    own = here.address if here.channel == SMS.name else None
    number = turn.texting.number(written, own)
    if number is None:
        return None, _said(words.unreadable(written, example_of(turn.texting.region)))
    refused = refusal(turn.session, turn.person.crew_id, SMS.name, number)
    return (number, _said("")) if refused is None else (None, _said(_REFUSALS[refused]()))


def _send(turn: Turn, asked: Asked, number: str, text: str) -> time | None:
    """Queue the question; gives the asking person's time at which it goes, or None for now."""
    key, to = f"invite:{asked.id}", Recipient(SMS.name, number)
    until = turn.now + GOOD_FOR
    # Where the number is nobody knows; most partners live near who asks them.
    quiet = quiet_end(turn.now, SMS.quiet, turn.person.zone)
    outgoing = OutgoingMessage(number, text)
    plan(turn.session, key, Purpose.INVITE, to, outgoing, turn.now, until, quiet_until=quiet)
    return None if quiet is None else quiet.astimezone(ZoneInfo(turn.person.zone)).time()


def _said(text: str) -> Message:
    return Message((text,))
