"""``boxes 1-12 of 3``: boxes and how many compartments each has."""

import re

from bot.reading.limits import MOST_BOXES
from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.situation import Situation
from scheduling.places import LETTERS

_LIST = r"(?P<list>\d{1,4}(?: ?(?:-|to|thru|through|,|and|&) ?\d{1,4})*?)"
_BOXES = re.compile(
    r"(?:(?:i|we) have |there are |set up |please )?(?:new |add |make )?"
    rf"box(?:es)? {_LIST},? ?(?:has |have |are |is )?"
    r"(?:(?P<single>singles?|whole|undivided)"
    r"|(?:(?:of|with|x|by) ?(?P<of>\w+)"
    r"|(?P<each>\w+) (?:each|ways?|units?|compartments?|nucs?|sides?))"
    r"(?: each| (?:compartments?|units?|nucs?|sides?)(?: each)?)?)",
    re.IGNORECASE,
)
_NUMBERS = dict(
    zip(["one", "two", "three", "four", "five", "six", "seven", "eight"], range(1, 9), strict=True)
)


def boxes_of(text: str, situation: Situation) -> Reading | None:
    """Read boxes with their compartments, in the current or the named yard."""
    if "box" not in text.lower():
        return None
    yard, said = _yard_apart(text, situation)
    found = _BOXES.fullmatch(said)
    if found is None:
        return None
    boxes = _numbers(found["list"])
    compartments = 1 if found["single"] else _count(found["of"] or found["each"])
    if boxes is None or compartments is None:
        question = Question(QuestionKind.BAD_NUMBER, text, options=("boxes 1-12 of 3",))
        return Reading(questions=(question,))
    command = Command(CommandName.BOXES, yard=yard, boxes=boxes, compartments=compartments)
    return Reading(command=command, yard=yard)


def _yard_apart(text: str, situation: Situation) -> tuple[str | None, str]:
    for yard in situation.yards:
        name = re.escape(yard.name)
        before = re.fullmatch(rf"(?:at )?{name}[:,]? (?P<rest>.+)", text, re.IGNORECASE)
        after = re.fullmatch(rf"(?P<rest>.+?),? (?:at|in) {name}", text, re.IGNORECASE)
        found = before or after
        if found is not None:
            return yard.name, found["rest"]
    return None, text


def _count(word: str) -> int | None:
    count = int(word) if word.isdigit() else _NUMBERS.get(word.lower(), 0)
    return count if 1 <= count <= len(LETTERS) else None


def _numbers(listed: str) -> tuple[int, ...] | None:
    """Give the numbers of "1-4, 7", or None if a run goes backward or is too long."""
    found: list[int] = []
    for part in re.split(r" ?(?:,|and|&) ?", listed.lower()):
        ends = [int(end) for end in re.split(r" ?(?:-|to|thru|through) ?", part)]
        if len(ends) > 2 or ends[0] > ends[-1] or ends[-1] - ends[0] >= MOST_BOXES:
            return None
        found.extend(range(ends[0], ends[-1] + 1))
    sound = min(found) > 0 and len(found) <= MOST_BOXES
    return tuple(dict.fromkeys(found)) if sound else None
