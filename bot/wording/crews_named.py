"""Words for somebody who is in several crews: whose a message is, and whose was meant."""

import re
from collections.abc import Sequence
from dataclasses import replace

from bot.channels.channel import Button
from bot.wording.message import Message
from bot.wording.plain_letters import to_gsm7

_OWN_NAME = "'s crew"

_LONGEST_BUTTON = 64
"""Bytes of what a button may stand for: Telegram, Bot API, InlineKeyboardButton (from memory)."""


def called(crew: str) -> str:
    """Give a crew's name as people say it: "Ada" for "Ada's crew"."""
    return crew.removesuffix(_OWN_NAME)


def apart(crews: Sequence[str]) -> list[str]:
    """Give crews names that differ: of the same name the second gets a number."""
    said = [name.casefold() for name in crews]
    numbers = [said[:place].count(name) + 1 for place, name in enumerate(said)]
    return [_numbered(name, number) for name, number in zip(crews, numbers, strict=True)]


def _numbered(crew: str, number: int) -> str:
    if number == 1:
        return crew
    rest = crew[len(called(crew)) :]
    return f"{called(crew)} {number}{rest}"


def from_crew(crew: str, text: str) -> str:
    """Say first whose crew a text is about."""
    return to_gsm7(f"{crew}: ") + text


def under_crew(crew: str, text: str = "") -> str:
    """Say on a line of its own whose crew what follows is of; nothing where ``crew`` is ""."""
    return "\n".join(line for line in (to_gsm7(f"{crew}:") if crew else "", text) if line)


def answer_of(crew: str, answer: Message) -> Message:
    """Name the crew in an answer, and in what its buttons stand for."""
    first, *rest = answer.parts
    return replace(buttons_of(crew, answer), parts=(from_crew(crew, first), *rest))


def buttons_of(crew: str, message: Message) -> Message:
    """Name the crew in what a message's buttons stand for; one too long for that is left out."""
    rows = (tuple(_button(crew, each) for each in row) for row in message.buttons)
    kept = (tuple(b for b in row if len(b.text.encode()) <= _LONGEST_BUTTON) for row in rows)
    return replace(message, buttons=tuple(row for row in kept if row))


def _button(crew: str, button: Button) -> Button:
    return Button(button.label, f"{called(crew)}: {button.text}")


def named_in(text: str, crews: Sequence[str]) -> tuple[int, str] | None:
    """Find which of some crews a text begins with, and what it says after that.

    A crew is named as "Ada:", "Ada", "Ada's crew" or "crew Ada"; of two names that fit the longer.
    """
    said = text.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").strip()
    found = [(len(name), place, rest) for place, name, rest in _names(said, crews)]
    return max(found)[1:] if found else None


def _names(said: str, crews: Sequence[str]) -> list[tuple[int, str, str]]:
    found = []
    for place, crew in enumerate(crews):
        for name in {crew, called(crew)}:
            form = rf"(?:for |crew |in )?{re.escape(name)}(?:'?s)?(?: crew)?(?:[:,.]\s*|\s+|$)(.*)"
            match = re.fullmatch(form, said, re.IGNORECASE | re.DOTALL)
            if match is not None:
                found.append((place, name, match[1]))
    return found


def whose(crews: Sequence[str]) -> str:
    """Ask for which crew a message was."""
    names = " or ".join(crews)
    answers = " or ".join(called(crew) for crew in crews)
    return to_gsm7(f"For {names}? Nothing noted yet. Answer {answers}.")


def turned_to(crew: str, yards: Sequence[str]) -> str:
    """Say that the talk turned to a crew, and which yards it has."""
    there = f"Yards: {', '.join(yards)}." if yards else "No yard yet."
    return to_gsm7(f"{there} What you send today is for {crew}.")


def in_several(crews: Sequence[str]) -> str:
    """Tell somebody who just joined one more crew how they are kept apart."""
    names = " and ".join(crews)
    return to_gsm7(
        f"You are in {names}: each message names its crew. Begin yours with the name where it "
        f"could be either, as in: {called(crews[-1])}: 4a eggs. STOP ends the texts of all."
    )
