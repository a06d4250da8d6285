"""The traits of every channel; no carrier's library is loaded for them."""

from datetime import time, timedelta

from bot.channels.console import CONSOLE
from bot.channels.traits import ChannelTraits, QuietHours, RateLimit, Reports

SMS = ChannelTraits(
    name="sms",
    shown_as="text",
    typed_as=("text", "texts", "sms"),
    # Our rule; the law of a place may ask for more.
    quiet=QuietHours(time(20), time(8)),
    most_segments=3,
    reports=Reports.DELIVERY,
    is_charged=True,
    keeps_ids=True,
    needs_consent=True,
)
"""Text messages of every carrier, so that people stay reached when the owner changes it."""

TELEGRAM_RATE_LIMIT = RateLimit(
    timedelta(seconds=1) / 29,
    timedelta(seconds=1.05),
    "Telegram, Bots FAQ, core.telegram.org/bots/faq, on limits of sending (from memory)",
)
"""About 30 messages a second over all chats and one a second in a private chat. Evenly spread
and a little slower than that, so that a server that counts any second exactly refuses none."""

TELEGRAM = ChannelTraits(
    name="telegram",
    shown_as="Telegram",
    typed_as=("telegram", "chat"),
    rate_limit=TELEGRAM_RATE_LIMIT,
)
MAIL = ChannelTraits(
    name="mail",
    shown_as="e-mail",
    typed_as=("mail", "email", "e-mail"),
    reports=Reports.BOUNCES,
)

KNOWN_CHANNELS = {each.name: each for each in (SMS, TELEGRAM, MAIL, CONSOLE)}
"""Every channel by its name, for rows whose channel may not be running."""


def traits_of(name: str) -> ChannelTraits:
    """Give the traits of a channel by its name; those of a chat for one that is not known."""
    return KNOWN_CHANNELS.get(name) or ChannelTraits(name)


def charged_channels() -> list[str]:
    """Name the channels whose segments cost."""
    return [each.name for each in KNOWN_CHANNELS.values() if each.is_charged]
