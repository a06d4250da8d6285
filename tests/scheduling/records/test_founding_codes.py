"""A code of the machine's owner founds one crew, within two weeks, unless it is withdrawn."""

from datetime import datetime, timedelta

import pytest
from sqlalchemy.orm import Session

from scheduling.records.founding_codes import (
    is_founding_code,
    make_founding_code,
    open_founding_codes,
    use_founding_code,
    withdraw_founding_code,
)
from scheduling.records.invites import GOOD_FOR, InviteError, InviteProblem


def problem(session: Session, code: str, now: datetime) -> InviteProblem:
    with pytest.raises(InviteError) as refused:
        use_founding_code(session, code, now)
    return refused.value.problem


def test_a_code_is_used_once_whatever_its_capitals(session: Session, now: datetime) -> None:
    code = make_founding_code(session, now).code
    assert is_founding_code(session, f" {code.lower()} ")
    use_founding_code(session, f" {code.lower()} ", now)

    assert problem(session, code, now) is InviteProblem.USED
    assert open_founding_codes(session, now) == ()


def test_a_code_nobody_made_is_unknown(session: Session, now: datetime) -> None:
    assert not is_founding_code(session, "22222222")
    assert problem(session, "22222222", now) is InviteProblem.UNKNOWN


def test_a_code_is_good_for_14_days(session: Session, now: datetime) -> None:
    made = make_founding_code(session, now)
    assert made.expires_at - now == GOOD_FOR == timedelta(days=14)

    assert problem(session, made.code, made.expires_at) is InviteProblem.EXPIRED
    assert open_founding_codes(session, made.expires_at) == ()
    use_founding_code(session, made.code, made.expires_at - timedelta(seconds=1))


def test_a_code_that_is_withdrawn_founds_nothing(session: Session, now: datetime) -> None:
    gone, kept = (make_founding_code(session, now).code for _ in range(2))
    assert withdraw_founding_code(session, gone.lower(), now)

    assert problem(session, gone, now) is InviteProblem.WITHDRAWN
    assert [each.code for each in open_founding_codes(session, now)] == [kept]
    assert not withdraw_founding_code(session, gone, now)
    assert not withdraw_founding_code(session, "22222222", now)


def test_a_used_code_cannot_be_withdrawn(session: Session, now: datetime) -> None:
    code = make_founding_code(session, now).code
    use_founding_code(session, code, now)
    assert not withdraw_founding_code(session, code, now)
