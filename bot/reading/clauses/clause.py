"""A clause, or a part of one: units and what is said of them, with its yard and day."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bot.reading.lexicon.sense import AmbiguousWord, PhraseRole, Sense
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    AllUnits,
    AtYard,
    Break,
    BreakStrength,
    Destination,
    Element,
    FreeText,
    GraftedBatch,
    GraftedOn,
    NamedUnits,
    OnDay,
    Phrase,
    Quantity,
    UnclearPart,
    Until,
)
from bot.reading.tokens.dates import SpokenDay
from scheduling.entry_facts import ENTRY_FACTS, entry_kinds
from scheduling.entry_kinds import Scope

Named = NamedUnits | AllUnits
DETAILS = Quantity | Until | GraftedOn | Destination
"""Elements that only complete a finding."""
YARD_KINDS = entry_kinds(lambda facts: facts.scope is Scope.YARD)


@dataclass(frozen=True)
class Clause:
    """Units and what is said of them; a part of a clause has only one of the two.

    ``units_first`` tells "4b eggs" from "eggs in 4b". ``leading`` is a
    day, ``yard_leads`` a yard said before all else; ``parted`` tells how strongly it stands
    apart from the part before it.
    """

    units: tuple[Named, ...] = ()
    excluded: tuple[NamedUnits, ...] = ()
    said: tuple[Element, ...] = ()
    units_first: bool = True
    yard: str | None = None
    when: OnDay | None = None
    leading: bool = False
    yard_leads: bool = False
    parted: BreakStrength = BreakStrength.STOP
    start: int = 0
    end: int = 0

    @property
    def of_yard(self) -> bool:
        """Whether it speaks of a yard or batch rather than of units."""
        return any(
            isinstance(element, GraftedBatch)
            or (isinstance(element, Phrase) and element.sense.kind in YARD_KINDS)
            for element in self.said
        )

    def unclear(self, kind: QuestionKind, options: tuple[str, ...] = ()) -> UnclearPart:
        """Give the whole clause as an unclear part, to be asked about."""
        return UnclearPart(self.start, self.end, kind, options)


def has_role(element: Element, *roles: PhraseRole) -> bool:
    """Say whether the element is a phrase with one of these roles."""
    return isinstance(element, Phrase) and element.sense.role in roles


def is_note(part: Clause) -> bool:
    """Say whether the part is a free note and nothing else."""
    return bool(part.said) and all(isinstance(element, FreeText) for element in part.said)


def is_said(element: Element) -> bool:
    """Say whether the element tells something, rather than naming a unit, a yard or a day."""
    return not isinstance(element, NamedUnits | AllUnits | AtYard | OnDay | Break) and not has_role(
        element, PhraseRole.EXCEPT, PhraseRole.MAYBE_EXCEPT
    )


def is_small_talk(elements: Sequence[Element]) -> bool:
    """Say whether a text greets, thanks or remarks, and reports nothing: "thanks!", "ok"."""
    return all(
        isinstance(element, Break) or has_role(element, PhraseRole.REMARK) for element in elements
    )


def is_remark(part: Clause) -> bool:
    """Say whether only remarks are made of the part's units: "opened box 4"."""
    return bool(part.said) and all(has_role(element, PhraseRole.REMARK) for element in part.said)


def is_bare(part: Clause | None) -> bool:
    """Say whether the part only names units."""
    return part is not None and bool(part.units) and not part.said


def is_detail(part: Clause) -> bool:
    """Say whether the part only completes a finding: a number, a day to put off to."""
    return bool(part.said) and all(isinstance(element, DETAILS) for element in part.said)


def is_all(part: Clause) -> bool:
    """Say whether the part names no units but "all", with something said of them."""
    everything = bool(part.units) and all(isinstance(unit, AllUnits) for unit in part.units)
    return everything and bool(part.said) and not part.excluded and not part.yard


def denies_nothing(part: Clause) -> bool:
    """Say whether the part is a "no" or "not" with nothing after it."""
    return bool(part.said) and all(has_role(element, PhraseRole.NEGATION) for element in part.said)


