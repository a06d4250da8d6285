"""Answers come in over LMTP; only what answers a letter of ours counts, whoever it says it is
from."""

import asyncio
import random
import smtplib
from collections.abc import Callable
from datetime import UTC, datetime
from email.message import EmailMessage
from email.policy import SMTP

import pytest

from bot.channels.channel import ChannelBroken, OutgoingMessage
from bot.channels.mail.channel import MailChannel
from bot.channels.mail.mail_incoming import read_mail, words_of
from bot.channels.mail.mail_message import MailAccount, Security, compose_mail, own_name
from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from tests.bot.channels.taking_in import TakenIn

ADA, MILO = "ada@yards.example", "milo@yards.example"
KEY = "an invented key of many letters"
AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)
OURS = MailAccount(
    "127.0.0.1", 25, "bees@club.example", KEY, security=Security.NONE, listen=("127.0.0.1", 0)
)
LETTER = OutgoingMessage(ADA, "Wed 12 May, River:\nSee if out 4", key="17")
MORNING = compose_mail(LETTER, OURS, AT)


def answer(
    text: str = "4a eggs, 5b no eggs", sender: str = f"Ada <{ADA}>", **headers: str
) -> EmailMessage:
    """An answer as mail programs write it (RFC 5322, 3.6.4)."""
    mail = EmailMessage(policy=SMTP)
    given = {
        "From": sender,
        "To": "bees@club.example",
        "Subject": "Re: Wed 12 May, River:",
        "Message-ID": "<reply-1@yards.example>",
        "In-Reply-To": MORNING["Message-ID"],
        **{name.replace("_", "-"): value for name, value in headers.items()},
    }
    for name, value in given.items():
        if value:
            mail[name] = value
    mail.set_content(text)
    return mail


def handed_in(
    taken: TakenIn, *mails: bytes, to: str = "bees@club.example", sender: str = ADA
) -> list[int]:
    """Hand e-mails in over LMTP as a mail server does; gives its answers' numbers."""

    def over_lmtp(port: int) -> list[int]:
        codes = []
        for octets in mails:
            with smtplib.LMTP("127.0.0.1", port) as line:
                try:
                    line.sendmail(sender, [to], octets)
                    codes.append(250)
                except smtplib.SMTPRecipientsRefused as refused:
                    codes.append(next(iter(refused.recipients.values()))[0])
                except smtplib.SMTPResponseException as refused:
                    codes.append(refused.smtp_code)
        return codes

    async def run() -> list[int]:
        channel = MailChannel(OURS, taken.report, clock=lambda: taken.now)
        listening = asyncio.create_task(channel.listen(taken.receive))
        try:
            while channel.port is None:
                await asyncio.sleep(0.01)
            return await asyncio.to_thread(over_lmtp, channel.port)
        finally:
            listening.cancel()
            await asyncio.gather(listening, return_exceptions=True)

    return asyncio.run(run())


def test_an_answer_reaches_the_desk() -> None:
    taken = TakenIn(AT)
    assert handed_in(taken, bytes(answer())) == [250]
    (message,) = taken.messages
    assert (message.channel, message.address) == ("mail", ADA)
    assert (message.text, message.sent_at) == ("4a eggs, 5b no eggs", AT)


def test_the_same_answer_handed_in_again_is_the_same_message() -> None:
    taken = TakenIn(AT)
    other = answer("6a dud", Message_ID="<reply-2@yards.example>")
    handed_in(taken, bytes(answer()), bytes(answer()), bytes(other))
    first, again, another = (message.id for message in taken.messages)
    assert first == again != another


def test_an_answer_that_was_not_stored_stays_with_the_mail_server() -> None:
    assert handed_in(TakenIn(AT, full=True), bytes(answer())) == [451]


