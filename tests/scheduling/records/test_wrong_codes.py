"""How many guesses at codes are looked at: of each sender, and of everybody."""

from datetime import datetime, timedelta

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from scheduling.records.wrong_codes import (
    MOST_IN_ALL,
    MOST_OF_ONE,
    SPAN,
    WrongCodeRow,
    is_code_looked_at,
    note_wrong_code,
    wrong_codes_of_the_day,
)


def wrong(session: Session, address: str, now: datetime, times: int = 1) -> None:
    for _ in range(times):
        note_wrong_code(session, "phone", address, now, looked_at=True)


def test_of_one_sender_five_an_hour_are_looked_at(session: Session, now: datetime) -> None:
    wrong(session, "11", now, MOST_OF_ONE - 1)
    assert is_code_looked_at(session, "phone", "11", now)
    wrong(session, "11", now)

    assert not is_code_looked_at(session, "phone", "11", now)
    assert is_code_looked_at(session, "phone", "12", now)
    assert is_code_looked_at(session, "other", "11", now)
    assert not is_code_looked_at(session, "phone", "11", now + SPAN - timedelta(seconds=1))
    assert is_code_looked_at(session, "phone", "11", now + SPAN)


def test_of_everybody_sixty_an_hour_are_looked_at(session: Session, now: datetime) -> None:
    for number in range(MOST_IN_ALL - 1):
        wrong(session, str(number), now)
    assert is_code_looked_at(session, "phone", "new", now)
    wrong(session, "last", now)

    assert not is_code_looked_at(session, "phone", "new", now)
    assert is_code_looked_at(session, "phone", "new", now + SPAN)


def test_a_try_that_was_not_looked_at_counts_for_nothing_and_is_told_once_an_hour(
    session: Session, now: datetime
) -> None:
    assert note_wrong_code(session, "phone", "11", now, looked_at=False)
    assert not note_wrong_code(session, "phone", "11", now, looked_at=False)
    assert note_wrong_code(session, "phone", "12", now, looked_at=False)
    assert note_wrong_code(session, "phone", "11", now + SPAN, looked_at=False)

    assert wrong_codes_of_the_day(session, now + SPAN) == 0
    assert is_code_looked_at(session, "phone", "11", now)


def test_tries_are_forgotten_after_a_day(session: Session, now: datetime) -> None:
    wrong(session, "11", now, 3)
    assert wrong_codes_of_the_day(session, now + timedelta(hours=23)) == 3
    assert wrong_codes_of_the_day(session, now + timedelta(days=1)) == 0
    wrong(session, "12", now + timedelta(days=1))

    assert session.scalar(select(func.count(WrongCodeRow.id))) == 1
