"""Names that no yard can have, because a text that says them means something else."""

from datetime import date
from enum import StrEnum

from bot.reading.commands.command import command_of
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import Cursor, Element, UnclearPart
from bot.reading.scan.scanner import scan
from bot.reading.situation import Situation
from bot.reading.tokens.token import TokenForm, normalise, tokenise

_ANY_DAY = date(2000, 1, 1)


class NameClash(StrEnum):
    """What a name would be taken for."""

    NUMBER = "a number"
    COMMAND = "a command"
    FINDING = "a finding"


def clash_of(name: str) -> NameClash | None:
    """Say what a yard's name would be taken for when somebody types it; None if for nothing."""
    said = normalise(name)
    tokens = tokenise(said)
    if not any(token.form is TokenForm.WORD for token in tokens):
        return NameClash.NUMBER
    if _is_command(said):
        return NameClash.COMMAND
    known = all(_is_known(element) for element in scan(Cursor(said, tokens, [])))
    return NameClash.FINDING if known else None


def _is_command(said: str) -> bool:
    asked = Situation(_ANY_DAY, by_consent=True, asked_yes_or_no=True)
    return any(command_of(said, each) is not None for each in (asked, Situation(_ANY_DAY)))


def _is_known(element: Element) -> bool:
    unknown = isinstance(element, UnclearPart) and element.kind is QuestionKind.NOT_UNDERSTOOD
    return not unknown
