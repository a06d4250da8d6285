"""What is said of one unit becomes its findings."""

from collections.abc import Sequence

from bot.reading.clauses.clause import has_role
from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import Role, Sense
from bot.reading.meaning.disambiguation import settled, with_subjects, without_said_subjects
from bot.reading.meaning.finding_values import filled, implied
from bot.reading.meaning.negation import with_negations
from bot.reading.meaning.nouns import placed_nouns
from bot.reading.meaning.partial_finding import Around, Days, Told, Unclear, Words
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    Atom,
    Break,
    FreeWords,
    GraftedOn,
    Much,
    Puzzle,
    Said,
    Till,
    Whither,
)
from bot.reading.tokens.amounts import Substance
from scheduling.entry_kinds import EntryKind
from scheduling.values import Stores


def compose(atoms: Sequence[Atom], around: Around, days: Days, *, into: bool) -> tuple[Told, ...]:
    """Give the findings that are said of one unit.

    Raises:
        Unclear: any part is not understood or could be read in two ways; then nothing of it may
            be recorded.

    """
    parts = [atom for atom in atoms if not has_role(atom, Role.REMARK)]
    unbroken = _unbroken(parts)
    if not unbroken:
        raise Unclear(QuestionKind.NO_FINDING)
    told = _same(unbroken, around)
    if told is not None:
        return told
    words = _sorted_words(_unbroken(with_negations(parts)), into=into)
    with_subjects(words)
    words.senses = [settled(sense, around) for sense in words.senses]
    without_said_subjects(words)
    placed_nouns(words, around)
    found = _findings(words, days)
    if _used_up(words) and found:
        return found
    kind = QuestionKind.BAD_NUMBER if words.amounts else QuestionKind.NO_FINDING
    raise Unclear(kind)


def _unbroken(atoms: Sequence[Atom]) -> list[Atom]:
    return [atom for atom in atoms if not isinstance(atom, Break)]


def _same(atoms: Sequence[Atom], around: Around) -> tuple[Told, ...] | None:
    """Read "same", or "too" with nothing else said."""
    same = [atom for atom in atoms if has_role(atom, Role.SAME)]
    too = [atom for atom in atoms if has_role(atom, Role.TOO)]
    if not same and not (too and len(too) == len(atoms)):
        return None
    if not around.before and len(same) + len(too) < len(atoms):
        return None
    if len(same) + len(too) != len(atoms) or not around.before:
        raise Unclear(QuestionKind.NO_FINDING)
    return around.before


def _sorted_words(atoms: Sequence[Atom], *, into: bool) -> Words:
    words = Words([], [], into=into)
    for atom in atoms:
        _sort(atom, words)
    return words


def _sort(atom: Atom, words: Words) -> None:
    if isinstance(atom, Puzzle):
        raise Unclear(atom.kind, atom.options)
    if isinstance(atom, Said):
        _sort_sense(atom.sense, words)
    elif isinstance(atom, Much):
        words.amounts.append(atom.amount)
    else:
        _sort_detail(atom, words)


def _sort_sense(sense: Sense, words: Words) -> None:
    if sense.role in (Role.TOO, Role.SAME):
        return
    if sense.role is not None:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)
    if sense.kind is EntryKind.FED:
        _set_food_apart(words)
    if sense not in words.senses:
        words.senses.append(sense)


def _set_food_apart(words: Words) -> None:
    """Keep "half frame food, fed 1 quart" from being food given."""
    food = [amount for amount in words.amounts if amount.of is Substance.FOOD]
    if len(food) == 1 and words.food_seen is None and not words.senses:
        words.food_seen = food[0]
        words.amounts.remove(food[0])


def _sort_detail(atom: Atom, words: Words) -> None:
    if isinstance(atom, Till) and words.till is None:
        words.till = atom.spoken
    elif isinstance(atom, GraftedOn) and words.grafted_on is None:
        words.grafted_on = atom.spoken
    elif isinstance(atom, Whither) and words.whither is None:
        words.whither = atom.text
    elif isinstance(atom, FreeWords):
        words.note = atom.text
    else:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)


def _findings(words: Words, days: Days) -> tuple[Told, ...]:
    senses = sorted(words.senses, key=lambda sense: sense.kind is not EntryKind.MADE_UP)
    found = [
        filled(sense.kind, sense.value, words, days)
        for sense in senses
        if sense.kind is not None and sense.kind is not EntryKind.COMBINED
    ]
    if any(sense.kind is EntryKind.COMBINED for sense in senses):
        found.append(Told(EntryKind.COMBINED, None, words.whither or ""))
        words.whither = None
    if not any(amount.measure is Measure.KILOGRAMS for amount in words.amounts):
        found.extend(_implied(words, days))
    if words.food_seen is not None:
        found.append(Told(EntryKind.STORES, Stores(words.food_seen.number)))
    if words.note is not None:
        found.append(Told(EntryKind.NOTE, None, words.note))
        words.note = None
    return merged(found)


def _implied(words: Words, days: Days) -> list[Told]:
    found: list[Told] = []
    while words.amounts:
        left = len(words.amounts)
        # What a ratio belongs to is told by the other numbers.
        telling = min(words.amounts, key=lambda amount: amount.measure is Measure.PARTS)
        found.append(filled(implied(telling), None, words, days))
        if len(words.amounts) == left:
            raise Unclear(QuestionKind.BAD_NUMBER)
    return found


def _used_up(words: Words) -> bool:
    return not (words.amounts or words.till or words.grafted_on or words.whither)


def merged(found: Sequence[Told]) -> tuple[Told, ...]:
    """Drop repetitions, and a finding without a value where the same has one."""
    valued = {told.kind for told in found if told.value is not None}
    kept = [t for t in found if t.value is not None or t.kind not in valued]
    return tuple(dict.fromkeys(kept))
