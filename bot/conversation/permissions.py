"""Permissions: the one table of what an owner, a keeper and a watcher may do in their crew."""

from collections.abc import Callable, Mapping
from enum import Enum, auto

from bot.conversation.turn import Turn
from bot.reading.result import Command, CommandName
from bot.wording.crew import only_the_owner, only_watching
from bot.wording.message import Message
from scheduling.records.people import Person
from scheduling.records.tables import Role


class Act(Enum):
    """What a message does in a crew."""

    READ = auto()
    """Asks what is due, known or settled."""
    OWN = auto()
    """Settles what is the person's own: hours, clock, channels, being in the crew at all."""
    NOTE = auto()
    """Notes what was seen and done, takes it back, sets up boxes, plans."""
    SETTLE = auto()
    """Settles what is the crew's: its yards, days, odds, feeders and people."""


MAY: Mapping[Role, frozenset[Act]] = {
    Role.OWNER: frozenset(Act),
    Role.KEEPER: frozenset({Act.READ, Act.OWN, Act.NOTE}),
    Role.WATCHER: frozenset({Act.READ, Act.OWN}),
}

ACTS: Mapping[CommandName, Act] = {
    CommandName.DUE: Act.READ,
    CommandName.TOMORROW: Act.READ,
    CommandName.WEEK: Act.READ,
    CommandName.MORE: Act.READ,
    CommandName.QUEENS: Act.READ,
    CommandName.FAILING: Act.READ,
    CommandName.HISTORY: Act.READ,
    CommandName.HELP: Act.READ,
    CommandName.CAUTIONS: Act.READ,
    CommandName.CREW: Act.READ,
    CommandName.YARDS: Act.READ,
    # Who is in a crew already begins and joins nothing by these.
    CommandName.BEGIN: Act.READ,
    CommandName.JOIN: Act.READ,
    CommandName.STOP: Act.OWN,
    CommandName.START: Act.OWN,
    CommandName.MORNING: Act.OWN,
    CommandName.QUIET: Act.OWN,
    # Yards move to another clock only with somebody who may settle them.
    CommandName.ZONE: Act.OWN,
    CommandName.CHANNELS: Act.OWN,
    CommandName.NUMBER: Act.OWN,
    CommandName.ADD_CHANNEL: Act.OWN,
    CommandName.REMOVE_WAY: Act.OWN,
    # Each their own codes; those of the crew are shown to who may settle it.
    CommandName.CODES: Act.OWN,
    CommandName.WITHDRAW: Act.OWN,
    CommandName.LEAVE: Act.OWN,
    CommandName.MY_DATA: Act.OWN,
    CommandName.FORGET_ME: Act.OWN,
    # Done only where its own text may be, when it is read again.
    CommandName.YES: Act.READ,
    CommandName.CANCEL: Act.READ,
    # What it takes back is asked about once more.
    CommandName.UNDO: Act.OWN,
    CommandName.BOXES: Act.NOTE,
    CommandName.REMOVE_UNITS: Act.NOTE,
    CommandName.MOVE_UNITS: Act.NOTE,
    CommandName.PLAN: Act.NOTE,
    CommandName.YARD: Act.SETTLE,
    CommandName.RENAME_YARD: Act.SETTLE,
    CommandName.REMOVE_YARD: Act.SETTLE,
    CommandName.LOCATION: Act.SETTLE,
    CommandName.FEEDER: Act.SETTLE,
    CommandName.ODDS: Act.SETTLE,
    CommandName.LOOK_AT: Act.SETTLE,
    CommandName.GIVE_UP_AT: Act.SETTLE,
    CommandName.DAYS: Act.SETTLE,
    CommandName.INVITE: Act.SETTLE,
    CommandName.REMOVE: Act.SETTLE,
    CommandName.ROLE: Act.SETTLE,
    CommandName.HAND_OVER: Act.SETTLE,
}
"""What each command does when it changes something; a test holds that none is without.

One that were would be the owner's.
"""

_ONLY_SHOWS: Mapping[CommandName, Callable[[Command], bool]] = {
    CommandName.YARD: lambda command: command.yard is not None,
    CommandName.ODDS: lambda command: command.word is None,
    CommandName.DAYS: lambda command: command.weekdays is None,
}
"""Commands that change nothing unless something is said with them."""


def act_of(command: Command) -> Act:
    """Say what a command does."""
    only_shows = _ONLY_SHOWS.get(command.name)
    if only_shows is not None and only_shows(command):
        return Act.READ
    return ACTS.get(command.name, Act.SETTLE)


def may_do(person: Person, act: Act) -> bool:
    """Tell whether a person may do something in their crew."""
    return act in MAY[person.role]


def not_allowed(turn: Turn, act: Act) -> Message | None:
    """Give the answer to who may not do something; None if they may."""
    if may_do(turn.person, act):
        return None
    return Message.of(only_watching() if act is Act.NOTE else only_the_owner(owner_names(turn)))


def owner_names(turn: Turn) -> str:
    """Name the owners of the crew: "Ada or Bea"."""
    return " or ".join(each.name for each in turn.records.people() if each.role is Role.OWNER)
