"""The traits of a channel of which only the name is stored, and which may not be running."""

from bot.channels.console import CONSOLE
from bot.channels.mail.mail_traits import MAIL
from bot.channels.sms.sms_traits import SMS
from bot.channels.telegram.telegram_traits import TELEGRAM
from bot.channels.traits import ChannelTraits

KNOWN_CHANNELS = {each.name: each for each in (SMS, TELEGRAM, MAIL, CONSOLE)}
"""Every channel by its name; no carrier's library is loaded for it."""


def traits_of(name: str) -> ChannelTraits:
    """Give the traits of a channel by its name; those of a chat for one that is not known."""
    return KNOWN_CHANNELS.get(name) or ChannelTraits(name)


def charged_channels() -> list[str]:
    """Name the channels whose segments cost."""
    return [each.name for each in KNOWN_CHANNELS.values() if each.is_charged]
