"""The parser: a text becomes tokens, elements, clauses, findings."""

from collections.abc import Sequence

from bot.reading.clauses.chunks import clause_parts
from bot.reading.clauses.clause import has_role, is_small_talk, with_days, with_yards
from bot.reading.clauses.joined_clauses import joined_clauses
from bot.reading.commands.command import command_of
from bot.reading.commands.naming_commands import naming_of
from bot.reading.lexicon.sense import PhraseRole
from bot.reading.meaning.interpret import Interpretation
from bot.reading.meaning.negation import without_contradictions
from bot.reading.result import Command, CommandName, QuestionKind, Reading
from bot.reading.scan.elements import AtYard, Break, Cursor, Element, UnclearPart
from bot.reading.scan.scanner import scan, with_boxes
from bot.reading.situation import Situation
from bot.reading.tokens.token import Token, normalise, tokenise
from bot.reading.tokens.typos import correct_typos
from bot.reading.tokens.yard_names import spoken_names

LONGEST = 2000
"""Letters of a text that are read; a longer one is sent back whole."""


def read(text: str, situation: Situation) -> Reading:
    """Understand a text: findings to record, questions to ask, or a command.

    Nothing is guessed: a part that can be read in two ways, or not at all, becomes a question,
    and nothing of that part is recorded.
    """
    if len(text) > LONGEST:
        return Reading.asking(QuestionKind.NOT_UNDERSTOOD, text[:40])
    said = normalise(text)
    # A name is kept as it is written.
    reading = naming_of(text, situation) or command_of(said, situation)
    if reading is not None:
        return reading
    return _reported(said, situation)


def _reported(text: str, situation: Situation) -> Reading:
    names = [yard.name for yard in situation.yards]
    words = {word.text for spoken in spoken_names(names) for word in spoken.words}
    tokens = correct_typos(tokenise(text), words)
    elements = with_boxes(scan(_cursor(text, tokens, situation)))
    if is_small_talk(elements):
        return Reading.asking(QuestionKind.NOTHING_SAID, text)
    corrects, elements = _correction(elements, text)
    if corrects and situation.spoken_of and _idle(elements):
        return Reading(command=Command(CommandName.UNDO))
    yards = [element.name for element in elements if isinstance(element, AtYard)]
    if elements and all(isinstance(element, AtYard) for element in elements):
        return Reading(yard=yards[-1])
    parts = clause_parts(elements)
    clauses = with_days(with_yards(joined_clauses(parts), parts), parts)
    interpretation = Interpretation(text, situation)
    for clause in clauses:
        interpretation.add(clause)
    return _reading(interpretation, text, yards, corrects=corrects)


def _cursor(text: str, tokens: list[Token], situation: Situation) -> Cursor:
    names = [yard.name for yard in situation.yards]
    if not situation.yards:
        return Cursor(text, tokens, names)
    units = [unit for yard in situation.yards for unit in yard.units]
    divided = frozenset(unit.box for unit in units if unit.letter)
    boxes = frozenset(unit.box for unit in units)
    return Cursor(text, tokens, names, divided, boxes, situation.current_yard)


def _reading(
    interpretation: Interpretation, text: str, yards: Sequence[str], *, corrects: bool
) -> Reading:
    findings, clashes = without_contradictions(interpretation.findings, text)
    questions = (*interpretation.asked, *clashes)
    if not findings and not questions:
        return Reading.asking(QuestionKind.NOT_UNDERSTOOD, text)
    return Reading(
        findings=tuple(findings),
        questions=questions,
        corrects=corrects,
        yard=yards[-1] if yards else None,
    )


def _correction(elements: list[Element], text: str) -> tuple[bool, list[Element]]:
    """Take words of correction out; between two reports they make the whole text unclear."""
    at = [i for i, element in enumerate(elements) if has_role(element, PhraseRole.CORRECTION)]
    if not at:
        return False, elements
    kept = [element for i, element in enumerate(elements) if i not in at]
    if _idle(elements[: at[-1]]) or _idle(elements[at[0] :]):
        return True, kept
    return False, [UnclearPart(0, len(text), QuestionKind.NOT_UNDERSTOOD)]


def _idle(elements: Sequence[Element]) -> bool:
    return all(
        isinstance(element, Break) or has_role(element, PhraseRole.CORRECTION)
        for element in elements
    )
