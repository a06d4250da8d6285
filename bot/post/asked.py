"""What came of asking a number, told to the person who asked."""

from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage
from bot.channels.send_error import SEND_ERRORS, SendError
from bot.post.crew_named import of_their_crew
from bot.post.outbox import plan
from bot.post.recipients import next_address
from bot.post.rules import Purpose
from bot.wording.consent_texts import did_not_reach
from scheduling.records.crew_records import CrewRecords
from scheduling.records.numbers import Asked, Outcome, end_askings, refuse


def tell_who_asked(session: Session, asked: Asked, text: str, now: datetime) -> None:
    """Tell who asked a number what came of it."""
    records = CrewRecords(session, asked.crew_id)
    to = next_address(records, asked.made_by, ())
    if to is not None and not records.person(asked.made_by).stopped:
        key = f"asked:{asked.id}"
        letter = OutgoingMessage(to.address, of_their_crew(session, asked.made_by, text))
        plan(session, key, Purpose.NEWS, to, letter, now)


def not_asked(
    session: Session, channel: str, number: str, send_error: SendError | None, now: datetime
) -> None:
    """The question met a number that takes no messages, so nothing is open there any more."""
    if send_error is None:
        return
    if send_error is SendError.OPTED_OUT:
        refuse(session, channel, number, now)
    for asked in end_askings(session, channel, number, Outcome.FAILED, now):
        text = did_not_reach(asked.name, number, SEND_ERRORS[send_error].words)
        tell_who_asked(session, asked, text, now)
