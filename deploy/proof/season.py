"""A season in which workers are killed while two people reply and mornings fall due."""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random
from signal import SIGTERM

from sqlalchemy import Engine, func, select

from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import InboxRow, OutboxRow
from bot.delivery.rules import LEASE, OPEN
from deploy.proof.people import ADA, MILO, NAMES, UNITS, YARD, Talker
from deploy.proof.rough_carrier import RoughCarrier
from deploy.proof.worker import SharedClock
from deploy.proof.workers import Workers
from deploy.standins.bot_api_standin import running_standin
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.records.addresses import address_rows
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import open_engine, reading, writing
from scheduling.values import CellAge

FIRST_DAY = date(2025, 5, 1)
DAWN = timedelta(hours=6, minutes=29, seconds=58)
"""After midnight: seconds before the two mornings, at 6:30."""

RATE = 1.0
"""Seconds on the workers' clock in each real one: a lease must outlast any send."""

_LONGEST_START = 4.0
"""Seconds that a start is taken to need at most: the first one loads what later ones share."""

_LOOKS = 6000
_PAUSE = 0.05
"""How often, and with which pause in seconds, is looked for what must happen.

Counted and not timed, because a busy machine may stand still for minutes.
"""


class SeasonError(AssertionError):
    """Something that must happen did not."""


@dataclass
class Season:
    """One season on one database.

    Attributes:
        workers: the processes.
        api: the carrier.
        engine: the database, looked at from outside.
        at_once: how many workers run.
        random: decides on everything that is by chance.
        days: the dates whose mornings fell due.
        kills: how many workers were killed.
    """

    workers: Workers
    api: RoughCarrier
    engine: Engine
    at_once: int
    random: Random
    people: list[Talker] = field(default_factory=list)
    days: list[date] = field(default_factory=list)
    kills: int = 0
    _start_takes: float = 1.0

    def run(self, kills: int, a_day: int) -> None:
        """Let days pass, with up to ``a_day`` kills in each, until there were ``kills``."""
        self.people = [Talker(self.api, chat, self.random) for chat in (ADA, MILO)]
        clock = SharedClock(self.workers.clock_file)
        while self.kills < kills:
            day = FIRST_DAY + timedelta(days=len(self.days))
            midnight = datetime.combine(day, datetime.min.time(), tzinfo=UTC)
            clock.set(midnight + DAWN, RATE)
            self.days.append(day)
            # Who is cut off at dawn is owed no morning.
            self.api.may_refuse = False
            self._begin()
            self._day(day, min(a_day, kills - self.kills - 2 * self.at_once))
            self._evening(day)
            self.kills += self.workers.kill_all()
        self._last_evening()

    def _begin(self) -> None:
        """Start the workers, and see how long a start takes on this machine today."""
        before, began = self.api.calls.count("getUpdates"), time.monotonic()
        for _ in range(self.at_once):
            self.workers.start()
        self.wait_for(lambda: self.api.calls.count("getUpdates") > before, "a worker to fetch")
        self._start_takes = min(time.monotonic() - began, _LONGEST_START)

    def _day(self, day: date, kills: int) -> None:
        for _ in range(max(kills, 0)):
            lives = self.random.uniform(0.05, 1.5 * self._start_takes + 0.5)
            until = time.monotonic() + lives / self.at_once
            while (left := until - time.monotonic()) > 0:
                self._something_said(day)
                time.sleep(min(left, self.random.uniform(0.2, 1.6)))
            killed = self.random.choice(list(self.workers.running))
            self.workers.kill(killed)
            self.workers.bury(killed)
            self.kills += 1
            self.workers.start()

    def _something_said(self, day: date) -> None:
        self.api.may_refuse = self.api.may_refuse or self._mornings_are_planned()
        who = self.random.choice(self.people)
        buttons = [(s.message_id, d) for s in list(self.api.sent) if s.chat == who.chat
                   for row in s.buttons for _, d in row]  # fmt: skip
        if buttons and self.random.random() < 0.2:
            message_id, data = self.random.choice(buttons[-6:])
            who.tap(message_id, data, day)
        else:
            who.write()

    def _evening(self, day: date) -> None:
        """Kill all, and let others bring to an end whatever of the day these had in hand.

        At its end both can be reached the next morning.
        """
        self.kills += self.workers.kill_all()
        # Nobody lives whom it could overtake, so the leases of the dead need not be waited for.
        clock = SharedClock(self.workers.clock_file)
        clock.set(clock() + LEASE, RATE)
        self._begin()
        self.wait_for(self._at_rest, f"the post of {day} to be through")
        for _ in range(20):
            cut_off = [who for who in self.people if self._unreachable(who.chat)]
            if not cut_off:
                return
            for who in cut_off:
                who.write("due")
            self.wait_for(self._at_rest, f"the post of {day} to be through")
        raise SeasonError("somebody stays cut off")

    def _last_evening(self) -> None:
        self.api.random = None
        for _ in range(self.at_once):
            self.workers.start()
        for who in self.people:
            who.write("due")
        self.wait_for(self._at_rest, "the last post to be through")
        codes = self.workers.stop_all()
        # One that is still starting ends by the signal itself.
        if 0 not in codes or not set(codes) <= {0, -SIGTERM}:
            raise SeasonError(f"workers that were told to stop ended with {codes}")

    def _at_rest(self) -> bool:
        if self.api.unconfirmed or not self._mornings_are_planned():
            return False
        with reading(self.engine) as session:
            out = select(OutboxRow.id).where(OutboxRow.state.in_(OPEN)).limit(1)
            came = select(InboxRow.id).where(InboxRow.state == InboxState.WAITING).limit(1)
            return session.scalar(out) is None and session.scalar(came) is None

    def _mornings_are_planned(self) -> bool:
        mornings = select(func.count()).where(OutboxRow.purpose == "morning")
        of_today = mornings.where(OutboxRow.about == self.days[-1])
        with reading(self.engine) as session:
            return session.scalar(of_today) == len(self.people)

    def _unreachable(self, chat: int) -> bool:
        with reading(self.engine) as session:
            (row,) = address_rows(session, "telegram", str(chat))
            return row.unreachable_since is not None

    def wait_for(self, true: Callable[[], bool], what: str) -> None:
        """Wait until something holds.

        Raises:
            SeasonError: it did not in good time.
        """
        for _ in range(_LOOKS):
            if true():
                return
            time.sleep(_PAUSE)
        raise SeasonError(f"waited for {what}: {self._left()}")

    def _left(self) -> str:
        """What of delivery is not through."""
        with reading(self.engine) as session:
            out = session.execute(
                select(
                    OutboxRow.key, OutboxRow.state, OutboxRow.next_try_at, OutboxRow.lease_until
                ).where(OutboxRow.state.in_(OPEN))
            ).all()
            came = select(InboxRow.message_id).where(InboxRow.state == InboxState.WAITING)
            waiting = list(session.scalars(came))
        now = SharedClock(self.workers.clock_file)()
        return (
            f"at {now} unconfirmed {self.api.unconfirmed}, in {waiting}, out {out}, "
            f"all mornings planned: {self._mornings_are_planned()}"
        )


