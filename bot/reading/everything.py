"""Which units "all" means when none is named."""

from collections.abc import Sequence

from bot.reading.atoms import Atom, Break, Much, Said
from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import Hint
from bot.reading.result import QuestionKind
from bot.reading.situation import Situation
from bot.reading.told import Unclear
from bot.reading.yards import yard_at_hand
from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName

_OUT = frozenset({CheckKind.EMERGENCE, CheckKind.RELEASE})
_ASKED_BY = {Hint.OUT: _OUT, Hint.NOT_OUT: _OUT}
"""A word that several findings share, and the checks at which they are looked for."""


def serves_whole_yard(said: Sequence[Atom]) -> bool:
    """Say whether what is said is of the sort that is done to a whole yard at once."""
    fed = {Measure.LITRES, Measure.FEEDERS, Measure.PARTS, Measure.BEETLES}
    return bool(said) and all(
        isinstance(atom, Break)
        or (isinstance(atom, Said) and _of_whole_yard(atom.sense.kind))
        or (isinstance(atom, Much) and atom.amount.measure in fed)
        for atom in said
    )


def _of_whole_yard(kind: EntryKind | None) -> bool:
    return kind is not None and ENTRY_FACTS[kind].whole_yard


def all_units(
    said: Sequence[Atom], named_yard: str | None, situation: Situation, *, excepting: bool
) -> list[Place]:
    """Give the units that "all" means.

    A yard named, or a finding of a whole yard's work: every unit of the yard. Otherwise the one
    group that waits for this finding.

    Raises:
        Unclear: there is no such group, or more than one.

    """
    if named_yard or serves_whole_yard(said):
        return _whole_yard(named_yard, situation)
    group = _waiting(said, situation)
    yards = {place.yard for place in group}
    if len(yards) == 1:
        return group
    if excepting and not yards:
        return _whole_yard(None, situation)
    raise Unclear(QuestionKind.NO_UNIT)


def _whole_yard(named: str | None, situation: Situation) -> list[Place]:
    name = yard_at_hand(situation, named)
    if name is None:
        names = tuple(yard.name for yard in situation.yards)
        raise Unclear(QuestionKind.WHICH_YARD, names)
    found = [
        Place(name, unit) for yard in situation.yards if yard.name == name for unit in yard.units
    ]
    if not found:
        raise Unclear(QuestionKind.NO_UNIT)
    return found


def _waiting(said: Sequence[Atom], situation: Situation) -> list[Place]:
    """Give the one group of units with an open check that what is said answers."""
    wanted: frozenset[CheckKind] = frozenset()
    for atom in said:
        if isinstance(atom, Said):
            wanted |= _checks_of(atom)
    groups = {check: _open(check, situation) for check in wanted}
    found = [group for group in groups.values() if group]
    return found[0] if len(found) == 1 else []


def _open(check: CheckKind, situation: Situation) -> list[Place]:
    found = [place for place, checks in situation.open_checks.items() if check in checks]
    units = [place for place in found if place.unit is not None]
    return sorted(units, key=lambda place: (place.yard, place.unit or UnitName(0)))


def _checks_of(atom: Said) -> frozenset[CheckKind]:
    kind, hint = atom.sense.kind, atom.sense.hint
    if kind is not None:
        return ENTRY_FACTS[kind].looked_for_at
    return _ASKED_BY.get(hint, frozenset()) if hint is not None else frozenset()
