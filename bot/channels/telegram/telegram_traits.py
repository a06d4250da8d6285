"""What is so of Telegram."""

from datetime import timedelta

from bot.channels.traits import ChannelTraits, RateLimit

RATE_LIMIT = RateLimit(
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
    rate_limit=RATE_LIMIT,
)
