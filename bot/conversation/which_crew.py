"""For which of several crews a message is; nothing is guessed where it could be either."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import IntEnum

from bot.reading.result import CommandName, QuestionKind, Reading
from scheduling.places import UnitName

Moment = tuple[datetime, int]
"""An instant, and the number of the message then, for those of one instant."""


class Fit(IntEnum):
    """How well a message fits a crew."""

    NOT = 0
    PARTLY = 1
    WHOLE = 2


@dataclass(frozen=True)
class Side:
    """A message as it looks from one crew.

    Attributes:
        fit: how much of it can be about this crew.
        names: it names a yard that this crew has.
        spoke: when the person last talked with this crew today.
        wrote: when this crew's morning came today.
    """

    fit: Fit
    names: bool = False
    spoke: Moment | None = None
    wrote: Moment | None = None


_ABOUT_NO_CREW = frozenset({CommandName.PLAN, CommandName.CAUTIONS, CommandName.BEGIN})

_ABOUT_NOTHING = frozenset(
    {QuestionKind.NOT_UNDERSTOOD, QuestionKind.NOTHING_SAID, QuestionKind.NO_SUCH_UNIT}
)


def which(sides: Sequence[Side]) -> int | None:
    """Say for which crew a message is; None where it could be for several.

    A yard's name that only one crew has decides, then that its units are in one crew only. What
    fits several goes to the crew that was last talked with today, or whose morning alone came
    today. Once another crew's morning came after that, it could be either.
    """
    named = [place for place, side in enumerate(sides) if side.names]
    asked = named or list(range(len(sides)))
    best = max(sides[place].fit for place in asked)
    fitting = [place for place in asked if sides[place].fit is best]
    if len(fitting) == 1:
        return fitting[0]
    talk = _in_talk(sides)
    if best is Fit.NOT:
        return fitting[0] if talk not in fitting else talk
    return talk if talk in fitting else None


def _in_talk(sides: Sequence[Side]) -> int | None:
    spoken = [(side.spoke, place) for place, side in enumerate(sides) if side.spoke is not None]
    wrote = [(side.wrote, place) for place, side in enumerate(sides) if side.wrote is not None]
    if not spoken:
        return wrote[0][1] if len(wrote) == 1 else None
    last, talk = max(spoken)
    since = [place for at, place in wrote if at > last and place != talk]
    return None if since else talk


def fit_of(reading: Reading, units: Sequence[UnitName], *, owner: bool) -> Fit:
    """Say how well a text, read in a crew's situation, fits that crew.

    Args:
        reading: the text, read.
        units: all units of the crew.
        owner: who wrote owns the crew.
    """
    if reading.findings or reading.questions:
        return _fit_of_report(reading, units)
    command = reading.command
    if command is None or command.name in _ABOUT_NO_CREW:
        return Fit.NOT if reading.yard is None else Fit.WHOLE
    if command.name is CommandName.HISTORY:
        return Fit.WHOLE if _has(units, command.unit) else Fit.NOT
    if command.name is CommandName.INVITE:
        return Fit.WHOLE if owner else Fit.PARTLY
    return Fit.WHOLE if units else Fit.PARTLY


def _fit_of_report(reading: Reading, units: Sequence[UnitName]) -> Fit:
    asked = {question.kind for question in reading.questions}
    if not units or (not reading.findings and asked <= _ABOUT_NOTHING):
        return Fit.NOT
    return Fit.PARTLY if QuestionKind.NO_SUCH_UNIT in asked else Fit.WHOLE


def _has(units: Sequence[UnitName], unit: UnitName | None) -> bool:
    if unit is None or unit in units:
        return True
    return not unit.letter and any(each.box == unit.box for each in units)
