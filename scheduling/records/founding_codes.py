"""Codes of the machine's owner, each of which lets somebody found one crew."""

import secrets
from datetime import datetime

from sqlalchemy import String, update
from sqlalchemy.orm import Mapped, Session, mapped_column

from scheduling.records.invites import ALPHABET, GOOD_FOR, Invite, InviteError, InviteProblem
from scheduling.records.tables import Base

LENGTH = 8
"""Two more than a partner's code has, so that neither is taken for the other."""


class FoundingCodeRow(Base):
    """A code that lets somebody found a crew, once."""

    __tablename__ = "founding_code"

    code: Mapped[str] = mapped_column(String(LENGTH), primary_key=True)
    made_at: Mapped[datetime]
    used_at: Mapped[datetime | None]
    withdrawn_at: Mapped[datetime | None]


def make_founding_code(session: Session, now: datetime) -> Invite:
    """Make a code with which somebody founds a crew within 14 days."""
    code = "".join(secrets.choice(ALPHABET) for _ in range(LENGTH))
    session.add(FoundingCodeRow(code=code, made_at=now))
    session.flush()
    return Invite(code, now + GOOD_FOR)


def open_founding_codes(session: Session, now: datetime) -> tuple[Invite, ...]:
    """Give the codes that still let somebody found a crew, the oldest first."""
    unused = session.query(FoundingCodeRow).where(
        _IS_OPEN, FoundingCodeRow.made_at > now - GOOD_FOR
    )
    rows = unused.order_by(FoundingCodeRow.made_at, FoundingCodeRow.code)
    return tuple(Invite(row.code, row.made_at + GOOD_FOR) for row in rows)


def withdraw_founding_code(session: Session, code: str, now: datetime) -> bool:
    """Let a code found nothing any more; False if it did not let anybody found a crew before."""
    return _ended(session, code, now, withdrawn_at=now)


def use_founding_code(session: Session, code: str, now: datetime) -> None:
    """Use a code up.

    Raises:
        InviteError: it is unknown, used, withdrawn or expired.
    """
    if _ended(session, code, now, used_at=now):
        return
    row = session.get(FoundingCodeRow, code.strip().upper())
    if row is None:
        raise InviteError(InviteProblem.UNKNOWN)
    if row.used_at is not None:
        raise InviteError(InviteProblem.USED)
    withdrawn = row.withdrawn_at is not None
    raise InviteError(InviteProblem.WITHDRAWN if withdrawn else InviteProblem.EXPIRED)


def is_founding_code(session: Session, code: str) -> bool:
    """Tell whether a code is, or was, for founding a crew."""
    return session.get(FoundingCodeRow, code.strip().upper()) is not None


_IS_OPEN = FoundingCodeRow.used_at.is_(None) & FoundingCodeRow.withdrawn_at.is_(None)


def _ended(session: Session, code: str, now: datetime, **ends: datetime) -> bool:
    # Asked of the database, so that of two who type the code at one time one is refused.
    this = update(FoundingCodeRow).where(FoundingCodeRow.code == code.strip().upper(), _IS_OPEN)
    still = this.where(FoundingCodeRow.made_at > now - GOOD_FOR)
    return session.execute(still.values(**ends).returning(FoundingCodeRow.code)).first() is not None
