"""Elements cut at commas into chunks, each chunk into parts of clauses: units and their words."""

from collections.abc import Iterator, Sequence

from bot.reading.clauses.clause import Clause, has_role, is_said
from bot.reading.clauses.runs import paired, runs_of
from bot.reading.lexicon.sense import PhraseRole
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    AllUnits,
    AtYard,
    Break,
    BreakStrength,
    Element,
    NamedUnits,
    OnDay,
    UnclearPart,
)


def clause_parts(elements: Sequence[Element]) -> list[Clause]:
    """Cut elements into parts of clauses, in the order of the text."""
    return [part for parted, chunk in _chunks(elements) for part in _parts(chunk, parted)]


def _chunks(elements: Sequence[Element]) -> Iterator[tuple[BreakStrength, list[Element]]]:
    strength, chunk = BreakStrength.STOP, list[Element]()
    for at, element in enumerate(elements):
        parting = _parting(elements, at)
        if parting or _starts_yard(chunk, element):
            if chunk:
                yield strength, chunk
                strength, chunk = BreakStrength.AND, []
            if parting:
                strength = max(strength, parting)
                continue
        chunk.append(element)
    if chunk:
        yield strength, chunk


def _parting(elements: Sequence[Element], at: int) -> BreakStrength | None:
    element = elements[at]
    if isinstance(element, Break):
        return element.strength
    return BreakStrength.STOP if _is_breaking_but(elements, at) else None


def _is_breaking_but(elements: Sequence[Element], at: int) -> bool:
    """Say whether "but" here begins a new clause rather than an exception."""
    if not has_role(elements[at], PhraseRole.MAYBE_EXCEPT):
        return False
    after = at + 1
    while after < len(elements) and isinstance(elements[after], NamedUnits):
        after += 1
    ends = after == len(elements) or isinstance(elements[after], Break)
    return after == at + 1 or not ends


def _starts_yard(chunk: Sequence[Element], element: Element) -> bool:
    """Say whether a second yard, or units after a closing yard, begin a new chunk."""
    yards = [a for a in chunk if isinstance(a, AtYard)]
    told = any(isinstance(a, NamedUnits) for a in chunk) and any(is_said(a) for a in chunk)
    if not yards or not told:
        return False
    if isinstance(element, AtYard):
        return element.name != yards[-1].name and not isinstance(chunk[-1], AtYard)
    return isinstance(element, NamedUnits) and chunk[-1] is yards[-1] and chunk[0] is not yards[0]


def _parts(chunk: list[Element], parted: BreakStrength) -> list[Clause]:
    yards = [element.name for element in chunk if isinstance(element, AtYard)]
    whens = [element for element in chunk if isinstance(element, OnDay)]
    frame = Clause(
        yard=yards[-1] if yards else None,
        when=whens[0] if whens else None,
        leading=isinstance(chunk[0], OnDay)
        or (isinstance(chunk[0], AtYard) and chunk[1:2] == whens[:1]),
        yard_leads=isinstance(chunk[0], AtYard),
        parted=parted,
        start=chunk[0].start,
        end=chunk[-1].end,
    )
    if len(whens) > 1 or len(set(yards)) > 1:
        kind = QuestionKind.WHICH_DATE if len(whens) > 1 else QuestionKind.WHICH_YARD
        chunk = [*chunk, frame.unclear(kind, tuple(sorted(set(yards))))]
    chunk = _unless_guessing(chunk)
    named = any(isinstance(element, NamedUnits) for element in _before_except(chunk))
    left_out = (AtYard, OnDay, AllUnits) if named else (AtYard, OnDay)
    runs = runs_of([element for element in chunk if not isinstance(element, left_out)])
    return paired(runs, frame)


def _unless_guessing(chunk: list[Element]) -> list[Element]:
    """Put unclear parts for "4 or 5 eggs" and "no 4b eggs"; "no eggs in 3a or 3b" denies both."""
    denying = False
    found: list[Element] = []
    for at, element in enumerate(chunk):
        before_units = at + 1 < len(chunk) and isinstance(chunk[at + 1], NamedUnits)
        either = before_units and has_role(element, PhraseRole.OR)
        if (before_units and has_role(element, PhraseRole.NEGATION)) or (either and not denying):
            return _guess(chunk)
        if not either:
            found.append(element)
        denying = denying or has_role(element, PhraseRole.NEGATION, PhraseRole.NOT_SEEN)
    return found


def _guess(chunk: list[Element]) -> list[Element]:
    """Give the chunk's units with a question about all that is said of them."""
    named = [element for element in chunk if isinstance(element, NamedUnits | AtYard | OnDay)]
    unclear_part = UnclearPart(chunk[0].start, chunk[-1].end, QuestionKind.WHICH_MEANING)
    return [*named, unclear_part]


def _before_except(chunk: Sequence[Element]) -> Sequence[Element]:
    """Give the chunk without its exceptions: "all" is noise beside units, not beside those."""
    at = [
        i
        for i, element in enumerate(chunk)
        if has_role(element, PhraseRole.EXCEPT, PhraseRole.MAYBE_EXCEPT)
    ]
    return chunk[: at[0]] if at else chunk