@contextmanager
def a_season(database: str, folder: Path, workers: int, seed: int) -> Iterator[Season]:
    """Make a crew of two, a carrier on a bad day and workers that are not started yet."""
    engine, random = open_engine(database), Random(seed)  # noqa: S311 - no secret
    _with_crew(engine)
    with running_standin(again=RoughCarrier(random=Random(seed + 1))) as api:  # noqa: S311
        assert isinstance(api, RoughCarrier)
        season = Season(Workers(folder, database, api.url), api, engine, workers, random)
        try:
            yield season
        finally:
            season.workers.kill_all()
            engine.dispose()


def _with_crew(engine: Engine) -> None:
    """Ada and Milo share a yard in which cells were placed; both want a word every day."""
    founded = datetime.combine(FIRST_DAY - timedelta(days=14), datetime.min.time(), tzinfo=UTC)
    with writing(engine) as session:
        crew, ada = found_crew(session, "Ada's crew", "Ada", "UTC", founded)
        records = CrewRecords(session, crew.id)
        records.add_address(ada.id, "telegram", str(ADA))
        milo = records.newcomer(NAMES[MILO], zone="UTC", now=founded)
        records.add_address(milo.id, "telegram", str(MILO))
        records.add_yard(YARD, "UTC")
        records.add_units(YARD, UNITS)
        records.append(_cell(Place(YARD, unit), founded) for unit in UNITS)
        dawn = datetime.combine(FIRST_DAY, datetime.min.time(), tzinfo=UTC)
        for each in (ada, milo):
            records.update_person(
                each.id, cautioned_on=FIRST_DAY, daily_word=True, yard=YARD,
                next_morning_at=dawn + timedelta(hours=6, minutes=30),
            )  # fmt: skip


def _cell(place: Place, at: datetime) -> Entry:
    return Entry(
        uid=f"cell {place}",
        place=place,
        kind=EntryKind.CELL_PLACED,
        value=CellAge.parse("10"),
        on=at.date(),
        recorded_at=at,
        person="Ada",
        channel="telegram",
    )
