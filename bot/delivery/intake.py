"""The intake: messages in are stored and worked through, and none holds up the others for ever."""

from collections import Counter
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Protocol
from uuid import uuid4

from sqlalchemy import Engine
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.delivery.claims import Claimed
from bot.delivery.in_hand import MOST_DEATHS, note_in_hand, put_down, put_down_all
from bot.delivery.inbox import (
    InboxState,
    accept,
    find,
    in_turn,
    kept,
    message_of,
    still_waiting,
    store,
    take,
    wait_for_turn,
    waiting,
)
from bot.delivery.message_tables import InboxRow
from bot.delivery.outbox import Planned
from bot.monitoring import Counted, count
from bot.program_log import log_of
from scheduling.records.engine import is_fault_of_database, reading, writing

log = log_of(__name__)

ClaimAnswer = Callable[[Session, Planned], Claimed | None]
"""Claims an answer that the transaction has planned, if its turn has come."""

MOST_TRIES = 3
"""How often a message is handed in that cannot be stored, before it is set aside."""


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

    A message that cannot be worked through, or that the process died of, is set aside.

    Args:
        handler: works a message through.
        careful_until: until when it is noted what is in hand, since the last process died.
    """

    def __init__(
        self, engine: Engine, handler: Handler, careful_until: datetime | None = None
    ) -> None:
        self._engine = engine
        self._handler = handler
        self._careful_until = careful_until
        self._run = uuid4().hex
        self._not_stored: Counter[tuple[str, str]] = Counter()

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
            Exception: it could not be stored, as a rule since the database cannot be written; hand
                it in again.
        """
        message = kept(message)
        careful = self._careful_until is not None and now < self._careful_until
        if careful and self._was_died_of(message, now):
            return None
        try:
            return self._work_at_once(message, now, claim, noted=careful)
        except Exception as error:  # noqa: BLE001 - whatever it was, the message is kept first
            log.info("a message is stored by itself", error=type(error).__name__)
        try:
            stored = self._store(message, now)
        except Exception as error:  # noqa: BLE001 - raised again, but for one of a bad message
            self._try_again(message, error, now)
            return None
        if stored is not None:
            self.work(stored, now)
        if careful:
            # Where it is known under another id, that one was put down.
            with writing(self._engine) as session:
                put_down(session, message.channel, message.id)
        return None

    def finish(self) -> None:
        """Put down what is in hand of a process that ends as it should."""
        with writing(self._engine) as session:
            put_down_all(session, self._run)

    def catch_up(self, now: datetime, left_for: timedelta = timedelta(0)) -> None:
        """Work through messages that were stored and then left lying, as by a worker that died.

        Args:
            now: aware instant.
            left_for: how long a message must have waited; younger ones may be in hand.
        """
        with reading(self._engine) as session:
            left_lying = waiting(session, None if not left_for else now - left_for)
        for stored in left_lying:
            try:
                if not self._was_died_of(self._message(stored), now):
                    self.work(stored, now)
            except Exception as error:
                log.exception("a message waits for the next round", number=stored)
                if is_fault_of_database(error):
                    return

    def work(self, stored: int, now: datetime) -> None:
        """Work through one stored message; one that cannot be is set aside."""
        try:
            with writing(self._engine) as session:
                row = in_turn(session, stored)
                channel = row.channel
                if row.state == InboxState.WAITING:
                    row.state = InboxState.DONE
                    self._handler.handle(session, message_of(row), now)
                put_down(session, channel, row.message_id)
            _tell_worked_through(stored, channel)
        except Exception as error:
            if is_fault_of_database(error):
                # The message is not, and waits to be worked through.
                raise
            log.exception("a message could not be worked through", number=stored)
            self._set_aside(self._message(stored), now)

    def _work_at_once(
        self, message: IncomingMessage, now: datetime, claim: ClaimAnswer, *, noted: bool
    ) -> Claimed | None:
        with writing(self._engine) as session:
            wait_for_turn(session, message.channel, message.address)
            told = self._handler.known_as(session, message, now)
            stored = take(session, told, now)
            left_lying = None if stored else still_waiting(session, told)
            planned = None if stored is None else self._handler.handle(session, told, now)
            claimed = None if planned is None else claim(session, planned)
            if noted:
                put_down(session, message.channel, message.id)
        if stored is not None:
            _tell_worked_through(stored, message.channel)
        if left_lying is not None:
            self.work(left_lying, now)
        return claimed

    def _store(self, message: IncomingMessage, now: datetime) -> int | None:
        with writing(self._engine) as session:
            return accept(session, self._handler.known_as(session, message, now), now)

    def _message(self, stored: int) -> IncomingMessage:
        with reading(self._engine) as session:
            return message_of(session.get_one(InboxRow, stored))

    def _was_died_of(self, message: IncomingMessage, now: datetime) -> bool:
        """Note that a message is in hand; one of which processes died is set aside."""
        with writing(self._engine) as session:
            deaths = note_in_hand(session, message.channel, message.id, self._run)
        if deaths < MOST_DEATHS:
            return False
        self._set_aside(message, now)
        return True

    def _try_again(self, message: IncomingMessage, error: Exception, now: datetime) -> None:
        """Have a message handed in again that was not stored; set it aside if that was often."""
        name = (message.channel, message.id)
        self._not_stored[name] += not is_fault_of_database(error)
        if self._not_stored[name] < MOST_TRIES:
            raise error
        self._set_aside(message, now)
        del self._not_stored[name]

    def _set_aside(self, message: IncomingMessage, now: datetime) -> None:
        """Set a message aside and tell who wrote it; without telling where that is not possible."""
        for tells in (True, False):
            try:
                with writing(self._engine) as session:
                    if not self._is_set_aside(session, message, now, tells=tells):
                        return
            except Exception as error:
                if is_fault_of_database(error):
                    raise
                log.exception("a message could not be set aside", channel=message.channel)
            else:
                count(Counted.SET_ASIDE, channel=message.channel)
                log.error("a message was set aside", channel=message.channel)
                return

    def _is_set_aside(
        self, session: Session, message: IncomingMessage, now: datetime, *, tells: bool
    ) -> bool:
        wait_for_turn(session, message.channel, message.address)
        put_down(session, message.channel, message.id)
        told = self._handler.known_as(session, message, now) if tells else message
        if not _kept_aside(session, told, now):
            return False
        if tells:
            self._handler.apologize(session, told, now)
        return True


def _kept_aside(session: Session, message: IncomingMessage, now: datetime) -> bool:
    """Keep a message among those that are set aside; False if it was worked through before."""
    row = find(session, message.channel, message.id)
    if row is None:
        return store(session, message, now, InboxState.SET_ASIDE) is not None
    was_waiting = row.state == InboxState.WAITING
    row.state = InboxState.SET_ASIDE if was_waiting else row.state
    return was_waiting


def _tell_worked_through(stored: int, channel: str) -> None:
    count(Counted.MESSAGES_IN, channel=channel)
    log.info("worked through", number=stored, channel=channel)
