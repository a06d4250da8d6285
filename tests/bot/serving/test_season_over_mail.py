"""A partner by e-mail alone: joining, a morning that bounces, answers in pieces, stop, two crews.

The program runs as a process; letters go out to a real SMTP server (aiosmtpd) and come in over
the program's own LMTP, as a mail server hands them in.
"""

import re
import smtplib
from collections.abc import Iterator
from email.message import EmailMessage
from email.policy import SMTP

import pytest

from deploy.standins.bot_api_standin import BotApiStandin
from deploy.standins.free_port import free_port
from deploy.standins.mail_server import MailServer, running_mail_server
from tests.bot.serving.noon import where_it_is_noon
from tests.bot.serving.served import ADA, Service, ask, shown, with_crew
from tests.bot.serving.text_lines import until

BEA, MILO_S_CHAT = 12, 13
MILO, OURS = "milo@yards.example", "bees@club.example"


class Post:
    """Milo's mailbox, and the mail server that hands what he writes to the program."""

    def __init__(self, server: MailServer) -> None:
        self._server = server
        self._port = free_port()
        self._written = 0
        self.environment = {
            "YARDBELL_MAIL_HOST": "127.0.0.1",
            "YARDBELL_MAIL_PORT": str(server.port),
            "YARDBELL_MAIL_SECURITY": "none",
            "YARDBELL_MAIL_FROM": OURS,
            "YARDBELL_MAIL_KEY": "an invented key of many letters",
            "YARDBELL_MAIL_LISTEN": f"127.0.0.1:{self._port}",
        }

    @property
    def letters(self) -> list[EmailMessage]:
        """What came, the yearly caution left out."""
        mails = [mail for mail in list(self._server.mails) if mail["To"] == MILO]
        return [mail for mail in mails if not mail.get_content().startswith("Stings:")]

    def wait_for(self, count: int) -> str:
        """Give the words of a letter, as soon as so many came."""
        until(lambda: len(self.letters) >= count)
        return str(self.letters[count - 1].get_content()).strip()

    def tell(self, text: str) -> str:
        """Write an e-mail, an answer if there is anything to answer; gives what comes back."""
        before = len(self.letters)
        self.write(text)
        return self.wait_for(before + 1)

    def write(self, text: str) -> None:
        self._written += 1
        mail = EmailMessage(policy=SMTP)
        mail["From"], mail["To"] = f"Milo <{MILO}>", OURS
        mail["Message-ID"] = f"<milo-{self._written}@yards.example>"
        if self.letters:
            mail["In-Reply-To"] = self.letters[-1]["Message-ID"]
        mail.set_content(text)
        self._hand_in(bytes(mail), MILO)

    def bounce_last(self) -> None:
        """Hand in a delivery status notification, laid out as in RFC 3464, appendix E."""
        notice = (
            f"From: MAILER-DAEMON@club.example\r\nTo: {OURS}\r\n"
            "Subject: Undelivered\r\nMIME-Version: 1.0\r\n"
            'Content-Type: multipart/report; report-type=delivery-status; boundary="b"\r\n\r\n'
            "--b\r\nContent-Type: text/plain\r\n\r\nIt could not be delivered.\r\n"
            "--b\r\nContent-Type: message/delivery-status\r\n\r\n"
            f"Reporting-MTA: dns; club.example\r\n\r\nFinal-Recipient: rfc822; {MILO}\r\n"
            "Action: failed\r\nStatus: 5.2.2\r\n\r\n"
            "--b\r\nContent-Type: text/rfc822-headers\r\n\r\n"
            f"Message-ID: {self.letters[-1]['Message-ID']}\r\nTo: {MILO}\r\n\r\n--b--\r\n"
        )
        self._hand_in(notice.encode(), "")

    def _hand_in(self, octets: bytes, sender: str) -> None:
        def taken() -> bool:
            try:
                with smtplib.LMTP("127.0.0.1", self._port) as line:
                    return line.sendmail(sender, [OURS], octets) == {}
            except (OSError, smtplib.SMTPException):
                return False

        until(taken)


@pytest.fixture
def post(service: Service) -> Iterator[Post]:
    zone = where_it_is_noon()
    with_crew(service, zone=zone)
    with_crew(service, BEA, "Bea", ("Ridge",), zone)
    with running_mail_server() as server:
        post = Post(server)
        service.environment |= post.environment
        yield post


def code_in(text: str) -> str:
    found = re.search(r"(?:join |start=)([A-Z0-9]{6,})", text)
    assert found is not None, text
    return found[1]


def test_a_partner_by_e_mail_alone(service: Service, api: BotApiStandin, post: Post) -> None:
    with service.process():
        welcome = post.tell(f"join {code_in(ask(api, ADA, 'invite'))}")
        assert "you share the yards of Ada" in welcome
        code = code_in(post.tell("add chat"))
        assert "second way" in ask(api, MILO_S_CHAT, f"join {code}", "Milo")
    service.make_morning_due(MILO, "mail")
    with service.process():
        morning = post.wait_for(4)
        assert "River:" in morning.splitlines()[0]
        in_chat = len(shown(api, MILO_S_CHAT))
        post.bounce_last()
        day = morning.splitlines()[0]
        api.wait_until(lambda: any(day in text for text in shown(api, MILO_S_CHAT)[in_chat:]), "it")
        _answers_come_in_pieces(service, post)
        _stops_and_begins_again(service, post)
        _is_in_a_second_crew(service, api, post)
    assert sum(day in text for text in shown(api, MILO_S_CHAT)) == 1
    assert service.secrets_written() == []
    assert MILO not in service.log


def _answers_come_in_pieces(service: Service, post: Post) -> None:
    before = service.kinds(ADA, "2b")
    post.tell("no eggs")
    assert "Noted: 2a eggs." in post.tell("2a eggs, 2b")
    assert service.kinds(ADA, "2b") == before, "nothing is guessed of the unit in between"
    assert service.kinds(ADA, "2a")[-1] == "eggs"
    assert "2b no eggs" in post.tell("2b no eggs\n\n> Wed 12 May, River:\n> 2b eggs")


def _stops_and_begins_again(service: Service, post: Post) -> None:
    assert post.tell("stop").startswith("Stopped: no more messages")
    person = service.person(MILO_S_CHAT)
    assert person is not None
    assert person.stopped
    assert "2b fed" in post.tell("2b fed 1 quart"), "who asks is answered"
    post.tell("start")
    person = service.person(MILO_S_CHAT)
    assert person is not None
    assert not person.stopped


def _is_in_a_second_crew(service: Service, api: BotApiStandin, post: Post) -> None:
    assert "you share the yards of Bea" in post.tell(f"join {code_in(ask(api, BEA, 'invite'))}")
    assert post.tell("Ada: 1b sealed brood").startswith("Ada's crew: Noted: 1b sealed brood")
    assert service.kinds(BEA, "1b") == ["cell_placed"]
