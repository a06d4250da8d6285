"""What cannot wait until the morning."""

from datetime import datetime
from zoneinfo import ZoneInfo

from bot.wording.days import day_words
from bot.wording.set_up import clock


def nothing_sent(channel: str, since: datetime, zone: str, now: datetime) -> str:
    """Tell an owner that a channel is silent; instants are aware, told in the owner's zone."""
    there, here = since.astimezone(ZoneInfo(zone)), now.astimezone(ZoneInfo(zone))
    day = "" if there.date() == here.date() else f" {day_words(there.date(), here.date())}"
    return (
        f"No message got through over {channel.capitalize()} since{day} {clock(there.time())}. "
        "Your crew may wait for one. Type due here for what is due."
    )
