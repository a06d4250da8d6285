"""E-mail: the free last fallback, for mornings and the answers to them."""

from bot.channels.mail.account import MailAccount
from bot.channels.mail.channel import MailChannel
from bot.channels.mail.names import CHANNEL_NAME

__all__ = ["CHANNEL_NAME", "MailAccount", "MailChannel"]
