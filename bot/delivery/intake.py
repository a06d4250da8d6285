"""Every message in is worked through once, and in one transaction with the answer to it."""

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Protocol

from sqlalchemy import Engine
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.delivery import inbox
from bot.delivery.inbox import InboxState
from bot.delivery.outbox import Claimed, Planned
from bot.monitoring.counters import Counted, count
from bot.program_log import log_of
from scheduling.records.engine import is_fault_of_database, reading, writing

log = log_of(__name__)

ClaimAnswer = Callable[[Session, Planned], Claimed | None]
"""Claims an answer that the transaction has planned, if its turn has come."""


class Handler(Protocol):
    """Works messages through: the conversation, as the intake sees it."""

    def known_as(
        self, session: Session, message: IncomingMessage, now: datetime
    ) -> IncomingMessage:
        """Give a message the id under which it is known, or under which it is new."""

    def handle(self, session: Session, message: IncomingMessage, now: datetime) -> Planned | None:
        """Work a message through; gives the answer that was planned."""

    def apologize(self, session: Session, message: IncomingMessage, now: datetime) -> None:
        """Plan an answer to a message that could not be worked through."""


def _stays_planned(_session: Session, _planned: Planned) -> None:
    """Leave the answer to the rounds of the sender."""


class Intake:
    """Takes messages in, and has them worked through.

    Args:
        engine: the database.
        handler: works a message through.

    """

    def __init__(self, engine: Engine, handler: Handler) -> None:
        self._engine = engine
        self._handler = handler

    def receive(
        self, message: IncomingMessage, now: datetime, claim: ClaimAnswer = _stays_planned
    ) -> Claimed | None:
        """Store a message and work through it; the same message again does nothing.

        Both are one transaction. Where that fails nothing of it is kept, so the message is then
        stored by itself first.

        Args:
            message: what came in.
            now: aware instant.
            claim: claims an answer in the same transaction, so that it can leave at once.

        Returns:
            What was claimed.

        Raises:
            sqlalchemy.exc.DBAPIError: the database could not be written; hand it in again.

        """
        try:
            return self._work_at_once(inbox.kept(message), now, claim)
        except Exception as error:  # noqa: BLE001 - whatever it was, the message is kept first
            log.info("a message is stored by itself", error=type(error).__name__)
        stored = self._store(message, now)
        if stored is not None:
            self.work(stored, now)
        return None

    def catch_up(self, now: datetime, left_for: timedelta = timedelta(0)) -> None:
        """Work through messages that were stored and then left lying, as by a worker that died.

        Args:
            now: aware instant.
            left_for: how long a message must have waited; younger ones may be in hand.

        """
        with reading(self._engine) as session:
            waiting = inbox.waiting(session, None if not left_for else now - left_for)
        for stored in waiting:
            try:
                self.work(stored, now)
            except DBAPIError:
                log.exception("the database cannot be written; messages in wait for the next round")
                return

    def work(self, stored: int, now: datetime) -> None:
        """Work through one stored message; if that fails nothing of it is kept but its text."""
        try:
            with writing(self._engine) as session:
                row = inbox.in_turn(session, stored)
                channel = row.channel
                if row.state == InboxState.WAITING:
                    row.state = InboxState.DONE
                    self._handler.handle(session, inbox.message(row), now)
            _tell_worked_through(stored, channel)
        except Exception as error:
            if is_fault_of_database(error):
                # The message is not, and waits to be worked through.
                raise
            log.exception("a message could not be worked through", number=stored)
            self._apologize(stored, now)

    def _work_at_once(
        self, message: IncomingMessage, now: datetime, claim: ClaimAnswer
    ) -> Claimed | None:
        with writing(self._engine) as session:
            inbox.wait_for_turn(session, message.channel, message.address)
            told = self._handler.known_as(session, message, now)
            stored = inbox.take(session, told, now)
            left_lying = None if stored else inbox.still_waiting(session, told)
            planned = None if stored is None else self._handler.handle(session, told, now)
            claimed = None if planned is None else claim(session, planned)
        if stored is not None:
            _tell_worked_through(stored, message.channel)
        if left_lying is not None:
            self.work(left_lying, now)
        return claimed

    def _store(self, message: IncomingMessage, now: datetime) -> int | None:
        with writing(self._engine) as session:
            return inbox.accept(session, self._handler.known_as(session, message, now), now)

    def _apologize(self, stored: int, now: datetime) -> None:
        with writing(self._engine) as session:
            row = inbox.in_turn(session, stored)
            if row.state == InboxState.WAITING:
                row.state = InboxState.FAILED
                self._handler.apologize(session, inbox.message(row), now)


def _tell_worked_through(stored: int, channel: str) -> None:
    count(Counted.MESSAGES_IN, channel=channel)
    log.info("worked through", number=stored, channel=channel)
