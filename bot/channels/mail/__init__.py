"""E-mail: the free last fallback, for mornings and the answers to them."""

from bot.channels.mail.channel import MailChannel
from bot.channels.mail.mail_account import CHANNEL_NAME, MailAccount

__all__ = ["CHANNEL_NAME", "MailAccount", "MailChannel"]
