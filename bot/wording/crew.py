"""Answers about the people of a crew: welcome, invite, joining, stopping."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, time

from bot.settings.founding import Founding
from bot.wording.codes import how_to_begin
from bot.wording.days_and_numbers import clock, full_day
from bot.wording.plain_letters import to_gsm7


@dataclass(frozen=True)
class Member:
    """A person as the list of the crew shows them; ``morning`` is local to them."""

    name: str
    role: str
    morning: time | None = None
    stopped: bool = False


def welcome(founding: Founding) -> str:
    """First words to somebody not known."""
    return (
        "Yardbell keeps the clock of your mating boxes and tells you each morning what to open. "
        f"{how_to_begin(founding)}"
    )


def talk_in_private() -> str:
    """Tell a group that the bot was added to where to talk to it."""
    return "I answer in private chats only: tap my name here, then Start."


def begun(name: str) -> str:
    """Greet the founder of a crew and say what to do first."""
    return to_gsm7(
        f"Welcome {name}. First a yard, as in: new yard River\n"
        "Then its boxes: boxes 1-12 of 3\nThen what is in them: 10 day cells in 1-4"
    )


def no_yard_yet() -> str:
    """Ask whoever reports before there is a yard for what comes first."""
    return (
        "You have no yard yet. Nothing noted. First: new yard River\n"
        "Then its boxes: boxes 1-12 of 3"
    )


def invited(code: str, expires: date, link: str | None = None) -> str:
    """Give an invite code, and how the partner uses it."""
    telegram = f" or open {link}" if link else ""
    return to_gsm7(
        f"Your partner sends me: join {code}{telegram}\n"
        f"Good once, to {full_day(expires)}. Give it only to somebody you trust with your yards."
    )


def crew_joined(name: str, others: Sequence[str], yards: Sequence[str]) -> str:
    """Welcome a partner who joined."""
    yard_words = f" Yards: {', '.join(yards)}." if yards else ""
    return to_gsm7(
        f"Welcome {name}, you share the yards of {_and(others)}.{yard_words} "
        "You both see what either notes. Type due for today, help for the rest."
    )


def partner_joined(name: str) -> str:
    """Tell the others that somebody joined."""
    return to_gsm7(f"{name} joined your crew.")


def already_in_a_crew(others: Sequence[str]) -> str:
    """Refuse a member who begins or joins again."""
    with_whom = f" with {_and(others)}" if others else ""
    return to_gsm7(f"You are in a crew already{with_whom}. Nothing changed.")


def only_the_owner(owner: str) -> str:
    """Refuse what only an owner of the crew may do."""
    return to_gsm7(f"Only {owner} can do that. Nothing changed.")


def only_watching() -> str:
    """Refuse a note or a plan by a watcher."""
    return "You may look but not note. Ask the owner of the crew to change that."


def crew_list(members: Sequence[Member]) -> str:
    """Show everybody of the crew, with role and morning time."""
    return to_gsm7("\n".join(_member(member) for member in members))


def _member(member: Member) -> str:
    at = f", morning {clock(member.morning)}" if member.morning else ""
    return f"{member.name} ({member.role}){at}{', stopped' if member.stopped else ''}"


def stopped() -> str:
    """Confirm that nothing more is sent."""
    return "Stopped: no more messages from Yardbell. Your log is kept. Type start to go on."


def started(at: time) -> str:
    """Confirm that messages go on."""
    return f"Started. Next morning message at {clock(at)}, when something is due."


def _and(names: Sequence[str]) -> str:
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
