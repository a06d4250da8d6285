"""What cannot wait until the morning, and what did not get through to whom."""

from collections.abc import Sequence
from datetime import date, datetime
from zoneinfo import ZoneInfo

from bot.wording.days_and_numbers import clock, day_words, full_day, weekday
from bot.wording.plain_letters import to_gsm7


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


_FEW = 3


def unreached(name: str, channel: str, why: str, onward: str | None) -> str:
    """Tell the owner of a crew that somebody takes no more messages on a channel.

    Args:
        name: the person's name, or "you" for the owner.
        channel: the channel's name.
        why: the trouble's words.
        onward: the channel on which the person is reached instead; None for none.
    """
    instead = f"They go by {onward} now." if onward else "There is no other way to reach them."
    if name == "you":
        instead = f"They go by {onward} now." if onward else ""
    back = f"Writing to Yardbell on {channel} starts them again."
    return to_gsm7(f"My {channel} messages do not reach {name}: {why}. {instead} {back}")


def left_out(places: Sequence[str]) -> str:
    """Tell the owner of a crew which units could not be worked out; all others were."""
    shown = ", ".join(sorted(places)[:_FEW])
    more = len(places) - _FEW
    named = f"{shown} and {more} more" if more > 0 else shown
    return to_gsm7(
        f"I cannot work out {named}: a date or number there cannot be. No reminder comes for it; "
        "all others do. Who runs Yardbell can find it: yardbell check"
    )


def stopped_by_carrier(name: str) -> str:
    """Tell the owner of a crew that somebody told their carrier to stop our texts."""
    return to_gsm7(
        f"{name} told their carrier to stop my texts, so I send them nothing more. "
        "START from their phone takes it up again."
    )


def not_through(
    days: Sequence[date], in_doubt: Sequence[date], today: date, answers: int = 0
) -> str:
    """Name what did not get through; "" for nothing.

    Args:
        days: the local dates of mornings that did not.
        in_doubt: the local dates of mornings of which nobody knows.
        today: the person's local date.
        answers: how many answers did not.
    """
    told = []
    if days:
        told.append(f"{_messages(days, today)} did not get through.")
    if answers:
        which = "An answer" if answers == 1 else f"{answers} answers"
        told.append(f"{which} to you did not get through.")
    if in_doubt:
        told.append(f"{_messages(in_doubt, today)} may not have come through.")
    return to_gsm7(" ".join(told))


def _messages(days: Sequence[date], today: date) -> str:
    if len(days) > _FEW:
        return f"{len(days)} messages since {day_words(days[0], today)}"
    named = [_of(day, today) for day in days]
    if len(named) == 1:
        return f"{named[0]} message"
    return f"{', '.join(named[:-1])} and {named[-1]} messages"


def _of(day: date, today: date) -> str:
    """``Tue's``; the weekday even of yesterday, as the lost message itself would have said."""
    near = 0 < (today - day).days < 7
    return f"{weekday(day) if near else day_words(day, today)}'s"


def all_is_well() -> str:
    """What a dead man's switch is told by e-mail."""
    return "Yardbell is well. Silence would mean that it is not."
