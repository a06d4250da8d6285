"""A delivery that cannot be read is answered well, or the centre would bring it for ever."""

import asyncio
from datetime import UTC, datetime
from pathlib import Path

import pytest
from smpplib import consts

from bot.channels.smpp import channel as module
from bot.channels.smpp.channel import SmppChannel
from bot.channels.smpp.link import SmppAccount
from bot.channels.sms.concat_store import DatabaseParts
from deploy.standins.databases import copied_file
from scheduling.records.engine import open_engine
from tests.bot.channels.taking_in import TakenIn

AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)
ACCOUNT = SmppAccount("127.0.0.1", 9, "yardbell", "invented", "12025550100", tls=False, region="US")


@pytest.mark.parametrize("error", [OverflowError, UnicodeError, AttributeError])
def test_it_is_left_out_for_good(
    made_once: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: type[Exception]
) -> None:
    def cannot(*_: object) -> None:
        raise error

    monkeypatch.setattr(module, "read_delivery", cannot)
    taken, parts = TakenIn(AT), DatabaseParts(open_engine(copied_file(made_once, tmp_path)))
    channel = SmppChannel(ACCOUNT, parts, taken.report, lambda: AT)

    assert asyncio.run(channel._take(1, object())) == consts.SMPP_ESME_ROK
    assert (taken.messages, taken.reports) == ([], [])
