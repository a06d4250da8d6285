"""Mornings worked out for real: many crews due at one minute, while replies come in."""

import os
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import count
from multiprocessing import get_context
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

from sqlalchemy import Engine, func, select, update

from bot.channels.traits import TELEGRAM
from bot.delivery.message_tables import OutboxRow
from bot.delivery.rules import OPEN
from bot.gc_tuning import collect_rarely
from bot.jobs.ready_mornings import make_some_ready
from deploy.benchmark.copied_crews import fill_by_copying, river_findings
from deploy.benchmark.running_bot import our_settings
from deploy.benchmark.rush import A_SECOND, CountingCarrier
from deploy.proof.worker import CLOCK, SharedClock
from deploy.standins.bot_api_standin import BotApiStandin, Call, Moment, running_standin
from deploy.standins.databases import copies_of, make_tables
from deploy.standins.program_beside import start_beside
from scheduling.records.engine import open_engine, reading, writing
from scheduling.records.tables import PersonRow

UNITS = 60
DUE = datetime(2027, 6, 9, 6, 30, tzinfo=UTC)
AHEAD = timedelta(minutes=50)
"""How long before it is due the mornings are made ready."""
BY_SERVE = 200
"""Mornings that the serving workers make ready themselves, while replies come in; the others are
made ready before, by the same function without a rest, in a process for each core."""
SERVED_BY = {"SQLite": (1,), "PostgreSQL": (1, 2, 4)}
"""How many processes serve, by the database."""
CHAT = 10_000
WRITERS = 30
"""Crews from which replies come, by turns."""
APART_SECONDS = 0.5
SAME_CHAT_SECONDS = 3.0
"""Between two replies from one chat: an answer goes before a morning, and a chat has one message a
second, so that whoever wrote each second would have no morning."""
WARM_UP = 5
ANSWER_WITHIN_SECONDS = 60
START_WITHIN_SECONDS = 120
PATIENCE_SECONDS = 1800


@dataclass
class Seen:
    """What the carrier saw, by a steady clock in seconds.

    Attributes:
        handed_out: when an answer to a fetch last left.
        mornings: when each chat's morning arrived.
        answers: when the last answer to each chat arrived.
    """

    handed_out: float = 0.0
    mornings: dict[int, float] = field(default_factory=dict)
    answers: dict[int, float] = field(default_factory=dict)

    def note(self, call: Call, moment: Moment) -> None:
        """Note a call; the stand-in's own thread calls this."""
        now = time.perf_counter()
        if call.method == "getUpdates" and moment is not Moment.ARRIVED:
            self.handed_out = now
        elif call.method == "sendMessage" and moment is Moment.TAKEN:
            chat = int(call.form["chat_id"])
            kind = self.mornings if is_morning(str(call.form["text"])) else self.answers
            kind[chat] = now


@dataclass(frozen=True)
class Measured:
    """What one rush came to.

    Attributes:
        told: how many people had something due.
        last_seconds: from the due minute until the last morning left.
        before_ms: how long each reply took while mornings were made ready.
        during_ms: how long each reply took while mornings left.
        writes_ms: how long each transaction took that may write.
        writes_cpu_ms: the processor's time of its thread meanwhile.
        refused: messages that the carrier refused as too many.
    """

    told: int
    last_seconds: float
    before_ms: list[float]
    during_ms: list[float]
    writes_ms: list[float]
    writes_cpu_ms: list[float]
    refused: int


def is_morning(text: str) -> bool:
    """Tell a morning from an answer, by the date at its head."""
    return text.startswith(f"{DUE:%a} {DUE.day} {DUE:%b}")


def fill(url: str, crews: int) -> None:
    """Let so many crews' mornings be due at once, and make most of them ready."""
    make_tables(url)
    engine = open_engine(url)
    fill_by_copying(engine, crews, UNITS, DUE - AHEAD, CHAT)
    with writing(engine) as session:
        at = {"morning": DUE.time(), "next_morning_at": DUE}
        session.execute(update(PersonRow).values(**at, cautioned_on=DUE.date()))
        session.execute(update(PersonRow).values(quiet_from=DUE.time(), quiet_until=DUE.time()))
    engine.dispose()
    _make_most_ready(url, max(0, crews - BY_SERVE), os.cpu_count() or 1)


def rush_of_mornings(url: str, crews: int, workers: int) -> Measured:
    """Serve what ``fill`` left by so many processes, from the hour before mornings are due."""
    engine, writers = open_engine(url), min(WRITERS, crews)
    with TemporaryDirectory() as folder, running_standin(again=CountingCarrier()) as api:
        assert isinstance(api, CountingCarrier)  # noqa: S101 - as it was given
        seen = Seen()
        api.watch = seen.note
        clock = SharedClock(Path(folder) / "clock")
        clock.set(DUE - AHEAD, 1)
        texts = river_findings()
        turns = count()

        def reply() -> float:
            chat = CHAT + next(turns) % writers
            before = seen.answers.get(chat)
            began = time.perf_counter()
            api.push_text(chat, next(texts), "ida")
            while seen.answers.get(chat) == before:
                if time.perf_counter() > began + ANSWER_WITHIN_SECONDS:
                    raise TimeoutError("a reply was not answered")
                time.sleep(0.001)
            # The fetch that gave it out is the last: replies come one after the other.
            took = seen.answers[chat] - max(began, seen.handed_out)
            time.sleep(max(APART_SECONDS, SAME_CHAT_SECONDS / writers))
            return took * 1e3

        with _serving(url, api, Path(folder), workers):
            api.wait_until(lambda: seen.handed_out > 0, "the first poll", START_WITHIN_SECONDS)
            # What a process loads and compiles once is nobody's wait in the middle of a day.
            for _ in range(WARM_UP):
                reply()
            warm = time.time()
            before_ms = [reply() for _ in _while_not_ready(engine, crews)]
            clock.set(DUE - timedelta(seconds=1), 1)
            due = time.perf_counter() + 1
            during_ms = []
            while _waiting(engine) and time.perf_counter() < due + PATIENCE_SECONDS:
                during_ms.append(reply())
        writes = list(_writes_since(warm, Path(folder)))
    engine.dispose()
    last = max(seen.mornings.values()) - due
    took, spent = [wall for wall, _ in writes], [processor for _, processor in writes]
    told = len(seen.mornings)
    return Measured(told, last, before_ms, during_ms, took, spent, api.refused)


