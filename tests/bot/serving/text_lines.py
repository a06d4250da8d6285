"""Each carrier of texts from a phone's side: what somebody writes, and what their phone shows."""

import asyncio
import threading
import time
from collections import defaultdict
from collections.abc import Callable, Coroutine, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Protocol
from urllib.parse import urlencode, urlsplit

import httpx

from bot.channels.sms.header import PartNumber, read_header, write_header
from bot.channels.sms.segments import HeaderSize, decode, encode, split
from bot.wording.cautions import cautions
from deploy.standins.free_port import free_port
from deploy.standins.message_api_standin import (
    ACCOUNT,
    TOKEN,
    MessageApi,
    running_message_api,
)
from deploy.standins.message_centre import (
    SENDER,
    MessageCentre,
    Submitted,
    running_centre,
)
from deploy.standins.phone_standin import (
    KEY,
    LOGIN,
    PASSWORD,
    Phone,
    event,
    running_phone,
    signed,
    text_in,
)
from deploy.standins.smsd import Modem, running_daemon
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from tests.bot.channels.twilio.noticing import headers, notice


class TextLine(Protocol):
    """A carrier between the program and everybody's phones."""

    @property
    def environment(self) -> dict[str, str]:
        """The settings that switch it on."""

    def write(self, number: str, text: str) -> None:
        """Let a phone send a text; one too long for a segment comes in parts, the last first.

        A carrier that joins the parts itself hands us the whole.
        """

    def all_shown(self, number: str) -> list[str]:
        """Give what a phone shows, in order."""

    def lose_last(self, number: str) -> None:
        """Report that the last text to a number did not arrive."""


def shown(line: TextLine, number: str) -> list[str]:
    """What a phone shows, the yearly caution left out."""
    return [text for text in line.all_shown(number) if text != cautions()]


def until(true: Callable[[], bool], seconds: float = WAIT_AT_MOST_SECONDS) -> None:
    """Wait until something holds.

    Raises:
        TimeoutError: it did not hold in time.
    """
    end = time.monotonic() + seconds
    while not true():
        if time.monotonic() > end:
            raise TimeoutError
        time.sleep(0.05)


def wait_for_texts(line: TextLine, number: str, count: int) -> list[str]:
    """Wait until a phone shows so many texts."""
    until(lambda: len(shown(line, number)) >= count)
    return shown(line, number)


def tell(line: TextLine, number: str, text: str) -> str:
    """Let a phone send a text, and give what comes back."""
    before = len(shown(line, number))
    line.write(number, text)
    return wait_for_texts(line, number, before + 1)[before]


def _posted(port: int, path: str, body: bytes, signed_headers: dict[str, str]) -> None:
    """Post as a carrier does, again while nobody takes it."""

    def taken() -> bool:
        try:
            address = f"http://127.0.0.1:{port}{path}"
            return httpx.post(address, content=body, headers=signed_headers).status_code < 300
        except httpx.HTTPError:
            return False

    until(taken)


class HostedLine:
    """A hosted carrier that posts to us; it joins parts itself."""

    def __init__(self, api: MessageApi) -> None:
        self._api = api
        self._port = free_port()
        self._said = 0

    @property
    def environment(self) -> dict[str, str]:
        return {
            "YARDBELL_HTTP": f"127.0.0.1:{self._port}",
            "YARDBELL_PUBLIC_URL": "https://yards.example/bot",
            "YARDBELL_TWILIO_ACCOUNT": ACCOUNT,
            "YARDBELL_TWILIO_TOKEN": TOKEN,
            "YARDBELL_TWILIO_FROM": SENDER,
            "YARDBELL_TWILIO_URL": self._api.url,
            "YARDBELL_SMS_REGION": "US",
        }

    def write(self, number: str, text: str) -> None:
        self._said += 1
        own = f"SM{self._said:032x}"
        self._post("/twilio/message", notice(MessageSid=own, From=number, Body=text))

    def all_shown(self, number: str) -> list[str]:
        return [one["Body"] for one in self._api.posted if one["To"] == number]

    def lose_last(self, number: str) -> None:
        place = max(i for i, one in enumerate(self._api.posted) if one["To"] == number)
        called = urlsplit(self._api.posted[place]["StatusCallback"])
        failed = {"MessageStatus": "failed", "ErrorCode": "30005"}
        path = f"{called.path.removeprefix('/bot')}?{called.query}"
        self._post(path, notice(MessageSid=MessageApi.sid(place + 1), **failed))

    def _post(self, path: str, fields: dict[str, str]) -> None:
        # Over a proxy that leaves "/bot" out.
        said = headers(path, fields) | {"Host": "yards.example"}
        _posted(self._port, path, urlencode(fields).encode(), said)


class PhoneLine:
    """A keeper's own phone as a gateway; Android joins parts itself."""

    def __init__(self, phone: Phone) -> None:
        self._phone = phone
        self._port = free_port()

    @property
    def environment(self) -> dict[str, str]:
        return {
            "YARDBELL_HTTP": f"127.0.0.1:{self._port}",
            "YARDBELL_PUBLIC_URL": f"http://127.0.0.1:{self._port}",
            "YARDBELL_PHONE_URL": self._phone.url,
            "YARDBELL_PHONE_LOGIN": LOGIN,
            "YARDBELL_PHONE_PASSWORD": PASSWORD,
            "YARDBELL_PHONE_SIGNING_KEY": KEY,
            "YARDBELL_SMS_REGION": "US",
        }

    def write(self, number: str, text: str) -> None:
        self._post(text_in(text, number, receivedAt=datetime.now(UTC).isoformat()))

    def all_shown(self, number: str) -> list[str]:
        return [text for to, text in self._phone.sent if to == number]

    def lose_last(self, number: str) -> None:
        place = max(i for i, (to, _) in enumerate(self._phone.sent) if to == number)
        own = list(self._phone.states)[place]
        gone = {"phoneNumber": number, "reason": "Invalid number"}
        self._post(event("sms:failed", messageId=own, **gone))

    def _post(self, body: bytes) -> None:
        _posted(self._port, "/phone/event", body, signed(body, datetime.now(UTC)))


