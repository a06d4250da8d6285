"""Answers about who is in a crew, in which role, and by which ways each is reached."""

from collections.abc import Sequence

from bot.channels.channel import Button
from bot.channels.traits import SMS, traits_of
from bot.wording.message import Message
from bot.wording.plain_letters import to_gsm7
from scheduling.records.tables import Role

_MAY = {
    Role.OWNER: "sets up yards and people too",
    Role.KEEPER: "notes and plans, but sets up no yards and people",
    Role.WATCHER: "reads and gets mornings, but notes nothing",
}

_A_ROLE = {Role.OWNER: "an owner", Role.KEEPER: "a keeper", Role.WATCHER: "a watcher"}


def asked_once(question: str, typed: str) -> Message:
    """Ask before something is done that cannot be undone, with what does it."""
    text = to_gsm7(f"{question} To do it, type: {typed}")
    return Message((text,), ((Button(typed, typed),),))


def remove_asked(name: str) -> Message:
    """Ask whether somebody is to be let out."""
    question = f"Take {name} out of your crew? From then on {name} gets and reads nothing of it."
    return asked_once(question, f"remove {name} yes")


def removed(name: str) -> str:
    """Confirm that somebody is out."""
    return to_gsm7(f"{name} is out of your crew. What {name} noted stays.")


def no_such_person(name: str, people: Sequence[str]) -> str:
    """Say that nobody of the crew has a name, and who there is."""
    return to_gsm7(f"Nobody here is called {name}. In your crew: {', '.join(people)}.")


def that_is_you() -> str:
    """Say how the person themselves goes."""
    return "That is you. To go out of your crew yourself: leave"


def role_set(name: str, role: Role) -> str:
    """Confirm somebody's role, and what it is."""
    return to_gsm7(f"{name} is {_A_ROLE[role]} now: {_MAY[role]}.")


def role_given(role: Role, who: str) -> str:
    """Tell somebody that their role is another."""
    return to_gsm7(f"{who} made you {_A_ROLE[role]} of the crew. {_WHAT_YOU_MAY[role]}")


_WHAT_YOU_MAY = {
    Role.OWNER: "You set up yards and people now.",
    Role.KEEPER: "You note and plan; an owner sets up yards and people.",
    Role.WATCHER: "You read and get mornings, but note nothing.",
}


def only_owner_left() -> str:
    """Refuse to leave a crew without an owner who can be reached."""
    return "Then your crew has no owner. First make another one, as in: NAME owner"


def has_no_way(name: str) -> str:
    """Refuse to make somebody the owner whom nothing reaches."""
    return to_gsm7(f"Nothing reaches {name}, so {name} cannot own your crew. First: invite {name}")


def hand_over_asked(name: str) -> Message:
    """Ask whether somebody is to be the owner in the person's own place."""
    question = f"Hand your crew over to {name}? {name} is its owner then, and you are a keeper."
    return asked_once(question, f"hand over to {name} yes")


def handed_over(name: str) -> str:
    """Confirm that somebody is the owner now."""
    return to_gsm7(f"{name} owns the crew now, and you are a keeper.")


def leave_asked(crew: str) -> Message:
    """Ask whether the person is to go."""
    return asked_once(f"Leave {crew}? You get and read nothing more of it.", "leave yes")


def you_left(crew: str) -> str:
    """Confirm that the person is out."""
    return to_gsm7(f"You left {crew}. What you noted stays there. Back in: a new code from it.")


def somebody_left(name: str) -> str:
    """Tell the owners that somebody went."""
    return to_gsm7(f"{name} left your crew.")


def _called(channel: str) -> str:
    return "number" if channel == SMS.name else traits_of(channel).shown_as or channel


def way_removed(channel: str, address: str, left: Sequence[str]) -> str:
    """Confirm that a way reaches the person no more, and which are left."""
    shown = f" {address}" if channel in (SMS.name, "mail") else ""
    others = " and ".join(dict.fromkeys(map(_called, left)))
    return to_gsm7(f"Your {_called(channel)}{shown} reaches you no more. Left: {others}.")


def no_such_way(channel: str, ways: Sequence[tuple[str, str]]) -> str:
    """Ask which way is meant, with those by which the person is reached."""
    mine = ", ".join(f"{_called(each)} {address}" for each, address in ways)
    return to_gsm7(f"Which {_called(channel)} is that? You are reached by: {mine}.")


def only_way() -> str:
    """Refuse to take away the one way that is left."""
    return "That is your only way to me. First add another, or to go for good: leave"
