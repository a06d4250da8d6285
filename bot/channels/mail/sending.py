"""Handing an e-mail to the mail server, and what its answers mean.

Answers: RFC 5321, 4.2 (4yz passes, 5yz does not) and 4.2.3 (550, 551, 553 of an address).
"""

import smtplib
import ssl
from email.message import EmailMessage

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.mail.mail_account import MailAccount, Security
from bot.channels.outcome import failed
from bot.channels.send_error import SendError

_NO_MAILBOX = frozenset({550, 551, 553})


def hand_over(mail: EmailMessage, account: MailAccount, own: str, seconds: float) -> SendOutcome:
    """Hand one e-mail to the server; waits ``seconds`` for each of its answers."""
    try:
        server = _connect(account, seconds)
    except smtplib.SMTPAuthenticationError as error:
        return failed(SendError.TOKEN_REFUSED, f"{error.smtp_code}")
    except smtplib.SMTPResponseException as error:
        return failed(SendError.CARRIER_FAILED, f"{error.smtp_code}")
    except (OSError, smtplib.SMTPException) as error:
        return failed(SendError.NO_CONNECTION, type(error).__name__)
    try:
        server.send_message(mail)
    except smtplib.SMTPRecipientsRefused as error:
        (code, said) = next(iter(error.recipients.values()))
        return failed(_of_recipient(code), _words(code, said))
    except smtplib.SMTPResponseException as error:
        return failed(_of_message(error.smtp_code), _words(error.smtp_code, error.smtp_error))
    except (OSError, smtplib.SMTPException) as error:
        return failed(SendError.NO_ANSWER, type(error).__name__)
    finally:
        server.close()
    return SendOutcome(SendResult.SENT, carrier_id=own)


def _connect(account: MailAccount, seconds: float) -> smtplib.SMTP:
    if account.security is Security.TLS:
        context = ssl.create_default_context()
        server: smtplib.SMTP = smtplib.SMTP_SSL(
            account.host, account.port, timeout=seconds, context=context
        )
    else:
        server = smtplib.SMTP(account.host, account.port, timeout=seconds)
    try:
        if account.security is Security.STARTTLS:
            server.starttls(context=ssl.create_default_context())
        if account.login:
            server.login(account.login, account.password)
    except BaseException:
        server.close()
        raise
    return server


def _of_recipient(code: int) -> SendError:
    if code in _NO_MAILBOX:
        return SendError.NO_MAILBOX
    return SendError.CARRIER_FAILED if code < 500 else SendError.REFUSED


def _of_message(code: int) -> SendError:
    return SendError.CARRIER_FAILED if code < 500 else SendError.REFUSED


def _words(code: int, said: bytes | str) -> str:
    words = said.decode("utf-8", errors="replace") if isinstance(said, bytes) else said
    return f"{code} {words}"
