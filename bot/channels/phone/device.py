"""The phone: what the owner sets for it, and the rate limit that it puts on texts."""

from collections import deque
from dataclasses import dataclass, field
from datetime import datetime, timedelta


@dataclass(frozen=True)
class PhoneDevice:
    """An old phone that relays texts, with the SMSGate app in its local mode.

    Attributes:
        url: where the app answers, as http://192.168.1.10:8080.
        login: the name that the app shows.
        password: its password.
        signing_key: the key that the app signs its notices with.
        public_url: where the phone reaches our HTTP side, before the path. The app posts only to
            https, or to the phone's own loopback (http://127.0.0.1:PORT, led to us by a cable).
        region: the land (ISO 3166, "US") whose numbers the phone shows without a +.
    """

    url: str
    login: str
    password: str = field(repr=False)
    signing_key: str = field(repr=False)
    public_url: str
    region: str | None = None


@dataclass(frozen=True)
class Limit:
    """So many segments within so long; each part of a long text counts."""

    segments: int
    within: timedelta
    source: str


ANDROID = Limit(
    segments=30,
    within=timedelta(minutes=30),
    source="Android's default of 30 texts in 30 minutes: github.com/Xcreen/RestSMS, README; "
    "sms_outgoing_check_max_count and sms_outgoing_check_interval_ms change it",
)


@dataclass
class Allowance:
    """What of a limit is spent; it is forgotten at a restart, and the phone then says no itself."""

    limit: Limit
    _spent: deque[tuple[datetime, int]] = field(default_factory=deque, init=False)

    def free_at(self, segments: int, now: datetime) -> datetime:
        """Say when so many segments may go: now, or when enough of the earlier ones have aged."""
        while self._spent and now - self._spent[0][0] >= self.limit.within:
            self._spent.popleft()
        over = sum(count for _, count in self._spent) + segments - self.limit.segments
        at = now
        for sent_at, count in self._spent:
            if over <= 0:
                break
            at, over = sent_at + self.limit.within, over - count
        return at

    def spend(self, segments: int, now: datetime) -> None:
        """Note that so many segments were given to the phone."""
        self._spent.append((now, segments))
