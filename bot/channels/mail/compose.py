"""A letter as an e-mail."""

import hashlib
from datetime import datetime
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime

from bot.channels.channel import OutgoingMessage
from bot.channels.mail.account import MailAccount
from bot.channels.mail.message_ids import make_message_id

LONGEST_SUBJECT = 60


def compose(letter: OutgoingMessage, account: MailAccount, now: datetime) -> EmailMessage:
    """Write an e-mail: the first line is its subject too, and every try bears the same id.

    It says that a program sent it, so that no other program answers (RFC 3834, 5).
    """
    mail = EmailMessage(policy=SMTP)
    mail["From"] = f"Yardbell <{account.sender}>"
    mail["To"] = letter.address
    mail["Subject"] = _subject(letter.text)
    mail["Date"] = format_datetime(now)
    own = own_name(letter)
    mail["Message-ID"] = make_message_id(own, letter.address, account.sender, account.key)
    mail["Auto-Submitted"] = "auto-generated"
    mail.set_content(letter.text)
    return mail


def own_name(letter: OutgoingMessage) -> str:
    """Name a letter: alike for every try of it, and for no other."""
    what = "\0".join([letter.once, letter.address, letter.text])
    return hashlib.sha256(what.encode()).hexdigest()[:24]


def _subject(text: str) -> str:
    lines = text.strip().splitlines()
    return " ".join(lines[0].split())[:LONGEST_SUBJECT] if lines else ""