@pytest.mark.parametrize(
    ("to", "code"),
    [("BEES@Club.example", 250), ("bees+ada@club.example", 250), ("other@club.example", 550)],
)
def test_only_our_own_mailbox_is_here(to: str, code: int) -> None:
    assert handed_in(TakenIn(AT), bytes(answer()), to=to) == [code]


def test_an_e_mail_too_long_for_an_answer_is_refused() -> None:
    taken = TakenIn(AT)
    assert handed_in(taken, bytes(answer("x" * 300_000))) == [552]
    assert taken.messages == []


FORGERIES: dict[str, Callable[[], EmailMessage]] = {
    "no letter of ours": lambda: answer(In_Reply_To=""),
    "somebody else's letter": lambda: answer(sender=MILO),
    "a made-up letter": lambda: answer(In_Reply_To=f"<{'0' * 24}.{'0' * 32}@club.example>"),
    "a letter of another key": lambda: answer(
        In_Reply_To=compose_mail(LETTER, MailAccount("h", 1, OURS.sender, "x" * 16), AT)[
            "Message-ID"
        ]
    ),
    "no sender": lambda: answer(sender=""),
    "two senders": lambda: answer(sender=f"{MILO}, {ADA}"),
}


@pytest.mark.parametrize("forged", FORGERIES.values(), ids=FORGERIES.keys())
def test_a_sender_s_name_alone_is_not_believed(forged: Callable[[], EmailMessage]) -> None:
    assert read_mail(bytes(forged()), KEY, AT) is None


def test_a_stranger_may_join_with_a_code_and_do_no_more() -> None:
    joining = answer("join ABC234", sender=MILO, In_Reply_To="")
    message = read_mail(bytes(joining), KEY, AT)
    assert not isinstance(message, DeliveryReport)
    assert message is not None
    assert (message.address, message.text) == (MILO, "join ABC234")
    assert read_mail(bytes(answer("join ABC234\n4a eggs", MILO, In_Reply_To="")), KEY, AT) is None


def test_a_letter_further_up_the_thread_counts_too() -> None:
    deep = answer(In_Reply_To="", References=f"<a@b.example> {MORNING['Message-ID']} <c@d.example>")
    assert read_mail(bytes(deep), KEY, AT) is not None


# RFC 3834, 2: a program that answered a program might go on for ever.
@pytest.mark.parametrize(
    "headers", [{"Auto_Submitted": "auto-replied"}, {"Precedence": "bulk"}, {"Precedence": "list"}]
)
def test_a_holiday_notice_is_no_answer(headers: dict[str, str]) -> None:
    assert read_mail(bytes(answer("I am away", **headers)), KEY, AT) is None


@pytest.mark.parametrize(
    "around",
    [
        "{}\n\nOn Wed, 12 May 2027 at 06:30, Yardbell <bees@club.example> wrote:\n> 4 out\n",
        "{}\n> 4 out\n",
        "{}\n-- \nAda\n4 River Lane",
        "{}\n\nAm 12.05.2027 um 06:30 schrieb Yardbell:\n4 out",
        "{}\n-----Original Message-----\nFrom: Yardbell\n4 out",
        "{}\n\nSent from my telephone",
        "\n\n{}\n\n",
    ],
)
def test_only_the_writer_s_own_words_are_read(around: str) -> None:
    assert words_of(answer(around.format("4a eggs,\n5b no eggs"))) == "4a eggs,\n5b no eggs"


def test_an_answer_in_html_alone_is_read() -> None:
    mail = answer()
    mail.set_content(
        "<html><head><style>p {color: red}</style></head><body><p>4a &amp; 4b\neggs</p>"
        "<div>5b<br>dud</div><blockquote>4 out</blockquote></body></html>",
        subtype="html",
    )
    assert words_of(mail) == "4a & 4b eggs\n\n5b\ndud".replace("\n\n", "\n")


