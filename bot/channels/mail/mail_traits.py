"""What is so of e-mail."""

from bot.channels.mail.mail_account import CHANNEL_NAME
from bot.channels.traits import ChannelTraits, Reports

MAIL = ChannelTraits(
    name=CHANNEL_NAME,
    shown_as="e-mail",
    typed_as=("mail", "email", "e-mail"),
    reports=Reports.BOUNCES,
)
