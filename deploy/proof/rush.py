"""Two worker processes over thousands of planned messages: none missing, none twice."""

import asyncio
import os
from collections import Counter, defaultdict
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import func, insert, select

from bot.channels.channel import OutgoingMessage, Receive, SendOutcome, SendResult
from bot.channels.traits import ChannelTraits
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, plan
from bot.delivery.rules import OutboxState, Purpose
from bot.delivery.sender import deliver_all
from deploy.proof.workers import forking
from scheduling.records.engine import open_engine, reading, writing

NOW = datetime(2027, 5, 12, 10, tzinfo=UTC)
PHONES = 500
WORKERS = 2


class Notebook:
    """A channel that writes each letter down as a line, whole however many write."""

    name = "phone"
    traits = ChannelTraits("phone")

    def __init__(self, file: Path) -> None:
        self._file = os.open(file, os.O_WRONLY | os.O_APPEND | os.O_CREAT)
        self.lines = 0

    async def listen(self, receive: Receive) -> None:
        """Nothing comes in."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Write one line."""
        self.lines += 1
        os.write(self._file, f"{outgoing.address} {outgoing.text}\n".encode())
        return SendOutcome(SendResult.SENT)

    async def close(self) -> None:
        """Close the file."""
        os.close(self._file)


@dataclass(frozen=True)
class Rushed:
    """How many messages each worker sent, and what is wrong."""

    by_worker: tuple[int, ...]
    wrong: tuple[str, ...]

    def __str__(self) -> str:
        """What was found, in a line."""
        shares = " + ".join(f"{share:,}" for share in self.by_worker)
        return f"{shares} sent, wrong: {', '.join(self.wrong) or 'nothing'}"


def rushed(url: str, folder: Path, messages: int) -> Rushed:
    """Plan so many messages, to each phone in turn, and let two processes send them."""
    planned = [(str(n % PHONES), str(n)) for n in range(messages)]
    plan_many(url, "phone", planned, Purpose.ANSWER, NOW)
    together = folder / "sent"
    with ProcessPoolExecutor(WORKERS, forking()) as pool:
        shares = tuple(pool.map(_work, [url] * WORKERS, [together] * WORKERS))
    sent = [line.split() for line in together.read_text().splitlines()]
    return Rushed(shares, tuple(_wrong(url, sent, messages)))


def plan_many(
    url: str, channel: str, messages: Sequence[tuple[str, str]], purpose: Purpose, now: datetime
) -> None:
    """Plan messages on a channel, each an address and a text, in a database with its tables."""
    engine, (address, said) = open_engine(url), messages[0]
    with writing(engine) as session:
        to, outgoing = Recipient(channel, address), OutgoingMessage(address, said)
        plan(session, f"{purpose}:0", purpose, to, outgoing, now)
        row = session.scalars(select(OutboxRow)).one()
        same = {name: getattr(row, name) for name in set(OutboxRow.__table__.c.keys()) - {"id"}}
        rows = [
            {**same, "key": f"{purpose}:{n}", "address": address, "text": said}
            for n, (address, said) in enumerate(messages)
        ]
        if others := rows[1:]:
            session.execute(insert(OutboxRow), others)
    engine.dispose()


def _work(url: str, file: Path) -> int:
    engine, notebook = open_engine(url), Notebook(file)
    asyncio.run(deliver_all(engine, {notebook.name: notebook}, lambda: NOW))
    engine.dispose()
    return notebook.lines


def _wrong(url: str, sent: list[list[str]], messages: int) -> list[str]:
    wrong = []
    times = Counter(int(text) for _, text in sent)
    if missing := set(range(messages)) - times.keys():
        wrong.append(f"{len(missing)} missing")
    if twice := [number for number, count in times.items() if count > 1]:
        wrong.append(f"{len(twice)} twice")
    to_phone = defaultdict(list)
    for phone, text in sent:
        to_phone[phone].append(int(text))
    if overtaken := [phone for phone, numbers in to_phone.items() if numbers != sorted(numbers)]:
        wrong.append(f"out of order at {len(overtaken)} phones")
    return [*wrong, *_not_sent(url)]


def _not_sent(url: str) -> list[str]:
    engine = open_engine(url)
    with reading(engine) as session:
        states = select(OutboxRow.state, func.count()).group_by(OutboxRow.state)
        found = [
            f"{n} {state}" for state, n in session.execute(states) if state != OutboxState.SENT
        ]
    engine.dispose()
    return found
