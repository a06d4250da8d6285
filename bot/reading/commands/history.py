"""A unit's name alone asks for its story."""

import re

from bot.reading.atoms import AtYard, Units
from bot.reading.resolve import resolve, said
from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.scan import atoms_in
from bot.reading.sight import Sight
from bot.reading.situation import Situation
from bot.reading.words import cut
from bot.reading.yards import yards_with_box
from scheduling.places import UnitName

_ASKING = re.compile(
    r"(?:(?:so )?how(?: is| s| are| about)?|"
    r"whats? (?:is )?(?:up with|with|in|about|of|going on in)|"
    r"history(?: of)?|story(?: of)?|show(?: me)?|tell me about|status(?: of)?) ",
    re.IGNORECASE,
)


def history_of(text: str, situation: Situation) -> Reading | None:
    """Read "4b", "4b?", "how is 4b", "river 4b"."""
    asked = _ASKING.match(text)
    rest = text[asked.end() :] if asked else text
    rest = re.sub(
        r" (?:doing|history|status|story|going)$", "", rest.rstrip("? "), flags=re.IGNORECASE
    )
    if re.search(r"\b(?:at|in|on|to|into|all|of)\b", rest, re.IGNORECASE):
        return None
    unit: Units | None = None
    yard: str | None = None
    # Most texts report of a unit: the word after its name tells that they do not ask for it.
    for atom in atoms_in(Sight(rest, cut(rest), [known.name for known in situation.yards])):
        if isinstance(atom, AtYard):
            yard = atom.name
        elif isinstance(atom, Units) and unit is None:
            unit = atom
        else:
            return None
    return None if unit is None else _story(unit, yard, situation)


def _story(named: Units, yard: str | None, situation: Situation) -> Reading | None:
    pick = named.picks[0]
    if len(named.picks) != 1 or pick.to is not None:
        return None
    found = resolve([named], yard, situation)
    if len(found.places) == 1 and found.places[0].unit:
        place = found.places[0]
        home = place.yard if situation.yards else None
        return Reading(command=Command(CommandName.HISTORY, home, place.unit), yard=yard)
    if found.questions or pick.box is None:
        return Reading(questions=found.questions or (_ask(said(pick)),))
    having = yards_with_box(situation, pick.box, yard)
    return Reading(
        command=Command(CommandName.HISTORY, having[0].name, UnitName(pick.box)), yard=yard
    )


def _ask(part: str) -> Question:
    return Question(QuestionKind.NO_SUCH_UNIT, part, (part,))
