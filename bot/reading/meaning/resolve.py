"""Unit references and "all" resolved to places that exist, and the yard meant; or questions."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import AmbiguousWord
from bot.reading.meaning.finding_values import Unclear
from bot.reading.result import Question, QuestionKind
from bot.reading.scan.elements import Break, Element, NamedUnits, Phrase, Quantity
from bot.reading.scan.unit_references import UnitReference
from bot.reading.situation import Situation, YardUnits
from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import LETTERS, Place, UnitName

HOME = "home"
"""The yard of somebody who has none yet."""


def yard_at_hand(situation: Situation, named: str | None) -> str:
    """Give the yard meant when no unit tells it.

    Raises:
        Unclear: there are several.
    """
    if yard := named or situation.current_yard:
        return yard
    if len(situation.yards) > 1:
        raise yard_unclear(situation)
    return situation.yards[0].name if situation.yards else HOME


def yard_unclear(situation: Situation) -> Unclear:
    """Give the question which of the yards is meant."""
    return Unclear(QuestionKind.WHICH_YARD, tuple(yard.name for yard in situation.yards))


def yards_with_box(situation: Situation, box: int, named: str | None) -> list[YardUnits]:
    """Give the yards in which a box may be meant: one, several to ask about, or none."""
    having = [yard for yard in situation.yards if any(unit.box == box for unit in yard.units)]
    if named:
        return [yard for yard in having if yard.name == named]
    current = [yard for yard in having if yard.name == situation.current_yard]
    return current or having


def stands(situation: Situation, place: Place) -> bool:
    """Say whether a unit stands there; without any yard, any unit is taken to."""
    if not situation.yards:
        return True
    return any(yard.name == place.yard and place.unit in yard.units for yard in situation.yards)


@dataclass(frozen=True)
class Resolved:
    """Places that exist, and questions about those that do not or that may be several."""

    places: tuple[Place, ...] = ()
    questions: tuple[Question, ...] = ()


def resolve(units: Sequence[NamedUnits], yard: str | None, situation: Situation) -> Resolved:
    """Find the places that names stand for.

    ``yard`` is the yard that the text names for them, if any.
    """
    found = [
        _pick(reference, yard, situation) for element in units for reference in element.references
    ]
    places = dict.fromkeys(place for each in found for place in each.places)
    return Resolved(tuple(places), tuple(q for each in found for q in each.questions))


def _pick(reference: UnitReference, yard: str | None, situation: Situation) -> Resolved:
    if reference.box is None:
        return _ask(QuestionKind.NO_SUCH_UNIT, reference)
    if not situation.yards:
        return _anywhere(reference)
    yards = yards_with_box(situation, reference.box, yard)
    if not yards:
        return _ask(QuestionKind.NO_SUCH_UNIT, reference)
    if len(yards) > 1:
        return _ask(QuestionKind.WHICH_YARD, reference, tuple(each.name for each in yards))
    names = _among(reference, yards[0].units)
    if not names:
        return _ask(QuestionKind.NO_SUCH_UNIT, reference)
    if reference.count not in (None, len(names)):
        return _ask(QuestionKind.WHICH_MEANING, reference, tuple(map(str, names)))
    return Resolved(tuple(Place(yards[0].name, name) for name in names))


def _ask(kind: QuestionKind, reference: UnitReference, options: tuple[str, ...] = ()) -> Resolved:
    return Resolved(questions=(Question(kind, said(reference), (said(reference),), options),))


def said(reference: UnitReference) -> str:
    """Give the name as a person would write it: 4b, 4a-c, 4 left."""
    near = f"{'' if reference.box is None else reference.box}{reference.letter}" + (
        f" {reference.position}" if reference.position else ""
    )
    if reference.to is None:
        return near
    far = (
        reference.to.letter
        if reference.to.box == reference.box and reference.letter
        else said(reference.to)
    )
    return f"{near}-{far}"


def _among(reference: UnitReference, units: Iterable[UnitName]) -> list[UnitName]:
    """Give the units of one yard that are meant, in yard order; none if an end does not exist."""
    standing = sorted(units)
    first = _one(reference, standing)
    if reference.to is None or not first:
        return first
    last = _one(reference.to, standing)
    if not last or last[-1] < first[0]:
        return []
    return [unit for unit in standing if first[0] <= unit <= last[-1]]


def _one(reference: UnitReference, standing: Sequence[UnitName]) -> list[UnitName]:
    box = [unit for unit in standing if unit.box == reference.box]
    if reference.position:
        return _at_position(reference.position, box)
    if reference.letter:
        return [unit for unit in box if unit.letter == reference.letter]
    return box


def _at_position(position: str, box: Sequence[UnitName]) -> list[UnitName]:
    """Give the compartment at the left, right or middle of a divided box."""
    if len(box) < 2:
        return []
    if position == "middle":
        return [box[len(box) // 2]] if len(box) % 2 else []
    return [box[0] if position == "left" else box[-1]]


_USUAL = {"left": "a", "middle": "b", "right": "c"}
"""Compartments of a box of three, the usual mating box; for a yard not known yet."""


def _anywhere(reference: UnitReference) -> Resolved:
    """Take any unit to exist, as long as no unknown number of compartments is needed."""
    box, far = reference.box, reference.to
    if box is None or not all(each.letter in LETTERS for each in (reference, far) if each):
        return _ask(QuestionKind.NO_SUCH_UNIT, reference)
    if reference.count is not None:
        return _counted(box, reference)
    letter = _USUAL.get(reference.position, reference.letter)
    if far is None:
        return (
            _places([UnitName(box, letter)])
            if box > 0
            else _ask(QuestionKind.NO_SUCH_UNIT, reference)
        )
    if far.box == box and letter and far.letter > letter:
        run = LETTERS[LETTERS.index(letter) : LETTERS.index(far.letter) + 1]
        return _places([UnitName(box, each) for each in run])
    if not letter and not far.letter and far.box is not None and 0 < box < far.box <= box + 100:
        return _places([UnitName(each) for each in range(box, far.box + 1)])
    return _ask(QuestionKind.NO_SUCH_UNIT, reference)


def _counted(box: int, reference: UnitReference) -> Resolved:
    """Give as many compartments as were said: "all three of box 4" says that there are three."""
    if reference.count is None or not box > 0 or not 2 <= reference.count <= len(LETTERS):
        return _ask(QuestionKind.NO_SUCH_UNIT, reference)
    return _places([UnitName(box, letter) for letter in LETTERS[: reference.count]])


def _places(names: Sequence[UnitName]) -> Resolved:
    return Resolved(tuple(Place(HOME, name) for name in names))


_OUT = frozenset({CheckKind.EMERGENCE, CheckKind.RELEASE})
_ASKED_BY = {AmbiguousWord.OUT: _OUT, AmbiguousWord.NOT_OUT: _OUT}
"""A word that several findings share, and the checks at which they are looked for."""


def serves_whole_yard(said: Sequence[Element]) -> bool:
    """Say whether what is said is of the sort that is done to a whole yard at once."""
    fed = {Measure.LITRES, Measure.FEEDERS, Measure.PARTS, Measure.BEETLES}
    return bool(said) and all(
        isinstance(element, Break)
        or (isinstance(element, Phrase) and _of_whole_yard(element.sense.kind))
        or (isinstance(element, Quantity) and element.amount.measure in fed)
        for element in said
    )


def _of_whole_yard(kind: EntryKind | None) -> bool:
    return kind is not None and ENTRY_FACTS[kind].whole_yard


def all_units(
    said: Sequence[Element], named_yard: str | None, situation: Situation, *, excepting: bool
) -> list[Place]:
    """Give the units that "all" means.

    A yard named, or a finding of a whole yard's work: every unit of the yard. Otherwise the one
    group that waits for this finding.

    Raises:
        Unclear: there is no such group, or more than one.
    """
    if named_yard or serves_whole_yard(said):
        return _units_of_yard(named_yard, situation)
    group = _waiting(said, situation)
    yards = {place.yard for place in group}
    if len(yards) == 1:
        return group
    if excepting and not yards:
        return _units_of_yard(None, situation)
    raise Unclear(QuestionKind.NO_UNIT)


def _units_of_yard(named: str | None, situation: Situation) -> list[Place]:
    name = yard_at_hand(situation, named)
    found = [
        Place(name, unit) for yard in situation.yards if yard.name == name for unit in yard.units
    ]
    if not found:
        raise Unclear(QuestionKind.NO_UNIT)
    return found


def _waiting(said: Sequence[Element], situation: Situation) -> list[Place]:
    """Give the one group of units with an open check that what is said answers."""
    wanted: frozenset[CheckKind] = frozenset()
    for element in said:
        if isinstance(element, Phrase):
            wanted |= _checks_of(element)
    groups = {check: _with_open_check(check, situation) for check in wanted}
    found = [group for group in groups.values() if group]
    return found[0] if len(found) == 1 else []


def _with_open_check(check: CheckKind, situation: Situation) -> list[Place]:
    found = [place for place, checks in situation.open_checks().items() if check in checks]
    units = [place for place in found if place.unit is not None]
    return sorted(units, key=lambda place: (place.yard, place.unit or UnitName(0)))


def _checks_of(element: Phrase) -> frozenset[CheckKind]:
    kind, ambiguous = element.sense.kind, element.sense.ambiguous
    if kind is not None:
        return ENTRY_FACTS[kind].looked_for_at
    return _ASKED_BY.get(ambiguous, frozenset()) if ambiguous is not None else frozenset()
