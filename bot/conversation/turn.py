"""One turn of a conversation: what it works with, and what the parser must know of it."""

import uuid
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from functools import cached_property

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.channels.sms.phone_number import Texting
from bot.channels.traits import traits_of
from bot.conversation.conversation_state import ConversationState, ToConfirm
from bot.conversation.quoted import Quoted, find_quoted
from bot.reading.result import Finding
from bot.reading.situation import Situation, YardUnits
from bot.wording.message import Message
from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Check
from scheduling.entries import Entry
from scheduling.entry_facts import entry_kinds
from scheduling.entry_kinds import EntryKind, Subject
from scheduling.places import Place, UnitName
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person
from scheduling.records.yards import CrewAtAGlance
from scheduling.values import Struck
from scheduling.wall_time import local_day
from scheduling.weather.yard_weather import YardWeather


@dataclass
class Turn:
    """One message of one person of a crew, and the transaction it is worked through in.

    ``state`` is that of the conversation; it is written back when the turn ends.
    """

    session: Session
    records: CrewRecords
    person: Person
    message: IncomingMessage
    now: datetime
    state: ConversationState
    invite_link: Callable[[str], str | None]
    """Makes a link of an invite code, on channels that know links."""
    texting: Texting = field(default_factory=Texting)
    is_out: bool = False
    """The message came from an address that leads into the crew no more, by what it said."""
    is_forgotten: bool = False
    """Nothing is kept about the person, so neither is the answer once it was sent."""
    confirmed: bool = False
    """The person said yes to what the text asks for."""
    state_before: ConversationState = field(init=False, repr=False)
    """The state as it was found."""
    left_out: Collection[Place] = field(default=(), init=False, repr=False)
    """What the calendar could not be worked out for, as far as it was asked for."""
    _crew: CrewAtAGlance | None = field(default=None, repr=False)

    def __post_init__(self) -> None:
        """Note the state as it was found."""
        self.state_before = self.state

    @cached_property
    def today(self) -> date:
        """The person's local date."""
        return local_day(self.now, self.person.zone)

    @cached_property
    def quoted(self) -> Quoted | None:
        """The message of ours that this one quotes, or whose button it is."""
        return find_quoted(self.session, self.message)

    @property
    def current_yard(self) -> str | None:
        """The yard the talk is in; a talk of another day may have been in another yard."""
        if self.quoted is not None and self.quoted.yard in self.units:
            return self.quoted.yard
        return self.person.yard if self.state.yard_on == self.today else None

    @property
    def units(self) -> Mapping[str, Sequence[UnitName]]:
        """The units of each yard of the crew, by the yard's name."""
        return self.crew.by_yard

    @property
    def crew(self) -> CrewAtAGlance:
        """The crew, its yards and their units, read once until ``look_again``."""
        if self._crew is None:
            self._crew = self.records.at_a_glance()
        return self._crew

    def look_again(self) -> None:
        """The yards, their units or zones, or what the crew settled on are others now."""
        self._crew = None

    @property
    def log(self) -> tuple[Entry, ...]:
        """The crew's whole log, strikes and struck entries included."""
        return self.records.entries()

    @cached_property
    def weather(self) -> Mapping[str, YardWeather]:
        """The weather that is kept for the crew's yards."""
        return self.records.weather_about(self.today)

    @property
    def calendar(self) -> Calendar:
        """The crew's calendar by its log as it is now."""
        odds, litres = self.crew.crew.odds, self.person.feeder_litres
        calendar = self.records.calendar(self.log, self.weather, odds, litres, self.crew.removed)
        self.left_out = calendar.left_out
        return calendar

    def turn_to(self, yard: str) -> None:
        """From here on the talk is about this yard."""
        if self.person.yard != yard:
            self.person = self.records.update_person(self.person.id, yard=yard)
        self.state = self.state.at_yard(yard, self.today)

    def ask_first(self, question: Message) -> Message:
        """Ask whether to do what this message says; a yes lets it be read again, confirmed."""
        waits = ToConfirm(self.message.text, self.message.corrects or self.message.id)
        self.state = replace(self.state, to_confirm=waits)
        return question

    def append(self, entries: Iterable[Entry]) -> None:
        """Add to the log."""
        self.records.append(entries)

    def entry(self, finding: Finding) -> Entry:
        """A finding as an entry by this person, from this message.

        "Today" is the date at the unit's yard, which may not be the date where the person is.
        """
        on = finding.on
        if on == self.today:
            on = local_day(self.now, self.crew.zones[finding.place.yard])
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


def situation_of(turn: Turn) -> Situation:
    """The situation in which the turn's message was written."""
    return Situation(
        today=turn.today,
        yards=tuple(YardUnits(name, tuple(units)) for name, units in turn.units.items()),
        current_yard=turn.current_yard,
        open_checks=lambda: _open_checks(turn),
        last_said=turn.state.last_said,
        spoken_of=_spoken_of(turn),
        asked_yes_or_no=turn.state.to_confirm is not None and not turn.person.stopped,
        by_consent=traits_of(turn.message.channel).needs_consent,
        feeder_litres=turn.person.feeder_litres,
        people=lambda: [each.name for each in turn.records.people()],
        newest=lambda place: _newest_of_queen(turn, place),
    )


def _spoken_of(turn: Turn) -> tuple[Place, ...]:
    """The units that the quoted message spoke of, as far as they still stand."""
    quoted = turn.quoted
    if quoted is None:
        return ()
    places = quoted.places
    if not places and quoted.of_message is not None:
        noted = turn.records.entries_from_message(turn.message.channel, quoted.of_message)
        places = tuple(dict.fromkeys(entry.place for entry in noted))
    return tuple(p for p in places if p.unit is not None and p.unit in turn.units.get(p.yard, ()))


def _open_checks(turn: Turn) -> dict[Place, tuple[CheckKind, ...]]:
    return {place: tuple(_kinds(checks)) for place, checks in turn.calendar.checks.items()}


_OF_QUEEN = entry_kinds(lambda facts: facts.subject in (Subject.QUEEN, Subject.PLACED))


def _newest_of_queen(turn: Turn, place: Place) -> EntryKind | None:
    """Give what was noted last of a unit's queen; after another was placed, the placing."""
    state = turn.calendar.units.get(place)
    told = () if state is None else reversed(state.entries)
    return next((entry.kind for entry in told if entry.kind in _OF_QUEEN), None)


def _kinds(checks: tuple[Check, ...]) -> list[CheckKind]:
    real = (check.kind for check in checks if check.follows is None)
    return [kind for kind in real if kind is not CheckKind.REST]
