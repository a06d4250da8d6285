"""Several workers on one database: no message is sent twice, none is left, none overtakes."""

from collections import defaultdict
from threading import Lock

from sqlalchemy import Engine, func, insert, select

from bot.channels.channel import SendOutcome, SendResult
from bot.delivery.claims import Claimed, claim
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import complete
from bot.delivery.rules import OPEN, OutboxState
from deploy.standins.at_once import at_once
from scheduling.records.engine import open_engine, reading, writing
from tests.bot.delivery.counter import NOW, Counter, after

WORKERS = 3
MESSAGES = 1200
PHONES = 60


def fill(engine: Engine) -> None:
    """Plan the messages, to each phone in turn; the text is the message's number."""
    counter = Counter(engine)
    counter.plan("0", to="0")
    with writing(engine) as session:
        row = session.scalars(select(OutboxRow)).one()
        names = set(OutboxRow.__table__.c.keys()) - {"id"}
        columns = {name: getattr(row, name) for name in names}
        rows = [
            {**columns, "key": str(n), "text": str(n), "address": str(n % PHONES)}
            for n in range(1, MESSAGES)
        ]
        session.execute(insert(OutboxRow), rows)


class Worker:
    """Sends until nothing waits any more, and writes down what it sent."""

    def __init__(self, url: str, sent: list[tuple[str, int]], one_writes: Lock) -> None:
        self._engine = open_engine(url)
        self._sent = sent
        self._one_writes = one_writes

    def work(self) -> int:
        count = 0
        while self._waiting():
            claimed = self._claim()
            for message in claimed:
                with self._one_writes:
                    self._sent.append((message.outgoing.address, int(message.outgoing.text)))
            self._mark(claimed)
            count += len(claimed)
        self._engine.dispose()
        return count

    def _claim(self) -> list[Claimed]:
        with writing(self._engine) as session:
            return claim(session, ["phone"], NOW, most=20)

    def _mark(self, claimed: list[Claimed]) -> None:
        with writing(self._engine) as session:
            for message in claimed:
                complete(session, message, SendOutcome(SendResult.SENT), after(1))

    def _waiting(self) -> bool:
        with reading(self._engine) as session:
            waiting = select(OutboxRow.id).where(OutboxRow.state.in_(OPEN)).limit(1)
            return session.scalar(waiting) is not None


def test_three_workers_send_each_of_1200_messages_once_and_in_order(
    engine: Engine, database: str
) -> None:
    fill(engine)
    sent: list[tuple[str, int]] = []
    lock = Lock()

    counts = at_once(*(Worker(database, sent, lock).work for _ in range(WORKERS)))

    assert sorted(number for _, number in sent) == list(range(MESSAGES))
    assert sum(counts) == MESSAGES
    to_phone = defaultdict(list)
    for phone, number in sent:
        to_phone[phone].append(number)
    assert all(numbers == sorted(numbers) for numbers in to_phone.values())
    with reading(engine) as session:
        states = select(OutboxRow.state, func.count()).group_by(OutboxRow.state)
        assert list(session.execute(states)) == [(OutboxState.SENT, MESSAGES)]


def test_a_purpose_that_three_workers_plan_at_once_is_queued_once(engine: Engine) -> None:
    counter = Counter(engine)
    for morning in range(20):
        planned = at_once(*[lambda m=morning: counter.plan(f"morning:{m}")] * WORKERS)
        assert sorted(planned) == [False, False, True]


def test_a_late_word_on_a_claim_that_ran_out_does_not_undo_the_next_claim(
    engine: Engine,
) -> None:
    counter = Counter(engine)
    counter.plan("morning")
    (first,) = counter.claim(at=0)
    (second,) = counter.claim(at=31)

    at_once(
        lambda: counter.mark(first, SendResult.LATER, at=32, wait=1),
        lambda: counter.mark(second, SendResult.SENT, at=32),
    )

    assert counter.state("morning") == OutboxState.SENT
