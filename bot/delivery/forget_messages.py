"""Forgetting people's messages: no text, address or id of what they wrote and were sent is kept.

A message out stays as an empty row, so that the month's segments of SMS are still counted.
"""

import re
from collections.abc import Collection, Iterator

from sqlalchemy import ColumnElement, Table, delete, or_, select
from sqlalchemy.orm import Session

from bot.delivery.empty_messages import FORGOTTEN, make_empty
from bot.delivery.inbox import forget_from
from bot.delivery.message_tables import ConversationStateRow, OutboxRow
from bot.delivery.rules import OPEN
from scheduling.records.addresses import Address
from scheduling.records.engine import connection_of
from scheduling.records.number_tables import StrangerRow
from scheduling.records.tables import AddressRow, Base, PersonRow, table_of

_READY = "ready_morning"
"""The table of mornings made ready, which a room above this one keeps."""


def forget_messages(session: Session, people: Collection[int], ways: Collection[Address]) -> None:
    """Forget what people wrote and were sent, once they are out of their crews.

    Args:
        session: the transaction.
        people: their numbers, one for each crew.
        ways: where they were reached.
    """
    for way in ways:
        forget_from(session, way.channel, way.address)
    _forget_messages_out(session, people, ways)
    _forget_addresses(session, ways)


def _forget_messages_out(
    session: Session, people: Collection[int], ways: Collection[Address]
) -> None:
    theirs = OutboxRow.person_id.in_(people)
    for row in session.scalars(select(OutboxRow).where(or_(theirs, *_sent_to(ways)))).all():
        if row.state in OPEN:
            # It is being sent, and its row is needed until that has ended.
            row.key, row.of_message = f"{FORGOTTEN}{row.id}", None
        else:
            make_empty(row)
    session.flush()


def _sent_to(ways: Collection[Address]) -> Iterator[ColumnElement[bool]]:
    for way in ways:
        yield (OutboxRow.channel == way.channel) & (OutboxRow.address == way.address)


def _forget_addresses(session: Session, ways: Collection[Address]) -> None:
    """Take addresses out of every other table that names one.

    A number whose holder wanted silence keeps it, or it would be asked again.
    """
    connection = connection_of(session)
    for table in _tables_of_addresses():
        for way in ways:
            at = (table.c.channel == way.channel) & (table.c.address == way.address)
            if table is table_of(StrangerRow):
                at &= table.c.refused_at.is_(None)
            connection.execute(delete(table).where(at))


def _tables_of_addresses() -> Iterator[Table]:
    done = {OutboxRow.__tablename__, AddressRow.__tablename__, "inbox"}
    for table in Base.metadata.sorted_tables:
        if {"channel", "address"} <= set(table.columns.keys()) and table.name not in done:
            yield table


def forget_name_elsewhere(session: Session, crew_id: int, name: str, instead: str) -> None:
    """Put another word for a name in what others of the crew were told, and in what waits."""
    named = re.compile(rf"\b{re.escape(name)}\b")
    people = select(PersonRow.id).where(PersonRow.crew_id == crew_id)
    told = OutboxRow.text.contains(name, autoescape=True)
    for row in session.scalars(select(OutboxRow).where(OutboxRow.person_id.in_(people), told)):
        row.text = named.sub(instead, row.text)
    talks = select(ConversationStateRow).where(ConversationStateRow.person_id.in_(people))
    for talk in session.scalars(talks):
        talk.more = [named.sub(instead, part) for part in talk.more]
    session.flush()
    ready = Base.metadata.tables.get(_READY)
    if ready is not None:
        connection_of(session).execute(delete(ready).where(ready.c.person_id.in_(people)))
