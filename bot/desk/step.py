"""What one step of a conversation works with."""

import uuid
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from functools import cached_property

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.desk.calendars import calendar_of, weather_about
from bot.desk.conversation_state import ConversationState
from bot.desk.texting import Texting
from bot.reading.result import Finding
from scheduling.checks.calendar import Calendar
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import UnitName
from scheduling.records.gateway import CrewRecords
from scheduling.records.people import Person
from scheduling.records.yards import KnownYards
from scheduling.values import Struck
from scheduling.wall_time import local_day
from scheduling.weather.yard_weather import YardWeather


@dataclass
class Step:
    """One message of one person of a crew, and the transaction it is worked through in.

    ``talk`` is what the conversation has come to; it is written back when the step ends.
    """

    session: Session
    records: CrewRecords
    person: Person
    message: IncomingMessage
    now: datetime
    talk: ConversationState
    invite_link: Callable[[str], str | None]
    """Makes a link of an invite code, on channels that know links."""
    texting: Texting = field(default_factory=Texting)
    talk_before: ConversationState = field(init=False, repr=False)
    """The talk as it was found."""
    _log: tuple[Entry, ...] | None = field(default=None, repr=False)
    _calendar: Calendar | None = field(default=None, repr=False)

    def __post_init__(self) -> None:
        """Note the talk as it was found."""
        self.talk_before = self.talk

    @cached_property
    def today(self) -> date:
        """The person's local date."""
        return local_day(self.now, self.person.zone)

    @cached_property
    def current_yard(self) -> str | None:
        """The yard the talk is in; a talk of another day may have been in another yard."""
        return self.person.yard if self.talk.yard_on == self.today else None

    @property
    def units(self) -> Mapping[str, Sequence[UnitName]]:
        """The units of each yard of the crew, by the yard's name."""
        return self._known_yards.by_yard

    @cached_property
    def _known_yards(self) -> KnownYards:
        return self.records.known_yards()

    def look_again(self) -> None:
        """The yards, their units or zones, or what the crew settled on are others now."""
        self.__dict__.pop("_known_yards", None)

    @property
    def log(self) -> tuple[Entry, ...]:
        """The crew's whole log, strikes and struck entries included."""
        if self._log is None:
            self._log = self.records.entries()
        return self._log

    @cached_property
    def weather(self) -> Mapping[str, YardWeather]:
        """The weather that is kept for the crew's yards."""
        return weather_about(self.records, self.today)

    @property
    def calendar(self) -> Calendar:
        """The crew's calendar, worked out anew after every change."""
        if self._calendar is None:
            litres = self.person.feeder_litres
            self._calendar = calendar_of(
                self.records, self.log, self.weather, litres, self._known_yards.crew.odds
            )
        return self._calendar

    @property
    def calendar_at_hand(self) -> Calendar | None:
        """The calendar, if it was worked out since the last change."""
        return self._calendar

    def reckon_anew(self) -> None:
        """What was worked out before no longer holds, since the crew settled something."""
        self.look_again()
        self._calendar = None

    def turn_to(self, yard: str) -> None:
        """From here on the talk is about this yard."""
        self.person = self.records.update_person(self.person.id, yard=yard)
        self.talk = self.talk.at_yard(self.today)
        self.__dict__.pop("current_yard", None)

    def append(self, entries: Iterable[Entry]) -> None:
        """Add to the log; what was worked out before no longer holds."""
        adding = list(entries)
        if adding:
            self._log = self.records.append(adding)
            self._calendar = None

    def entry(self, finding: Finding) -> Entry:
        """A finding as an entry by this person, from this message.

        "Today" is the date at the unit's yard, which may not be the date where the person is.
        """
        on = finding.on
        if on == self.today:
            on = local_day(self.now, self._known_yards.zones[finding.place.yard])
        return self._entry(replace(finding, on=on))

    def strike(self, entry: Entry) -> Entry:
        """The entry that strikes another."""
        taken_back = Finding(entry.place, EntryKind.STRIKE, Struck(entry.uid), entry.on)
        return self._entry(taken_back)

    def _entry(self, said: Finding) -> Entry:
        return Entry(
            uid=uuid.uuid4().hex,
            place=said.place,
            kind=said.kind,
            value=said.value,
            on=said.on,
            recorded_at=self.now,
            person=self.person.name,
            channel=self.message.channel,
            # An edited message stands in the log under the id of the message it corrects.
            message=self.message.corrects or self.message.id,
            note=said.note,
        )