_COUNTED_NOUNS = frozenset(
    {
        AmbiguousWord.TRAP, AmbiguousWord.CELL, AmbiguousWord.VIRGIN, AmbiguousWord.GIVEN,
        AmbiguousWord.FOOD, AmbiguousWord.FONDANT, AmbiguousWord.BROOD, AmbiguousWord.BEES,
        AmbiguousWord.HONEY,
    }
)  # fmt: skip
"""Words that numbers and days complete, as they do the findings whose facts say so."""


def takes_details(part: Clause) -> bool:
    """Say whether numbers and days can complete what the part says."""
    said = [element.sense for element in part.said if isinstance(element, Phrase)]
    return bool(said) and all(_takes_details(sense) for sense in said)


def _takes_details(sense: Sense) -> bool:
    if sense.kind is not None:
        return ENTRY_FACTS[sense.kind].takes_details
    return sense.ambiguous in _COUNTED_NOUNS


_TODAY = SpokenDay(ago=0)


def with_days(clauses: Sequence[Clause], parts: Sequence[Clause]) -> list[Clause]:
    """Give every clause its day; one whose day is not clear gets an unclear part.

    A single day said first, last or alone is the day of the whole text.
    """
    said = [part for part in parts if part.when is not None]
    if not said or len(clauses) <= 1:
        return [_with(clause, said[0].when if said else None) for clause in clauses]
    whole = _day_of_all(said, parts)
    if whole is not None:
        return [_with(clause, whole) for clause in clauses]
    return _each(clauses)


def _day_of_all(said: Sequence[Clause], parts: Sequence[Clause]) -> OnDay | None:
    days = {part.when.spoken for part in said if part.when}
    if len(days) > 1:
        return None
    alone = any(not part.units and not part.said for part in said)
    first = parts[0].when is not None and parts[0].leading
    last = parts[-1].when is not None
    today = days == {_TODAY}
    return said[0].when if alone or first or last or today else None


def _each(clauses: Sequence[Clause]) -> list[Clause]:
    """Carry a day said before its clause forward; ask where no day was said."""
    found: list[Clause] = []
    carried: OnDay | None = None
    for clause in clauses:
        carried = (
            clause.when if clause.when and clause.leading else (None if clause.when else carried)
        )
        when = clause.when or carried
        found.append(_with(clause, when) if when else _asked_day(clause))
    return found


def _with(clause: Clause, when: OnDay | None) -> Clause:
    return clause if clause.when else replace(clause, when=when)


def _asked_day(clause: Clause) -> Clause:
    return replace(clause, said=(*clause.said, clause.unclear(QuestionKind.WHICH_DATE)))


def with_yards(clauses: Sequence[Clause], parts: Sequence[Clause]) -> list[Clause]:
    """Give every clause the yard the text names for it.

    One yard named first, last or alone is the yard of the whole text. One that leads a later
    clause is the yard from there on. With several, a clause has its own or that of the clause
    before it; one before the first named yard gets an unclear part.
    """
    named = list(dict.fromkeys(part.yard for part in parts if part.yard))
    if not named:
        return list(clauses)
    if len(named) == 1 and not _leads_later(parts):
        return [replace(clause, yard=named[0]) for clause in clauses]
    found: list[Clause] = []
    carried: str | None = parts[0].yard if not (parts[0].units or parts[0].said) else None
    for clause in clauses:
        carried = clause.yard or carried
        asked = carried is None and len(named) > 1
        found.append(_asked_yard(clause, named) if asked else replace(clause, yard=carried))
    return found


def _leads_later(parts: Sequence[Clause]) -> bool:
    """Say whether the yard stands first in a clause that is not the first: "4b eggs, river 20a"."""
    first = next(i for i, part in enumerate(parts) if part.yard)
    told_before = any(part.units or part.said for part in parts[:first])
    tells = bool(parts[first].units or parts[first].said)
    return told_before and tells and parts[first].yard_leads


def _asked_yard(clause: Clause, yards: Sequence[str]) -> Clause:
    asked = clause.unclear(QuestionKind.WHICH_YARD, tuple(yards))
    return replace(clause, said=(*clause.said, asked))
