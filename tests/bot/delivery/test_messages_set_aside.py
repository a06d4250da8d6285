"""A message that cannot be worked through is set aside and its writer told; the rest goes on."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine, select
from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.conversation.message_handler import MessageHandler
from bot.delivery import inbox, intake
from bot.delivery.in_hand import InHandRow, begin_run, end_run
from bot.delivery.inbox import InboxState
from bot.delivery.intake import MOST_TRIES, Intake
from bot.delivery.message_tables import InboxRow, OutboxRow
from bot.delivery.outbox import Planned
from bot.wording.help import went_wrong
from scheduling.records.engine import reading, writing

NOW = datetime(2027, 5, 12, 10, tzinfo=UTC)
POISON = "the words that nobody can bear"


def written(text: str, key: str = "1", sender: str = "Ada") -> IncomingMessage:
    return IncomingMessage("phone", "11", key, text, NOW, sender)


class Killed(BaseException):
    """The process dies: nothing of ours sees it."""


class DyingHandler(MessageHandler):
    """Works messages through as always, and dies of one."""

    def handle(self, session: Session, message: IncomingMessage, now: datetime) -> Planned | None:
        if message.text == POISON:
            raise Killed
        return super().handle(session, message, now)


class RaisingHandler(MessageHandler):
    """Works messages through as always, and raises at one; may also be unable to say so."""

    def __init__(self, *, can_tell: bool = True) -> None:
        super().__init__()
        self._can_tell = can_tell

    def handle(self, session: Session, message: IncomingMessage, now: datetime) -> Planned | None:
        if message.text == POISON:
            raise RecursionError
        return super().handle(session, message, now)

    def apologize(self, session: Session, message: IncomingMessage, now: datetime) -> None:
        if not self._can_tell:
            raise KeyError(message.id)
        super().apologize(session, message, now)


def states(engine: Engine) -> dict[str, str]:
    with reading(engine) as session:
        return {row.message_id: row.state for row in session.scalars(select(InboxRow))}


def answers(engine: Engine, key: str = "1") -> list[str]:
    of_it = select(OutboxRow.text).where(OutboxRow.key == f"answer:phone:{key}")
    with reading(engine) as session:
        return list(session.scalars(of_it))


def noted(engine: Engine) -> list[str]:
    with reading(engine) as session:
        return list(session.scalars(select(InHandRow.message_id)))


def runs_until_it_is_set_aside(
    engine: Engine, work: Callable[[Intake], object], most: int = 9
) -> int:
    """Start processes until one outlives the work; gives how many died."""
    begin_run(engine, NOW)
    for died in range(most):
        process = Intake(engine, DyingHandler(), begin_run(engine, NOW))
        try:
            work(process)
        except Killed:
            continue
        return died
    raise AssertionError("it would have killed every process")


def test_one_that_raises_is_set_aside_and_its_writer_told_once(engine: Engine) -> None:
    desk = Intake(engine, RaisingHandler())
    desk.receive(written(POISON), NOW)
    desk.receive(written(POISON), NOW)
    desk.receive(written("begin", "2"), NOW)

    assert states(engine) == {"1": "set_aside", "2": "done"}
    assert answers(engine) == [went_wrong()]
    assert answers(engine, "2")[0].startswith("Welcome Ada")


def test_one_of_which_nobody_can_even_be_told_is_set_aside(engine: Engine) -> None:
    desk = Intake(engine, RaisingHandler(can_tell=False))
    desk.receive(written(POISON), NOW)

    assert states(engine) == {"1": "set_aside"}
    assert answers(engine) == []


def test_one_that_waits_and_raises_keeps_no_other_from_being_caught_up(engine: Engine) -> None:
    with writing(engine) as session:
        for key, text in (("1", POISON), ("2", "begin")):
            inbox.accept(session, written(text, key), NOW)
    Intake(engine, RaisingHandler(can_tell=False)).catch_up(NOW)

    assert states(engine) == {"1": "set_aside", "2": "done"}


def test_one_that_cannot_be_stored_is_handed_in_a_few_times_and_then_set_aside(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    def cannot(*_: object) -> None:
        raise TypeError("of no kind that a column has")

    monkeypatch.setattr(intake, "take", cannot)
    monkeypatch.setattr(intake, "accept", cannot)
    desk = Intake(engine, MessageHandler())
    for _ in range(MOST_TRIES - 1):
        with pytest.raises(TypeError):
            desk.receive(written("begin"), NOW)
    desk.receive(written("begin"), NOW)

    assert states(engine) == {"1": "set_aside"}
    assert answers(engine) == [went_wrong()]


def test_a_database_at_fault_sets_nothing_aside_however_often(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OperationalError("INSERT", {}, Exception("database or disk is full"))

    desk = Intake(engine, MessageHandler())
    with monkeypatch.context() as faulty:
        faulty.setattr(intake, "take", full)
        faulty.setattr(intake, "accept", full)
        for _ in range(MOST_TRIES + 2):
            with pytest.raises(OperationalError):
                desk.receive(written("begin"), NOW)
    desk.receive(written("begin"), NOW)

    assert states(engine) == {"1": "done"}


@pytest.mark.parametrize(
    "message",
    [
        written("begin\udfff"),
        written("begin", sender="Bo\udfff\u202e"),
        written("\x00\x1b[31mbegin"),
        written("begin", "1\ud800"),
        written("\u200fbegin\u2069"),
    ],
    ids=["half a pair", "a name", "controls", "an id", "direction"],
)
def test_letters_that_no_database_takes_hold_nobody_up(
    engine: Engine, message: IncomingMessage
) -> None:
    Intake(engine, MessageHandler()).receive(message, NOW)

    assert list(states(engine).values()) == ["done"]
    with reading(engine) as session:
        (row,) = session.scalars(select(InboxRow))
    assert (row.text + row.sender + row.message_id).isprintable()


def test_one_that_kills_every_process_is_set_aside_after_two_were_seen_to_die(
    engine: Engine,
) -> None:
    died = runs_until_it_is_set_aside(engine, lambda desk: desk.receive(written(POISON), NOW))

    assert died == 2
    assert states(engine) == {"1": "set_aside"}
    assert answers(engine) == [went_wrong()]
    assert noted(engine) == []


def test_one_that_was_stored_and_kills_every_process_is_set_aside_too(engine: Engine) -> None:
    with writing(engine) as session:
        inbox.accept(session, written(POISON), NOW)
        inbox.accept(session, written("begin", "2"), NOW)
    assert runs_until_it_is_set_aside(engine, lambda desk: desk.catch_up(NOW)) == 2

    assert states(engine) == {"1": "set_aside", "2": "done"}


def test_a_good_message_in_hand_at_a_death_is_worked_through(engine: Engine) -> None:
    begin_run(engine, NOW)
    with pytest.raises(Killed):
        Intake(engine, DyingHandler(), begin_run(engine, NOW)).receive(written(POISON), NOW)
    Intake(engine, MessageHandler(), begin_run(engine, NOW)).receive(written(POISON), NOW)

    assert states(engine) == {"1": "done"}
    assert noted(engine) == []


def test_the_same_process_may_have_one_in_hand_as_often_as_it_likes(engine: Engine) -> None:
    begin_run(engine, NOW)
    process = Intake(engine, DyingHandler(), begin_run(engine, NOW))
    for _ in range(5):
        with pytest.raises(Killed):
            process.receive(written(POISON), NOW)

    assert states(engine) == {}


def test_after_a_start_that_followed_no_death_nothing_is_noted(engine: Engine) -> None:
    assert begin_run(engine, NOW) is None
    end_run(engine, NOW + timedelta(seconds=1))
    careful_until = begin_run(engine, NOW + timedelta(seconds=2))
    assert careful_until is None

    with pytest.raises(Killed):
        Intake(engine, DyingHandler(), careful_until).receive(written(POISON), NOW)
    assert noted(engine) == []


def test_what_was_set_aside_is_kept_when_others_are_forgotten(engine: Engine) -> None:
    desk = Intake(engine, RaisingHandler())
    desk.receive(written(POISON), NOW)
    desk.receive(written("begin", "2"), NOW)
    with writing(engine) as session:
        inbox.forget_handled(session, NOW + timedelta(days=30))

    assert states(engine) == {"1": InboxState.SET_ASIDE}


def test_a_process_that_ends_as_it_should_died_of_nothing(engine: Engine) -> None:
    begin_run(engine, NOW)
    for _ in range(5):
        process = Intake(engine, DyingHandler(), begin_run(engine, NOW))
        with pytest.raises(Killed):
            process.receive(written(POISON), NOW)
        process.finish()

    assert states(engine) == {}
    assert noted(engine) == []
