"""What is so of a channel and not of others: the one record that the rest asks, of every channel.

No carrier's library is loaded for them.
"""

from dataclasses import dataclass
from datetime import time, timedelta
from enum import StrEnum


class Reports(StrEnum):
    """What a carrier tells of a message after it took it."""

    NOTHING = "nothing"
    BOUNCES = "bounces"
    """Only that one was not delivered."""
    DELIVERY = "delivery"
    """That one arrived, or that it did not."""


@dataclass(frozen=True)
class RateLimit:
    """The least time between the beginnings of two sends, in all and to the same address."""

    each: timedelta
    same_address: timedelta
    source: str


@dataclass(frozen=True)
class QuietHours:
    """A span of every day by the wall clock, over midnight if it begins later than it ends.

    Attributes:
        begin: the first quiet minute.
        end: the first minute that is not quiet; the same as ``begin`` for no quiet at all.
    """

    begin: time
    end: time

    def hold(self, at: time) -> bool:
        """Tell whether it is quiet at a time of day."""
        if self.begin <= self.end:
            return self.begin <= at < self.end
        return at >= self.begin or at < self.end


NO_QUIET = QuietHours(time(0), time(0))

USUAL_QUIET = QuietHours(time(21), time(6))
"""When no chat and no e-mail goes out unasked: our rule."""


@dataclass(frozen=True)
class ChannelTraits:
    """What is so of a channel; the defaults are those of a chat.

    Attributes:
        name: the channel's name in the database; one for every carrier of the same channel.
        carrier: which one runs, of a channel that has several; empty where there is one.
        shown_as: what people are told it is called; empty for its name.
        typed_as: what people call it when they type.
        rate_limit: how fast the carrier lets us send; None for no limit.
        quiet: when nothing goes out unasked, unless a person settled other hours.
        most_segments: the most that a morning may take, in segments of SMS.
        reports: what the carrier tells later. Where that is the delivery, a message that was
            sent has not arrived yet.
        is_charged: each segment costs, and counts against the SMS budget.
        keeps_ids: the ids of messages in are kept for ever. A carrier that posts messages to us
            and signs no time with them could have an old one sent anew; and no id comes twice.
        takes_files: a file may go with a message.
        needs_consent: whoever has not said yes gets one question and at most one answer a day,
            and whoever said stop hears nothing but its confirmation.
        edits: a message that was sent can be changed, so that a pressed button goes.
    """

    name: str
    carrier: str = ""
    shown_as: str = ""
    typed_as: tuple[str, ...] = ()
    rate_limit: RateLimit | None = None
    quiet: QuietHours = USUAL_QUIET
    most_segments: int = 5
    reports: Reports = Reports.NOTHING
    is_charged: bool = False
    keeps_ids: bool = False
    takes_files: bool = False
    needs_consent: bool = False
    edits: bool = False


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
    takes_files=True,
    edits=True,
)
MAIL = ChannelTraits(
    name="mail",
    shown_as="e-mail",
    typed_as=("mail", "email", "e-mail"),
    reports=Reports.BOUNCES,
    takes_files=True,
)

# Whoever sits at a terminal is awake.
CONSOLE = ChannelTraits("console", quiet=NO_QUIET)

KNOWN_CHANNELS = {each.name: each for each in (SMS, TELEGRAM, MAIL, CONSOLE)}
"""Every channel by its name, for rows whose channel may not be running."""


def traits_of(name: str) -> ChannelTraits:
    """Give the traits of a channel by its name; those of a chat for one that is not known."""
    return KNOWN_CHANNELS.get(name) or ChannelTraits(name)


def charged_channels() -> list[str]:
    """Name the channels whose segments cost."""
    return [each.name for each in KNOWN_CHANNELS.values() if each.is_charged]
