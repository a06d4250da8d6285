"""The connection beneath a session, for statements that need no objects made of their rows."""

from sqlalchemy import Connection
from sqlalchemy.orm import Session


def connection_of(session: Session) -> Connection:
    """Give the connection of a session's transaction.

    A reply asks for it a dozen times, and most replies need no more of the session than this.
    """
    bind = session.get_bind()
    return bind if isinstance(bind, Connection) else session.connection()
