"""The parser: a text becomes tokens, elements, clauses, findings."""

from collections.abc import Sequence

from bot.reading.clauses.chunks import pieces_of
from bot.reading.clauses.clause import has_role, is_small_talk
from bot.reading.clauses.day_and_yard import dated, placed
from bot.reading.clauses.joined_clauses import joined
from bot.reading.commands.command import command_of
from bot.reading.lexicon.sense import Role
from bot.reading.meaning.interpret import Assembly
from bot.reading.meaning.negation import without_contradictions
from bot.reading.result import Question, QuestionKind, Reading
from bot.reading.scan.elements import Atom, AtYard, Break, Cursor, Puzzle
from bot.reading.scan.scanner import scan, with_boxes
from bot.reading.situation import Situation
from bot.reading.tokens.token import Token, normalise, tokenise
from bot.reading.tokens.typos import correct_typos

LONGEST = 2000
"""Letters of a text that are read; a longer one is sent back whole."""


def read(text: str, situation: Situation) -> Reading:
    """Understand a text: findings to record, questions to ask, or a command.

    Nothing is guessed: a part that can be read in two ways, or not at all, becomes a question,
    and nothing of that part is recorded.
    """
    if len(text) > LONGEST:
        return _not_understood(text[:40])
    said = normalise(text)
    reading = command_of(said, situation)
    if reading is not None:
        return reading
    return _reported(said, situation)


def _not_understood(part: str) -> Reading:
    return Reading(questions=(Question(QuestionKind.NOT_UNDERSTOOD, part),))


def _reported(text: str, situation: Situation) -> Reading:
    names = [yard.name for yard in situation.yards]
    words = correct_typos(tokenise(text), {word for name in names for word in name.lower().split()})
    atoms = with_boxes(scan(_cursor(text, words, situation)))
    if is_small_talk(atoms):
        return Reading(questions=(Question(QuestionKind.NOTHING_SAID, text),))
    corrects, atoms = _correction(atoms, text)
    yards = [atom.name for atom in atoms if isinstance(atom, AtYard)]
    if atoms and all(isinstance(atom, AtYard) for atom in atoms):
        return Reading(yard=yards[-1])
    pieces = pieces_of(atoms)
    clauses = dated(placed(joined(pieces), pieces), pieces)
    assembly = Assembly(text, situation)
    for clause in clauses:
        assembly.add(clause)
    return _reading(assembly, text, yards, corrects=corrects)


def _cursor(text: str, words: list[Token], situation: Situation) -> Cursor:
    names = [yard.name for yard in situation.yards]
    if not situation.yards:
        return Cursor(text, words, names)
    units = [unit for yard in situation.yards for unit in yard.units]
    divided = frozenset(unit.box for unit in units if unit.letter)
    return Cursor(text, words, names, divided, frozenset(unit.box for unit in units))


def _reading(assembly: Assembly, text: str, yards: Sequence[str], *, corrects: bool) -> Reading:
    findings, clashes = without_contradictions(assembly.findings, text)
    questions = (*assembly.asked, *clashes)
    if not findings and not questions:
        return _not_understood(text)
    return Reading(
        findings=tuple(findings),
        questions=questions,
        corrects=corrects,
        yard=yards[-1] if yards else None,
    )


def _correction(atoms: list[Atom], text: str) -> tuple[bool, list[Atom]]:
    """Take words of correction out; between two reports they make the whole text a puzzle."""
    at = [i for i, atom in enumerate(atoms) if has_role(atom, Role.CORRECTION)]
    if not at:
        return False, atoms
    kept = [atom for i, atom in enumerate(atoms) if i not in at]
    if _idle(atoms[: at[-1]]) or _idle(atoms[at[0] :]):
        return True, kept
    return False, [Puzzle(0, len(text), QuestionKind.NOT_UNDERSTOOD)]


def _idle(atoms: Sequence[Atom]) -> bool:
    return all(isinstance(atom, Break) or has_role(atom, Role.CORRECTION) for atom in atoms)
