"""Mornings go out by e-mail, to a real mail server on loopback."""

import asyncio
import socket
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from bot.channels.channel import ChannelBroken, Document, OutgoingMessage, SendOutcome, SendResult
from bot.channels.mail.channel import MailChannel
from bot.channels.mail.mail_message import MailAccount, Security
from bot.channels.send_error import SendError
from deploy.standins.mail_server import (
    LOGIN,
    PASSWORD,
    MailServer,
    running_mail_server,
)

ADA = "ada@yards.example"
KEY = "an invented key of many letters"
AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)
MORNING = "Wed 12 May, River:\nSee if out 4 (should be out since yesterday)\nMore: due"


@pytest.fixture
def server() -> Iterator[MailServer]:
    with running_mail_server() as server:
        yield server


def account(port: int, login: str = "", password: str = "") -> MailAccount:
    return MailAccount(
        "127.0.0.1", port, "bees@club.example", KEY, login, password, Security.NONE
    )  # fmt: skip


def send(mail: MailAccount, *letters: OutgoingMessage, within: float = 5.0) -> list[SendOutcome]:
    async def run() -> list[SendOutcome]:
        channel = MailChannel(mail, clock=lambda: AT, answer_within=timedelta(seconds=within))
        return [await channel.send(outgoing) for outgoing in letters]

    return asyncio.run(run())


def test_a_morning_arrives_as_it_was_written(server: MailServer) -> None:
    (outcome,) = send(account(server.port), OutgoingMessage(ADA, MORNING, key="17"))
    (mail,) = server.mails
    assert outcome.result is SendResult.SENT
    assert server.recipients == [ADA]
    assert str(mail.get_content()).splitlines() == MORNING.splitlines()
    assert mail["Subject"] == "Wed 12 May, River:"
    assert mail["From"] == "Yardbell <bees@club.example>"
    assert mail["Date"].datetime == AT
    assert outcome.carrier_id is not None
    assert outcome.carrier_id in mail["Message-ID"]


def test_a_file_arrives_beside_the_words(server: MailServer) -> None:
    document = Document("yardbell-my-data.json", '{"name": "\N{HONEYBEE}"}')
    send(account(server.port), OutgoingMessage(ADA, "All of it.", document=document))
    words, file = server.mails[0].iter_parts()
    assert str(words.get_content()).strip() == "All of it."
    assert (file.get_filename(), file.get_content_type()) == (document.name, "application/json")
    assert file.get_content() == document.text.encode()


# RFC 3834, 5: the mark by which other programs know not to answer.
def test_it_says_that_a_program_sent_it(server: MailServer) -> None:
    send(account(server.port), OutgoingMessage(ADA, MORNING))
    assert server.mails[0]["Auto-Submitted"] == "auto-generated"


def test_every_try_of_a_letter_bears_one_id_and_no_other_letter_does(server: MailServer) -> None:
    letters = [OutgoingMessage(ADA, MORNING, key=key) for key in ("17", "17", "18")]
    send(account(server.port), *letters)
    first, again, other = (mail["Message-ID"] for mail in server.mails)
    assert first == again != other


def test_any_alphabet_arrives(server: MailServer) -> None:
    send(account(server.port), OutgoingMessage(ADA, "Большой двор \N{HONEYBEE} ½"))
    assert str(server.mails[0].get_content()).strip() == "Большой двор \N{HONEYBEE} ½"


def test_a_line_end_in_the_words_makes_no_header(server: MailServer) -> None:
    send(account(server.port), OutgoingMessage(ADA, "\r\nBcc: x@y.example\nhello"))
    (mail,) = server.mails
    assert mail["Bcc"] is None
    assert server.recipients == [ADA]


# Numbers: RFC 5321, 4.2.3.
@pytest.mark.parametrize(
    ("answer", "result", "send_error"),
    [
        ("550 5.1.1 no such mailbox", SendResult.UNREACHABLE, SendError.NO_MAILBOX),
        ("553 name not allowed", SendResult.UNREACHABLE, SendError.NO_MAILBOX),
        ("552 mailbox full", SendResult.REFUSED, SendError.REFUSED),
        ("450 busy", SendResult.LATER, SendError.CARRIER_FAILED),
    ],
)
def test_what_the_server_says_of_an_address(
    server: MailServer, answer: str, result: SendResult, send_error: SendError
) -> None:
    server.next_to_recipient = [answer]
    (outcome,) = send(account(server.port), OutgoingMessage(ADA, MORNING))
    assert (outcome.result, outcome.error) == (result, send_error)
    assert answer[:3] in outcome.said


@pytest.mark.parametrize(
    ("answer", "result", "send_error"),
    [
        ("554 looks like spam", SendResult.REFUSED, SendError.REFUSED),
        ("451 try again", SendResult.LATER, SendError.CARRIER_FAILED),
        ("cut", SendResult.UNKNOWN, SendError.NO_ANSWER),
    ],
)
def test_what_the_server_says_of_a_letter(
    server: MailServer, answer: str, result: SendResult, send_error: SendError
) -> None:
    server.next_to_mail = [answer]
    (outcome,) = send(account(server.port), OutgoingMessage(ADA, MORNING))
    assert (outcome.result, outcome.error) == (result, send_error)


def test_without_a_server_nothing_was_sent() -> None:
    with socket.socket() as closed:
        closed.bind(("127.0.0.1", 0))
        (outcome,) = send(account(closed.getsockname()[1]), OutgoingMessage(ADA, MORNING))
    assert (outcome.result, outcome.error) == (SendResult.LATER, SendError.NO_CONNECTION)


def test_a_server_without_encryption_is_given_no_letter(server: MailServer) -> None:
    mail = replace(account(server.port), security=Security.STARTTLS)
    (outcome,) = send(mail, OutgoingMessage(ADA, MORNING))
    assert (outcome.result, outcome.error) == (SendResult.LATER, SendError.NO_CONNECTION)
    assert server.mails == []


def test_the_login_is_used_and_a_wrong_one_waited_for() -> None:
    with running_mail_server(login=True) as server:
        (right,) = send(account(server.port, LOGIN, PASSWORD), OutgoingMessage(ADA, MORNING))
        (wrong,) = send(account(server.port, LOGIN, "wrong-secret"), OutgoingMessage(ADA, MORNING))
    assert right.result is SendResult.SENT
    assert (wrong.result, wrong.error) == (SendResult.LATER, SendError.TOKEN_REFUSED)
    assert "wrong-secret" not in str(wrong)


@pytest.mark.parametrize(
    "outgoing",
    [
        OutgoingMessage(ADA, "\n"),
        OutgoingMessage("ada", "x"),
        OutgoingMessage("ada@yards.example\nBcc: x@y.example", "x"),
        OutgoingMessage("a@b.c, d@e.f", "x"),
        OutgoingMessage('"a b"@c.example', "x"),
    ],
)
def test_what_can_never_be_sent_is_refused(server: MailServer, outgoing: OutgoingMessage) -> None:
    assert [one.result for one in send(account(server.port), outgoing)] == [SendResult.REFUSED]
    assert server.recipients == []


def test_settings_that_cannot_be_right_are_named_at_the_start() -> None:
    with pytest.raises(ChannelBroken, match="no address"):
        MailChannel(replace(account(25), sender="bees"))
    with pytest.raises(ChannelBroken, match="16 letters"):
        MailChannel(replace(account(25), key="short"))


def test_no_secret_stands_in_the_account_s_own_words() -> None:
    shown = repr(account(25, LOGIN, PASSWORD))
    assert PASSWORD not in shown
    assert KEY not in shown
