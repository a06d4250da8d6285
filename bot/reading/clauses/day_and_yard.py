"""Which day and which yard each clause speaks of."""

from collections.abc import Sequence
from dataclasses import replace

from bot.reading.clauses.clause import Clause
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import OnDay
from bot.reading.tokens.spoken_day import SpokenDay

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
