"""One worker, one message, and a kill exactly before the send, before the mark, and after it."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import select

from bot.channels.channel import OutgoingMessage
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, plan
from bot.delivery.rules import OutboxState, Purpose
from deploy.proof.people import ADA
from deploy.proof.season import FIRST_DAY, Season, a_season
from deploy.proof.worker import SharedClock
from deploy.standins.bot_api_faults import Drop, dropped
from deploy.standins.bot_api_standin import Call, Moment
from scheduling.records.engine import reading, writing

NIGHT = datetime.combine(FIRST_DAY, datetime.min.time(), tzinfo=UTC) + timedelta(hours=3)
A_SECOND = timedelta(seconds=1)


class Aimed:
    """A season of one night in which the clock stands, and one message waits."""

    def __init__(self, season: Season) -> None:
        self.season = season
        self.api = season.api
        self.api.random = None
        self.clock = SharedClock(season.workers.clock_file)
        self.clock.set(NIGHT, 0)
        with writing(season.engine) as session:
            plan(session, "one", Purpose.ANSWER, Recipient("telegram", str(ADA)),
                 OutgoingMessage(str(ADA), "Noted."), NIGHT)  # fmt: skip

    def kill_at(self, moment: Moment) -> None:
        """Start a worker, and kill it at this moment of its first send."""
        remember = self.api.watch

        def watch(call: Call, now: Moment) -> None:
            remember(call, now)
            if call.method == "sendMessage" and now is moment:
                self.season.workers.kill(call.caller)

        self.api.watch = watch
        name = self.season.workers.start()
        self.season.wait_for(lambda: name in self.season.workers.killed, "the kill")
        self.season.workers.bury(name)
        self.api.watch = remember

    @property
    def row(self) -> OutboxRow:
        with reading(self.season.engine) as session:
            return session.scalars(select(OutboxRow)).one()

    def work_at(self, now: datetime) -> None:
        """Let a new worker look at the outbox several times at an instant, and stop it."""
        self.clock.set(now, 0)
        self.season.workers.start()
        before = self.api.calls.count("getUpdates")
        self.season.wait_for(
            lambda: self.api.calls.count("getUpdates") > before + 3, "a worker that has settled"
        )
        assert self.season.workers.stop_all() == [0]


@pytest.fixture
def aimed(database: str, tmp_path: Path) -> Iterator[Aimed]:
    with a_season(database, tmp_path, workers=1, seed=1) as season:
        yield Aimed(season)


def test_killed_before_the_send_it_is_sent_once_and_not_a_second_before_the_lease_ends(
    aimed: Aimed,
) -> None:
    aimed.api.next_send(dropped(Drop.BEFORE_EFFECT))
    aimed.kill_at(Moment.ARRIVED)
    lease_until = aimed.row.lease_until
    assert (aimed.row.state, len(aimed.api.taken)) == (OutboxState.CLAIMED, 0)
    assert lease_until is not None

    aimed.work_at(lease_until - A_SECOND)
    assert (aimed.row.state, len(aimed.api.taken)) == (OutboxState.CLAIMED, 0)

    aimed.work_at(lease_until)
    assert (aimed.row.state, len(aimed.api.taken)) == (OutboxState.SENT, 1)


def test_killed_between_send_and_mark_it_comes_twice_and_no_more(aimed: Aimed) -> None:
    aimed.kill_at(Moment.TAKEN)
    lease_until = aimed.row.lease_until
    assert (aimed.row.state, len(aimed.api.taken)) == (OutboxState.CLAIMED, 1)
    assert lease_until is not None

    aimed.work_at(lease_until)
    aimed.work_at(lease_until + timedelta(minutes=5))

    assert (aimed.row.state, len(aimed.api.taken)) == (OutboxState.SENT, 2)


def test_killed_after_the_mark_it_comes_once(aimed: Aimed) -> None:
    name = aimed.season.workers.start()
    aimed.season.wait_for(lambda: aimed.row.state == OutboxState.SENT, "the mark")
    aimed.season.workers.kill(name)
    aimed.season.workers.bury(name)

    aimed.work_at(NIGHT + timedelta(minutes=5))

    assert len(aimed.api.taken) == 1
