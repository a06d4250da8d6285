"""What cannot wait until the morning."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from bot.wording.days import day_words, full_day
from bot.wording.set_up import clock


def nothing_sent(channel: str, since: datetime, zone: str, now: datetime) -> str:
    """Tell an owner that a channel is silent; instants are aware, told in the owner's zone."""
    there, here = since.astimezone(ZoneInfo(zone)), now.astimezone(ZoneInfo(zone))
    day = "" if there.date() == here.date() else f" {day_words(there.date(), here.date())}"
    return (
        f"No message got through over {channel.capitalize()} since{day} {clock(there.time())}. "
        "Your crew may wait for one. Type due here for what is due."
    )


def texts_nearly_used_up(used: int, most: int, until: date) -> str:
    """Warn an owner that so many segments of a month's ``most`` are used; ``until`` ends it."""
    return (
        f"{used:,} of this month's {most:,} text segments are used. At {most:,} only mornings "
        f"go by text until {full_day(until)}."
    )


def texts_used_up(used: int, most: int, until: date) -> str:
    """Tell an owner that a month's segments are used up; ``until`` ends the month."""
    over = f" ({used:,} sent)" if used > most else ""
    return (
        f"This month's {most:,} text segments are used up{over}. Until {full_day(until)} only "
        "mornings go by text. What people text is noted, but not answered by text."
    )


def no_answers_by_text(until: date) -> str:
    """Say in a morning that goes by text why replies to it are not answered."""
    return (
        f"This month's texts are used up: replies are noted, answers come again {full_day(until)}."
    )
