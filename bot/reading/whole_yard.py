"""What is said of a yard or a batch: the day's weather, who takes the visit, a graft."""

from collections.abc import Iterable
from datetime import date

from bot.reading.atoms import Atom, Batch, Break, Said
from bot.reading.lexicon.sense import Role
from bot.reading.piece import YARD_KINDS, Piece, has_role
from bot.reading.result import Finding, QuestionKind
from bot.reading.situation import Situation
from bot.reading.told import Unclear
from bot.reading.yards import yard_at_hand
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.values import Graft


def yard_findings(clause: Piece, situation: Situation) -> list[Finding]:
    """Give the finding about a yard or batch.

    Raises:
        Unclear: more is said than that, or the yard or the day is not clear.

    """
    said = _once(atom for atom in clause.said if not has_role(atom, Role.REMARK))
    if len(said) != 1 or clause.units:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)
    yard = yard_at_hand(situation, clause.yard)
    if yard is None:
        raise Unclear(QuestionKind.WHICH_YARD, tuple(each.name for each in situation.yards))
    atom = said[0]
    if isinstance(atom, Batch):
        return [_batch(atom, clause, yard, situation.today)]
    return [_of_yard(atom, clause, yard, situation)]


def _once(atoms: Iterable[Atom]) -> list[Atom]:
    """Drop commas, and the same weather said in other words."""
    said = {
        atom.sense if isinstance(atom, Said) else atom: atom
        for atom in atoms
        if not isinstance(atom, Break)
    }
    return list(said.values())


def _batch(atom: Batch, clause: Piece, yard: str, today: date) -> Finding:
    spoken = atom.spoken or (clause.when.spoken if clause.when else None)
    on = spoken.behind(today) if spoken else today
    if on is None:
        raise Unclear(QuestionKind.WHICH_DATE)
    if not atom.clear:
        raise Unclear(QuestionKind.BAD_NUMBER)
    graft = None if atom.graft == Graft() else atom.graft
    return Finding(Place(yard, batch=on.isoformat()), EntryKind.GRAFTED, graft, on)


def _of_yard(atom: Atom, clause: Piece, yard: str, situation: Situation) -> Finding:
    if not isinstance(atom, Said) or atom.sense.kind not in YARD_KINDS:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)
    if atom.sense.kind is EntryKind.YARD_TAKEN and clause.yard is None:
        raise Unclear(QuestionKind.WHICH_YARD, _names(situation))
    on = _day(clause, situation.today, ahead=atom.sense.kind is EntryKind.YARD_TAKEN)
    return Finding(Place(yard), EntryKind(atom.sense.kind), atom.sense.value, on)


def _names(situation: Situation) -> tuple[str, ...]:
    return tuple(each.name for each in situation.yards)


def _day(clause: Piece, today: date, *, ahead: bool) -> date:
    if clause.when is None:
        return today
    spoken = clause.when.spoken
    on = (spoken.ahead(today) if ahead and spoken.ago != 0 else None) or spoken.behind(today)
    if on is None:
        raise Unclear(QuestionKind.WHICH_DATE)
    return on
