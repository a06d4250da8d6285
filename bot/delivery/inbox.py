"""The inbox: each message in is stored once under its channel's id, and worked through once.

Both are one transaction with the answer to it, as a rule.
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from enum import StrEnum
from typing import Protocol

from sqlalchemy import ColumnElement, Engine, delete, insert, select
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.channels.traits import traits_of
from bot.delivery.claims import Claimed
from bot.delivery.message_tables import InboxRow, KnownRow
from bot.delivery.outbox import Planned
from bot.monitoring import Counted, count
from bot.program_log import log_of
from scheduling.records.engine import is_fault_of_database, reading, writing
from scheduling.records.locks import hold_lock
from scheduling.records.upsert import insert_or_ignore

log = log_of(__name__)

KEPT = timedelta(days=2)
"""How long a message in is known again. A carrier repeats one within a day, and may begin to
count anew after a week."""

TAPS_KEPT = timedelta(days=60)
"""How long a tapped button is known again: longer than a morning's buttons are of any use."""

ClaimAnswer = Callable[[Session, Planned], Claimed | None]
"""Claims an answer that the transaction has planned, if its turn has come."""


class InboxState(StrEnum):
    """Where a message in stands."""

    WAITING = "waiting"
    DONE = "done"
    FAILED = "failed"
    """Working through it raised an error; it is kept, and the person was told."""


def accept(session: Session, message: IncomingMessage, now: datetime) -> int | None:
    """Store a message; returns its row's id, or None if it was worked through before.

    A message that is stored but still waits is given again, to be worked through at last.
    """
    stored = _store(session, kept(message), now, InboxState.WAITING)
    return still_waiting(session, message) if stored is None else stored


def take(session: Session, message: IncomingMessage, now: datetime) -> int | None:
    """Store a message that is worked through in this very transaction; None if it was known."""
    return _store(session, message, now, InboxState.DONE)


def still_waiting(session: Session, message: IncomingMessage) -> int | None:
    """Give the row's id of a message that is stored and still waits."""
    known = find(session, message.channel, message.id)
    return known.id if known is not None and known.state == InboxState.WAITING else None


def _store(
    session: Session, message: IncomingMessage, now: datetime, state: InboxState
) -> int | None:
    stored = insert_or_ignore(
        session,
        InboxRow,
        channel=message.channel,
        message_id=message.id,
        address=message.address,
        text=message.text,
        sender=message.sender,
        corrects=message.corrects,
        tap=message.tap,
        replies_to=message.replies_to,
        album=message.album,
        in_group=message.in_group,
        sent_at=message.sent_at,
        received_at=now,
        state=state,
    )
    # Looked for after it: while it waited for another, that may have let go of the same id.
    if stored is None or not _is_known(session, message):
        return stored
    session.execute(delete(InboxRow).where(InboxRow.id == stored))
    return None


def _is_known(session: Session, message: IncomingMessage) -> bool:
    known = (message.channel, message.id)
    return traits_of(message.channel).keeps_ids and session.get(KnownRow, known) is not None


def wait_for_turn(session: Session, channel: str, address: str) -> None:
    """Wait until nobody works through a message from an address; nobody does until the end."""
    hold_lock(session, f"from:{channel}:{address}")


def in_turn(session: Session, stored: int) -> InboxRow:
    """Give a stored message once nobody else works through one from the same address."""
    row = session.get_one(InboxRow, stored)
    wait_for_turn(session, row.channel, row.address)
    if session.get_bind().dialect.name != "sqlite":
        # There a transaction that may write has had its turn from its beginning.
        session.refresh(row, with_for_update=True)
    return row


def waiting(session: Session, before: datetime | None = None) -> list[int]:
    """Row ids of messages stored but not yet worked through, oldest first.

    With ``before`` only those that came before that instant: younger ones are in hand.
    """
    found = select(InboxRow.id).where(InboxRow.state == InboxState.WAITING).order_by(InboxRow.id)
    if before is not None:
        found = found.where(InboxRow.received_at < before)
    return list(session.scalars(found))


