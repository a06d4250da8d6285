"""A mail server on loopback: aiosmtpd, a package of others, told what to answer next."""

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP, AuthResult, Envelope, LoginPassword, Session

from deploy.standins.free_port import free_port

LOGIN, PASSWORD = "yardbell", "invented-password"


@dataclass
class MailServer:
    """What was taken, and the answers to give to the next recipients and e-mails."""

    port: int
    mails: list[EmailMessage] = field(default_factory=list)
    recipients: list[str] = field(default_factory=list)
    next_to_recipient: list[str] = field(default_factory=list)
    next_to_mail: list[str] = field(default_factory=list)

    async def handle_RCPT(  # noqa: N802 - the library's name
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        """Answer one recipient: as told, or that it is known."""
        if self.next_to_recipient:
            return self.next_to_recipient.pop(0)
        envelope.rcpt_tos.append(address)
        return "250 ok"

    async def handle_DATA(  # noqa: N802 - the library's name
        self, server: SMTP, session: Session, envelope: Envelope
    ) -> str:
        """Take one e-mail, or answer it as told."""
        if self.next_to_mail:
            answer = self.next_to_mail.pop(0)
            if answer == "cut":
                assert server.transport is not None
                server.transport.close()
            return answer
        assert isinstance(envelope.content, bytes)
        mail = message_from_bytes(envelope.content, policy=default)
        assert isinstance(mail, EmailMessage)
        self.mails.append(mail)
        self.recipients += envelope.rcpt_tos
        return "250 taken"


def _known(
    server: SMTP, session: Session, envelope: Envelope, mechanism: str, said: object
) -> AuthResult:
    right = isinstance(said, LoginPassword) and (said.login, said.password) == (
        LOGIN.encode(),
        PASSWORD.encode(),
    )
    return AuthResult(success=right, handled=False)


class _OnThisMachine(Controller):
    """Passwords may be said on an open line that ends on this machine."""

    def factory(self) -> SMTP:
        with warnings.catch_warnings(action="ignore"):
            made = super().factory()  # type: ignore[no-untyped-call]
        assert isinstance(made, SMTP)
        return made


@contextmanager
def running_mail_server(*, login: bool = False) -> Iterator[MailServer]:
    """Run a server of SMTP on a free port, in a thread; with ``login`` it asks for one."""
    handler = MailServer(free_port())
    controller = _OnThisMachine(
        handler,
        hostname="127.0.0.1",
        port=handler.port,
        auth_required=login,
        auth_require_tls=False,
        authenticator=_known,
    )
    controller.start()
    try:
        yield handler
    finally:
        controller.stop(no_assert=True)
