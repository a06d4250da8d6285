"""Tries at a code: within the rate limit, and the owners hear when many were wrong."""

from collections.abc import Callable
from datetime import datetime
from typing import TypeVar

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage, OutgoingMessage
from bot.delivery.notices_to_owners import owners_of
from bot.delivery.outbox import of_their_crew, plan
from bot.delivery.rules import Purpose
from bot.program_log import log_of
from bot.wording.codes import many_wrong
from scheduling.records.invites import InviteError, InviteProblem, crews_with_open_invites
from scheduling.records.wrong_codes import (
    MANY,
    is_code_looked_at,
    note_wrong_code,
    wrong_codes_of_the_day,
)
from scheduling.wall_time import local_day

log = log_of(__name__)

T = TypeVar("T")


def try_code(session: Session, message: IncomingMessage, now: datetime, use: Callable[[], T]) -> T:
    """Use a code that somebody sent, unless too many were wrong just now.

    Raises:
        InviteError: the code is not good, or was not looked up; nothing was changed but the count.
    """
    at = (message.channel, message.address)
    if not is_code_looked_at(session, *at, now):
        first = note_wrong_code(session, *at, now, looked_at=False)
        raise InviteError(InviteProblem.TOO_OFTEN if first else InviteProblem.TOLD)
    try:
        with session.begin_nested():
            return use()
    except InviteError:
        note_wrong_code(session, *at, now, looked_at=True)
        if wrong_codes_of_the_day(session, now) >= MANY:
            _tell_owners(session, now)
        raise


def _tell_owners(session: Session, now: datetime) -> None:
    """Tell the owners who wait for somebody with a code, once a day."""
    log.warning("many wrong codes were tried", most=MANY)
    for person, to in owners_of(session, crews_with_open_invites(now), (), ()):
        key = f"codes:{local_day(now, person.zone)}:{person.id}"
        outgoing = OutgoingMessage(to.address, of_their_crew(session, person.id, many_wrong(MANY)))
        plan(session, key, Purpose.NEWS, to, outgoing, now)
