"""A bare number after units: a box, or a count whose measure was left out ("6a trap 14")."""

from collections.abc import Sequence

from bot.reading.atoms import Much, Puzzle, Said, Units
from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import Hint
from bot.reading.picks import Pick
from bot.reading.result import QuestionKind
from bot.reading.sight import HARD, SOFT, Sight
from bot.reading.tokens.amounts import Amount
from bot.reading.tokens.token import TokenForm
from scheduling.entry_kinds import EntryKind

_COUNTED: set[EntryKind | Hint] = {
    EntryKind.FED,
    EntryKind.STORES,
    EntryKind.TRAP_SERVICED,
    Hint.TRAP,
    Hint.FOOD,
}
"""What a number without its measure may belong to."""
_TRAP: set[EntryKind | Hint] = {EntryKind.TRAP_SERVICED, Hint.TRAP}


def stray_number(
    sight: Sight, picks: Sequence[Pick], start: int, after: int
) -> Much | Puzzle | None:
    """Give the count that a bare number is, a puzzle if it may be one, or None for a box."""
    lone = len(picks) == 1 and picks[0] == Pick(picks[0].box) and after == start + 1
    if not lone or sight.words[start].form is not TokenForm.NUMBER or not sight.atoms:
        return None
    if after < len(sight.words) and sight.text_at(after) not in {*SOFT, *HARD}:
        return None
    beside = _after_trap(sight) or _after_unit(sight)
    if not beside:
        return None
    span = sight.span(start, after)
    box = picks[0].box or 0
    if _tells(sight, _TRAP) and (_after_trap(sight) or not _may_be_box(sight, box)):
        return Much(*span, Amount(Measure.BEETLES, float(box)))
    if sight.boxes is not None and box in sight.boxes and box not in (sight.divided or ()):
        return None
    return Puzzle(*span, QuestionKind.BAD_NUMBER)


def _after_trap(sight: Sight) -> bool:
    """Say whether the number follows a trap that follows its unit: "6a trap 14"."""
    before = sight.atoms[-1]
    trap = isinstance(before, Said) and {before.sense.kind, before.sense.hint} & _TRAP
    return bool(trap) and any(isinstance(atom, Units) for atom in sight.atoms)


def _after_unit(sight: Sight) -> bool:
    """Say whether the number follows a unit at once, in a text of things counted: "fed 4a 3"."""
    before = sight.atoms[-1]
    return isinstance(before, Units) and bool(before.picks[-1].letter) and _tells(sight, _COUNTED)


def _tells(sight: Sight, what: set[EntryKind | Hint]) -> bool:
    said = [atom.sense for atom in sight.atoms if isinstance(atom, Said)]
    return any({sense.kind, sense.hint} & what for sense in said)


def _may_be_box(sight: Sight, box: int) -> bool:
    return sight.boxes is None or box in sight.boxes