def kept(message: IncomingMessage) -> IncomingMessage:
    """Give a message as it can be kept: PostgreSQL stores no NUL."""
    text, sender = message.text.replace("\0", ""), message.sender.replace("\0", "")
    return replace(message, text=text, sender=sender)


def message_of(row: InboxRow) -> IncomingMessage:
    """The stored message as its channel gave it."""
    return IncomingMessage(
        channel=row.channel,
        address=row.address,
        id=row.message_id,
        text=row.text,
        sent_at=row.sent_at,
        sender=row.sender,
        corrects=row.corrects,
        tap=row.tap,
        replies_to=row.replies_to,
        album=row.album,
        in_group=row.in_group,
    )


def find(session: Session, channel: str, message_id: str) -> InboxRow | None:
    """Find a message in by its channel's id."""
    same = InboxRow.message_id == message_id
    return session.scalar(select(InboxRow).where(InboxRow.channel == channel, same))


def forget_handled(session: Session, now: datetime) -> None:
    """Forget messages that were worked through long ago; a tap longer, since buttons stay.

    Where a channel asks for it the ids are kept.
    """
    handled = InboxRow.state != InboxState.WAITING
    old = (InboxRow.received_at < now - KEPT) & InboxRow.tap.is_(None)
    _let_go(session, handled & old)
    session.execute(delete(InboxRow).where(InboxRow.received_at < now - TAPS_KEPT, handled))


def forget_from(session: Session, channel: str, address: str) -> None:
    """Forget what an address has written and was worked through."""
    here = (InboxRow.channel == channel) & (InboxRow.address == address)
    _let_go(session, here & (InboxRow.state != InboxState.WAITING))


def _let_go(session: Session, which: ColumnElement[bool]) -> None:
    """Delete messages in, and keep their ids where a channel asks for it."""
    gone = delete(InboxRow).where(which).returning(InboxRow.channel, InboxRow.message_id)
    found = session.execute(gone).all()
    ids = [{"channel": c, "message_id": own} for c, own in found if traits_of(c).keeps_ids]
    if ids:
        session.execute(insert(KnownRow), ids)


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
            return self._work_at_once(kept(message), now, claim)
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
            left_lying = waiting(session, None if not left_for else now - left_for)
        for stored in left_lying:
            try:
                self.work(stored, now)
            except DBAPIError:
                log.exception("the database cannot be written; messages in wait for the next round")
                return

    def work(self, stored: int, now: datetime) -> None:
        """Work through one stored message; if that fails nothing of it is kept but its text."""
        try:
            with writing(self._engine) as session:
                row = in_turn(session, stored)
                channel = row.channel
                if row.state == InboxState.WAITING:
                    row.state = InboxState.DONE
                    self._handler.handle(session, message_of(row), now)
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
            wait_for_turn(session, message.channel, message.address)
            told = self._handler.known_as(session, message, now)
            stored = take(session, told, now)
            left_lying = None if stored else still_waiting(session, told)
            planned = None if stored is None else self._handler.handle(session, told, now)
            claimed = None if planned is None else claim(session, planned)
        if stored is not None:
            _tell_worked_through(stored, message.channel)
        if left_lying is not None:
            self.work(left_lying, now)
        return claimed

    def _store(self, message: IncomingMessage, now: datetime) -> int | None:
        with writing(self._engine) as session:
            return accept(session, self._handler.known_as(session, message, now), now)

    def _apologize(self, stored: int, now: datetime) -> None:
        with writing(self._engine) as session:
            row = in_turn(session, stored)
            if row.state == InboxState.WAITING:
                row.state = InboxState.FAILED
                self._handler.apologize(session, message_of(row), now)


def _tell_worked_through(stored: int, channel: str) -> None:
    count(Counted.MESSAGES_IN, channel=channel)
    log.info("worked through", number=stored, channel=channel)
