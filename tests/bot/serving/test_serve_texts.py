"""The program beside a carrier of texts: joining, mornings and replies, and what failed."""

import time
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlencode, urlsplit

import httpx
import pytest
from sqlalchemy import select

from bot.delivery.message_tables import DeliveryRow, InboxRow
from bot.wording.cautions import cautions
from deploy.standins.free_port import free_port
from deploy.standins.message_api_standin import (
    ACCOUNT,
    SENDER,
    TOKEN,
    MessageApi,
    running_message_api,
)
from deploy.standins.smsd import running_daemon
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from tests.bot.channels.twilio.noticing import headers, notice
from tests.bot.serving.programs import QUICK_MODEM
from tests.bot.serving.served import Service
from tests.bot.serving.text_lines import until

ADA = "+12025550123"


@pytest.fixture
def twilio() -> Iterator[MessageApi]:
    with running_message_api() as twilio:
        yield twilio


class Phone:
    """Somebody's phone: what it sends comes to us over the carrier, and what we send is seen."""

    def __init__(self, service: Service, twilio: MessageApi) -> None:
        self.port = free_port()
        self._twilio = twilio
        self._said = 0
        service.environment |= {
            "YARDBELL_HTTP": f"127.0.0.1:{self.port}",
            "YARDBELL_PUBLIC_URL": "https://yards.example/bot",
            "YARDBELL_TWILIO_ACCOUNT": ACCOUNT,
            "YARDBELL_TWILIO_TOKEN": TOKEN,
            "YARDBELL_TWILIO_FROM": SENDER,
            "YARDBELL_TWILIO_URL": twilio.url,
        }

    def post(self, path: str, fields: dict[str, str]) -> int:
        """Post as the carrier does, over a proxy that leaves "/bot" out."""
        address = f"http://127.0.0.1:{self.port}{path}"
        signed = headers(path, fields) | {"Host": "yards.example"}
        return httpx.post(address, content=urlencode(fields), headers=signed).status_code

    def text(self, words: str, own: int | None = None) -> int:
        self._said += 1
        sid = f"SM{own or self._said:032x}"
        return self.post("/twilio/message", notice(MessageSid=sid, Body=words))

    def ask(self, words: str) -> str:
        """Send a text, and give what comes back."""
        before = len(self.shown)
        assert self.text(words) == 200
        until(lambda: len(self.shown) > before)
        return self.shown[before]

    def begin(self) -> None:
        """Begin a crew, as soon as the program listens."""
        until(lambda: self._listened_to() and self.text("begin") == 200)
        until(lambda: len(self.shown) == 1)

    @property
    def shown(self) -> list[str]:
        """The texts that came, the yearly caution left out."""
        return [one["Body"] for one in self._twilio.posted if one["Body"] != cautions()]

    def _listened_to(self) -> bool:
        try:
            return httpx.get(f"http://127.0.0.1:{self.port}/health").status_code > 0
        except httpx.HTTPError:
            return False


def test_a_crew_is_begun_and_kept_by_text_alone(service: Service, twilio: MessageApi) -> None:
    phone = Phone(service, twilio)
    with service.process():
        phone.begin()
        phone.ask("new yard River")
        phone.ask("boxes 1-2 of 3")
        noted = phone.ask("cells in 1a-c, grafted 10 days ago")
        assert noted.startswith("Noted: ")
        assert "1" in phone.ask("due")
    assert {posted["To"] for posted in twilio.posted} == {ADA}
    with reading(service.engine) as session:
        person = find_person(session, "sms", ADA)
        assert person is not None
        assert len(list(CrewRecords(session, person.crew_id).entries())) == 3


def test_a_reply_told_twice_is_noted_once_and_a_forged_one_never(
    service: Service, twilio: MessageApi
) -> None:
    phone = Phone(service, twilio)
    with service.process():
        phone.begin()
        assert phone.text("due", own=901) == 200
        assert phone.text("due", own=901) == 200
        fields = notice(Body="forged")
        address = f"http://127.0.0.1:{phone.port}/twilio/message"
        assert httpx.post(address, data=fields).status_code == 403
        assert httpx.post(address, content=b"x" * 20_000).status_code == 413
        until(lambda: len(phone.shown) == 2)
        time.sleep(0.5)
    assert len(phone.shown) == 2
    with reading(service.engine) as session:
        assert sorted(session.scalars(select(InboxRow.text))) == ["begin", "due"]


def test_how_an_answer_fared_is_kept(service: Service, twilio: MessageApi) -> None:
    phone = Phone(service, twilio)
    with service.process():
        phone.begin()
        called = urlsplit(twilio.posted[0]["StatusCallback"])
        path = f"{called.path.removeprefix('/bot')}?{called.query}"
        for status in ("sent", "delivered", "sent", "failed"):
            fields = notice(MessageSid=MessageApi.sid(1), MessageStatus=status)
            assert phone.post(path, fields) == 204
    with reading(service.engine) as session:
        (row,) = session.scalars(select(DeliveryRow)).all()
        assert (row.channel, row.carrier_id, row.delivery) == (
            "sms",
            MessageApi.sid(1),
            "delivered",
        )
        assert row.key


def test_no_secret_is_in_the_log_the_database_or_a_backup(
    service: Service, twilio: MessageApi
) -> None:
    phone = Phone(service, twilio)
    with service.process():
        phone.begin()
        httpx.post(f"http://127.0.0.1:{phone.port}/twilio/message", data=notice())
    assert service.secrets_written() == []
    assert ADA not in service.log


def test_both_ways_over_a_modem_and_its_real_daemon(service: Service, tmp_path: Path) -> None:
    with running_daemon(tmp_path / "modem") as modem:
        service.environment["YARDBELL_MODEM_FOLDER"] = str(modem.base)
        service.program = QUICK_MODEM

        def sent() -> list[str]:
            """Give the texts that left; by day the yearly caution is among them, wherever."""
            files = sorted(modem.folders.sent.glob(f"OUT*_{ADA}_*.txt"))
            texts = [file.read_bytes().decode("utf-16") for file in files]
            return [text for text in texts if text != cautions()]

        with service.process():
            modem.receive("begin", ADA)
            until(lambda: len(sent()) == 1)
            modem.receive("new yard River", ADA)
            until(lambda: len(sent()) == 2)
            assert "River" in sent()[1]
