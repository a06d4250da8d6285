"""What is so of text messages, whichever carrier takes them."""

from datetime import time

from bot.channels.sms.phone_number import CHANNEL_NAME
from bot.channels.traits import ChannelTraits, QuietHours, Reports

SMS = ChannelTraits(
    name=CHANNEL_NAME,
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
