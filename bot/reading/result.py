"""What a text was understood to mean."""

from dataclasses import dataclass
from datetime import date, time
from enum import StrEnum

from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import Value


@dataclass(frozen=True)
class Finding:
    """One entry to be: what was said about one place on one day."""

    place: Place
    kind: EntryKind
    value: Value | None
    on: date
    note: str = ""


class QuestionKind(StrEnum):
    """Why a part of a text could not be recorded."""

    NO_SUCH_UNIT = "no_such_unit"
    WHICH_YARD = "which_yard"
    WHICH_MEANING = "which_meaning"
    CONTRADICTION = "contradiction"
    NO_UNIT = "no_unit"
    """A finding without a unit."""
    NO_FINDING = "no_finding"
    """A unit, among other words, without a finding that was understood."""
    WHICH_DATE = "which_date"
    BAD_NUMBER = "bad_number"
    NOTED_ALREADY = "noted_already"
    """What the newest word on the unit's queen says as well; to record and to ask is nothing."""
    NOT_UNDERSTOOD = "not_understood"
    NOTHING_SAID = "nothing_said"
    """Greetings and thanks: nothing to record, and nothing to ask but what comes next."""


@dataclass(frozen=True)
class Question:
    """A part of the text that was not recorded, and what to ask about it.

    ``part`` is the person's own words; ``options`` are readings or names to choose from.
    """

    kind: QuestionKind
    part: str
    units: tuple[str, ...] = ()
    options: tuple[str, ...] = ()


class CommandName(StrEnum):
    """What a person can ask for rather than report."""

    DUE = "due"
    TOMORROW = "tomorrow"
    WEEK = "week"
    MORE = "more"
    QUEENS = "queens"
    FAILING = "failing"
    HISTORY = "history"
    """The story of one unit, asked for by its name alone."""
    UNDO = "undo"
    HELP = "help"
    CAUTIONS = "cautions"
    STOP = "stop"
    START = "start"
    YES = "yes"
    """Let what was asked about be done."""
    CANCEL = "cancel"
    """Leave what was asked about."""
    BEGIN = "begin"
    """Found a crew of one's own."""
    INVITE = "invite"
    NUMBER = "number"
    """Give a phone number of one's own, a first or a new one."""
    ADD_CHANNEL = "add_channel"
    """A code with which the person adds a chat or an e-mail address of their own."""
    JOIN = "join"
    CODES = "codes"
    """The codes that still let somebody in."""
    WITHDRAW = "withdraw"
    """Let a code let nobody in any more."""
    YARD = "yard"
    """Make a yard, or turn the talk to one that exists."""
    YARDS = "yards"
    RENAME_YARD = "rename_yard"
    REMOVE_YARD = "remove_yard"
    BOXES = "boxes"
    REMOVE_UNITS = "remove_units"
    MOVE_UNITS = "move_units"
    MORNING = "morning"
    ZONE = "zone"
    LOCATION = "location"
    FEEDER = "feeder"
    PLAN = "plan"
    """When to graft to have a number of laying queens on a date."""
    CREW = "crew"
    REMOVE = "remove"
    """Let somebody out of the crew."""
    ROLE = "role"
    """Make somebody an owner, a keeper or a watcher."""
    HAND_OVER = "hand_over"
    """Make somebody the owner in one's own place."""
    LEAVE = "leave"
    """Go out of the crew."""
    REMOVE_WAY = "remove_way"
    """Be reached no more at a number, a chat or an e-mail address."""
    MY_DATA = "my_data"
    """All that is kept about the person."""
    FORGET_ME = "forget_me"
    """Keep nothing more about the person."""
    ODDS = "odds"
    """At which chances the crew looks and gives up: to see them, or the usual ones again."""
    LOOK_AT = "look_at"
    GIVE_UP_AT = "give_up_at"
    DAYS = "days"
    """On which weekdays the crew goes out."""
    CHANNELS = "channels"
    """Which channel comes first, and when the next one is tried: to see it, or to settle it."""
    QUIET = "quiet"
    """In which hours nothing comes unasked: to see them, or to settle them."""


@dataclass(frozen=True)
class Command:
    """A command with what it names; fields that do not belong to it are None or empty."""

    name: CommandName
    yard: str | None = None
    unit: UnitName | None = None
    places: tuple[Place, ...] = ()
    """Units that are removed or moved."""
    to_yard: str | None = None
    """The yard they are moved to; None for the one they are in."""
    to_unit: UnitName | None = None
    """The unit or box that they become; None for the same names in another yard."""
    word: str | None = None
    """An invite code, a new yard's or person's name, a zone's name, or a channel's."""
    role: str | None = None
    """A role in the crew, by its name in the records."""
    sure: bool = False
    """What is asked about first was said with a yes."""
    number: str | None = None
    """A phone number as it was written."""
    boxes: tuple[int, ...] = ()
    compartments: int | None = None
    at: time | None = None
    until: time | None = None
    minutes: int | None = None
    """0 for never."""
    latitude: float | None = None
    longitude: float | None = None
    count: int | None = None
    on: date | None = None
    litres: float | None = None
    chance: float | None = None
    """A share of 1."""
    weekdays: frozenset[int] | None = None
    """Monday is 0; None to see them."""
    but: bool = False
    """The weekdays are those on which the crew does not go."""


@dataclass(frozen=True)
class Reading:
    """A text, understood.

    Attributes:
        findings: what will be recorded.
        questions: parts that will not be recorded until they are answered.
        command: what was asked for, if the text is a command.
        corrects: the text takes back what was last said about its units ("oops 5b eggs").
        yard: a yard the text named, which the conversation turns to.
    """

    findings: tuple[Finding, ...] = ()
    questions: tuple[Question, ...] = ()
    command: Command | None = None
    corrects: bool = False
    yard: str | None = None

    @classmethod
    def asking(cls, kind: QuestionKind, part: str, *options: str) -> "Reading":
        """Record nothing, and ask one question."""
        return cls(questions=(Question(kind, part, options=options),))