def _writes_since(at: float, folder: Path) -> Iterator[tuple[float, float]]:
    """Give the milliseconds of each worker's transactions, by the clock and of the processor."""
    for file in folder.glob("writes-*"):
        for line in file.read_text().splitlines():
            ended, wall, processor = map(float, line.split())
            if ended > at:
                yield wall * 1e3, processor * 1e3


def _make_most_ready(url: str, mornings: int, workers: int) -> None:
    """Make so many mornings ready, each process its share, and print what one took."""
    if not mornings:
        return
    with ProcessPoolExecutor(workers, get_context("spawn")) as pool:
        shares = [mornings // workers] * workers
        spent = sum(pool.map(_make_ready, [url] * workers, shares))
    print(f"made ready: {mornings}, {spent / mornings * 1e3:.1f} ms of the processor each")


def _make_ready(url: str, share: int) -> float:
    collect_rarely()
    engine, made = open_engine(url), 0
    began = time.process_time()
    while made < share and (some := make_some_ready(engine, DUE - AHEAD, [TELEGRAM.name])):
        made += some
    spent = time.process_time() - began
    engine.dispose()
    return spent


def _while_not_ready(engine: Engine, crews: int) -> Iterator[int]:
    """Go on until everybody's morning was made ready once."""
    ready = select(func.count()).select_from(PersonRow).where(PersonRow.ready_for.is_not(None))
    began = time.perf_counter()
    for number in count():
        with reading(engine) as session:
            if session.scalar(ready) == crews:
                return
        if time.perf_counter() > began + PATIENCE_SECONDS:
            raise TimeoutError("the mornings were not made ready")
        yield number


def _waiting(engine: Engine) -> bool:
    """Tell whether any morning is still to be queued or sent."""
    due = select(PersonRow.id).where(PersonRow.next_morning_at <= DUE, PersonRow.stopped.is_(False))
    planned = select(OutboxRow.id).where(OutboxRow.state.in_(OPEN))
    with reading(engine) as session:
        return any(session.scalar(each.limit(1)) is not None for each in (due, planned))


@contextmanager
def _serving(url: str, api: BotApiStandin, folder: Path, workers: int) -> Iterator[None]:
    """Serve by so many processes, each of which writes its transactions' times down at the end."""
    settings = {**our_settings(api, url), CLOCK: str(folder / "clock")}
    with ExitStack() as processes:
        for number in range(workers):
            times = str(folder / f"writes-{number}")
            process = start_beside(["-m", "deploy.benchmark.timed_worker", times], settings)
            processes.callback(process.wait, 120)
            processes.callback(process.terminate)
        yield


def mornings(*crews: int) -> None:
    """Measure and print."""
    print(f"Mornings of crews of {UNITS} units in 4 yards with weather, all due at one minute;")
    print(f"the carrier takes {A_SECOND} a second; replies come from {WRITERS} of the crews.")
    print("Milliseconds, and seconds from the due minute until the last morning left.\n")
    print(f"{'crews':>6} {'database':<11} {'workers':>7} {'told':>6}", end="")
    print(f" {'last s':>7} {'429':>4} {'reply half':>10} {'99 %':>6}", end="")
    print(f" {'ahead half':>10} {'99 %':>6} {'write 99 %':>10}", end="")
    print(f" {'most':>6} {'cpu':>6}")
    for number in crews:
        for kind, served_by in SERVED_BY.items():
            with copies_of(kind, partial(fill, crews=number)) as fresh:
                for workers in served_by:
                    with fresh() as url:
                        _print(kind, number, workers, rush_of_mornings(url, number, workers))


def _print(kind: str, crews: int, workers: int, found: Measured) -> None:
    row = f"{crews:>6} {kind:<11} {workers:>7} {found.told:>6} {found.last_seconds:>7.1f}"
    during = f"{_half(found.during_ms):>10.0f} {_nearly_all(found.during_ms):>6.0f}"
    ahead = f"{_half(found.before_ms):>10.0f} {_nearly_all(found.before_ms):>6.0f}"
    write = f"{_nearly_all(found.writes_ms):>10.1f} {max(found.writes_ms, default=0):>6.0f}"
    write += f" {max(found.writes_cpu_ms, default=0):>6.1f}"
    print(f"{row} {found.refused:>4} {during} {ahead} {write}", flush=True)


def _half(each: list[float]) -> float:
    return median(each) if each else 0.0


def _nearly_all(each: list[float]) -> float:
    """Give what 99 of 100 do not pass; of few, the most."""
    return quantiles(each, n=100)[98] if len(each) >= 100 else max(each, default=0.0)