def test_plain_words_are_read_before_html_and_pictures() -> None:
    mail = answer()
    mail.add_alternative("<p>other words</p>", subtype="html")
    mail.add_attachment(b"\x89PNG", maintype="image", subtype="png", filename="eggs.png")
    assert words_of(mail) == "4a eggs, 5b no eggs"


def notice(status: str, recipient: str = ADA) -> bytes:
    """A delivery status notification, laid out as in RFC 3464, appendix E."""
    return (
        "From: MAILER-DAEMON@club.example\r\nTo: bees@club.example\r\n"
        "Subject: Undelivered\r\nMIME-Version: 1.0\r\n"
        'Content-Type: multipart/report; report-type=delivery-status; boundary="b"\r\n\r\n'
        "--b\r\nContent-Type: text/plain\r\n\r\nIt could not be delivered.\r\n"
        "--b\r\nContent-Type: message/delivery-status\r\n\r\n"
        f"Reporting-MTA: dns; club.example\r\n\r\nFinal-Recipient: rfc822; {recipient}\r\n"
        f"Action: failed\r\nStatus: {status}\r\n\r\n"
        "--b\r\nContent-Type: text/rfc822-headers\r\n\r\n"
        f"Message-ID: {MORNING['Message-ID']}\r\nTo: {recipient}\r\n\r\n--b--\r\n"
    ).encode()


@pytest.mark.parametrize(
    ("status", "send_error"),
    [
        ("5.1.1", SendError.NO_MAILBOX),
        ("5.2.2", SendError.CARRIER_FAILED),
        ("4.4.7", SendError.CARRIER_FAILED),
    ],
)
def test_a_notice_that_a_letter_failed_is_a_report(status: str, send_error: SendError) -> None:
    own = own_name(LETTER)
    assert read_mail(notice(status), KEY, AT) == DeliveryReport(
        "mail", own, Delivery.FAILED, AT, error=send_error
    )


def test_a_forged_notice_switches_nobody_off() -> None:
    assert read_mail(notice("5.1.1", MILO), KEY, AT) is None
    forged = notice("5.1.1").replace(MORNING["Message-ID"].encode(), b"<x@club.example>")
    assert read_mail(forged, KEY, AT) is None
    assert read_mail(notice("2.0.0"), KEY, AT) is None


def test_five_thousand_crooked_e_mails_neither_count_nor_break_anything() -> None:
    rng = random.Random(17)  # noqa: S311 - examples, no secrets
    sound = [bytes(answer(In_Reply_To="")), notice("5.1.1", MILO), bytes(answer(sender=MILO))]
    for _ in range(5_000):
        octets = bytearray(rng.choice(sound))
        for _ in range(rng.randint(0, 12)):
            at = rng.randrange(len(octets))
            octets[at : at + rng.randint(0, 8)] = rng.randbytes(rng.randint(0, 8))
        assert read_mail(bytes(octets), KEY, AT) is None


def test_a_taken_address_breaks_the_channel_in_one_line() -> None:
    async def run() -> None:
        taken = TakenIn(AT)
        first = MailChannel(OURS)
        listening = asyncio.create_task(first.listen(taken.receive))
        while first.port is None:
            await asyncio.sleep(0.01)
        second = MailAccount("h", 25, OURS.sender, KEY, listen=("127.0.0.1", first.port))
        try:
            await MailChannel(second).listen(taken.receive)
        finally:
            listening.cancel()
            await asyncio.gather(listening, return_exceptions=True)

    with pytest.raises(ChannelBroken, match=r"^e-mail cannot be taken in at 127\.0\.0\.1:\d+: "):
        asyncio.run(run())


def test_octets_of_no_alphabet_in_a_head_lose_nothing_of_the_words() -> None:
    taken = TakenIn(AT)
    odd = bytes(answer()).replace(b"<reply-1@yards.example>", b"<reply-\xff\xed@yards.example>")
    assert handed_in(taken, odd) == [250]
    assert taken.texts == ["4a eggs, 5b no eggs"]
