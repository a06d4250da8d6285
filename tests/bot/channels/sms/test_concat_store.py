"""Parts of a long message wait in the database, so that no crash loses one."""

from datetime import UTC, datetime, timedelta

from sqlalchemy import Engine

from bot.channels.sms.concat_store import WAIT, LongMessage, done_waiting, forget_parts, keep_part
from bot.channels.sms.header import PartNumber
from bot.channels.sms.segments import HeaderSize
from scheduling.records.engine import writing

AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)
ADA, MILO = "+12025550123", "+12025550199"


def keep(
    engine: Engine, number: int, octets: bytes, sender: str = ADA, at: datetime = AT,
    size: HeaderSize = HeaderSize.NARROW,
) -> LongMessage | None:  # fmt: skip
    with writing(engine) as session:
        return keep_part(session, sender, PartNumber(7, 3, number, size), octets, at)


def waiting(engine: Engine, now: datetime) -> list[LongMessage]:
    with writing(engine) as session:
        return list(done_waiting(session, now))


def test_the_last_part_makes_it_whole(engine: Engine) -> None:
    assert keep(engine, 3, b"5b no eggs") is None
    assert keep(engine, 1, b"4a eggs, ") is None
    assert keep(engine, 1, b"4a eggs, ") is None
    message = keep(engine, 2, b"4b dud, ", at=AT + timedelta(seconds=4))
    assert message is not None
    assert (message.octets, message.first_at) == (b"4a eggs, 4b dud, 5b no eggs", AT)


def test_parts_of_two_people_and_of_two_kinds_of_header_are_not_mixed(engine: Engine) -> None:
    keep(engine, 1, b"a")
    keep(engine, 2, b"b")
    assert keep(engine, 3, b"c", sender=MILO) is None
    assert keep(engine, 3, b"c", size=HeaderSize.WIDE) is None
    assert keep(engine, 3, b"c") is not None


def test_what_was_not_handed_on_before_a_crash_is_found_again(engine: Engine) -> None:
    for number in (1, 2, 3):
        whole = keep(engine, number, b"x")
    assert whole is not None
    assert waiting(engine, AT) == [whole]
    with writing(engine) as session:
        forget_parts(session, whole.whole)
    assert waiting(engine, AT + WAIT) == []


def test_a_message_whose_parts_never_came_is_given_up_after_a_while(engine: Engine) -> None:
    keep(engine, 1, b"4a eggs, ")
    assert waiting(engine, AT + WAIT - timedelta(seconds=1)) == []
    (lost,) = waiting(engine, AT + WAIT)
    assert (lost.whole.sender, lost.octets) == (ADA, None)


def test_a_message_joined_anew_has_the_same_id_and_a_later_one_another(engine: Engine) -> None:
    for number in (1, 2, 3):
        first = keep(engine, number, b"x")
    (again,) = waiting(engine, AT)
    assert first is not None
    assert first.id == again.id
    with writing(engine) as session:
        forget_parts(session, first.whole)
    for number in (1, 2, 3):
        later = keep(engine, number, b"x", at=AT + timedelta(hours=1))
    assert later is not None
    assert later.id != first.id