class ModemLine:
    """A modem with Gammu's own daemon, which hands each part in as a file."""

    def __init__(self, modem: Modem) -> None:
        self._modem = modem

    @property
    def environment(self) -> dict[str, str]:
        return {"YARDBELL_MODEM_FOLDER": str(self._modem.base), "YARDBELL_SMS_REGION": "US"}

    def write(self, number: str, text: str) -> None:
        parts = len(split(text))
        self._modem.receive(text, number, list(reversed(range(parts))))

    def all_shown(self, number: str) -> list[str]:
        return [file.read_bytes().decode("utf-16") for file in self._sent(number)]

    def lose_last(self, number: str) -> None:
        # The dummy phone sends all it is given, so that only we can say that it could not.
        last = self._sent(number)[-1]
        last.rename(self._modem.folders.errors / last.name)

    def _sent(self, number: str) -> list[Path]:
        """Give the files of what was sent; one still in the outbox is being copied."""
        folders = self._modem.folders
        copied = [
            file
            for file in folders.sent.glob(f"OUT*_{number}_*.txt")
            if not (folders.outbox / file.name).exists()
        ]
        return sorted(copied, key=lambda file: file.stat().st_mtime_ns)


@dataclass
class SmppLine:
    """A line to a message centre; it hands each part in by itself."""

    centre: MessageCentre
    loop: asyncio.AbstractEventLoop
    _references: int = 0

    @property
    def environment(self) -> dict[str, str]:
        return {
            "YARDBELL_SMPP_HOST": "127.0.0.1",
            "YARDBELL_SMPP_PORT": str(self.centre.port),
            "YARDBELL_SMPP_LOGIN": "yardbell",
            "YARDBELL_SMPP_PASSWORD": "k3x9-pw!",
            "YARDBELL_SMPP_FROM": SENDER,
            "YARDBELL_SMPP_TLS": "false",
            "YARDBELL_SMS_REGION": "US",
        }

    def write(self, number: str, text: str) -> None:
        parts = split(text)
        if len(parts) == 1:
            self._deliver(encode(text), number, 0)
            return
        self._references += 1
        for place in reversed(range(len(parts))):
            part = PartNumber(self._references, len(parts), place + 1, HeaderSize.NARROW)
            self._deliver(write_header(part) + encode(parts[place]), number, 0x40)

    def all_shown(self, number: str) -> list[str]:
        texts, begun = list[str](), defaultdict[int, str](str)
        for one in self._submitted(number):
            part, words = read_header(one.words) if one.esm_class == 0x40 else (None, one.words)
            text = words.decode("utf-16-be") if one.coding == 8 else decode(words)
            if part is None:
                texts.append(text)
                continue
            begun[part.reference] += text
            if part.number == part.total:
                texts.append(begun.pop(part.reference))
        return texts

    def lose_last(self, number: str) -> None:
        last = self._submitted(number)[-1]
        place = next(i for i, one in enumerate(self.centre.submitted) if one is last)
        assert self._run(self.centre.receipt(f"m{place + 1}", "UNDELIV")) == 0

    def _submitted(self, number: str) -> list[Submitted]:
        return [one for one in list(self.centre.submitted) if f"+{one.to}" == number]

    def _deliver(self, words: bytes, number: str, esm_class: int) -> None:
        sender = number.removeprefix("+")
        assert self._run(self.centre.deliver(words, sender, esm_class=esm_class)) == 0

    def _run(self, work: Coroutine[Any, Any, int]) -> int:
        return asyncio.run_coroutine_threadsafe(work, self.loop).result(WAIT_AT_MOST_SECONDS)


@contextmanager
def _running_smpp() -> Iterator[SmppLine]:
    loop, ready, done = asyncio.new_event_loop(), threading.Event(), asyncio.Event()
    centres: list[MessageCentre] = []

    async def run() -> None:
        async with running_centre() as centre:
            centres.append(centre)
            ready.set()
            await done.wait()

    thread = threading.Thread(target=loop.run_until_complete, args=(run(),), daemon=True)
    thread.start()
    assert ready.wait(WAIT_AT_MOST_SECONDS)
    try:
        yield SmppLine(centres[0], loop)
    finally:
        loop.call_soon_threadsafe(done.set)
        thread.join(WAIT_AT_MOST_SECONDS)
        loop.close()


CARRIERS = ("hosted", "phone", "modem", "smpp")


@contextmanager
def running_line(carrier: str, folder: Path) -> Iterator[TextLine]:
    """Run one of the carriers, in a folder of its own where it needs one."""
    if carrier == "hosted":
        with running_message_api() as api:
            yield HostedLine(api)
    elif carrier == "phone":
        with running_phone() as phone:
            yield PhoneLine(phone)
    elif carrier == "modem":
        with running_daemon(folder / "modem") as modem:
            yield ModemLine(modem)
    else:
        with _running_smpp() as line:
            yield line
