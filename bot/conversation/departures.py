"""Departures: whoever is out of a crew gets nothing that waits for them, from that moment on."""

from datetime import datetime

from sqlalchemy import delete
from sqlalchemy.orm import Session

from bot.delivery.message_tables import ConversationStateRow
from bot.delivery.outbox import withdraw, withdraw_question
from scheduling.records.leaving import let_out, take_back_codes
from scheduling.records.numbers import Asked
from scheduling.records.people import Person


def depart(session: Session, person: Person, now: datetime) -> None:
    """Let a person out of their crew, with all that waits for them in the outbox."""
    _withdraw_questions(session, let_out(session, person, now), now)
    withdraw(session, person.id, now, all_of_it=True)
    talk = delete(ConversationStateRow).where(ConversationStateRow.person_id == person.id)
    session.execute(talk)


def invite_no_more(session: Session, person: Person, now: datetime) -> None:
    """Take back what somebody who was an owner has asked others with, and nobody has used."""
    _withdraw_questions(session, take_back_codes(session, person, now, own=False), now)


def _withdraw_questions(session: Session, asked: tuple[Asked, ...], now: datetime) -> None:
    for each in asked:
        withdraw_question(session, each.id, now)
