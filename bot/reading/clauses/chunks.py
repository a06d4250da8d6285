"""Elements cut at commas into chunks; in each the units are paired with what is said of them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bot.reading.clauses.clause import DETAILS, Clause, Named, has_role, is_said
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
    Phrase,
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
    runs = _runs_of([element for element in chunk if not isinstance(element, left_out)])
    return _paired(runs, frame)


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


@dataclass(frozen=True)
class _Run:
    """Neighbouring elements that are all units, or all something said."""

    named: bool
    elements: tuple[Element, ...]
    excluded: tuple[NamedUnits, ...] = ()


def _runs_of(elements: Sequence[Element]) -> list[_Run]:
    """Group neighbouring elements; exceptions go to the units they are taken from."""
    runs: list[_Run] = []
    excepting = False
    for at, element in enumerate(elements):
        if has_role(element, PhraseRole.EXCEPT, PhraseRole.MAYBE_EXCEPT):
            excepting = True
        elif excepting and isinstance(element, NamedUnits):
            runs = _except(runs, element)
            following = elements[at + 1] if at + 1 < len(elements) else None
            told_before = any(not run.named for run in runs)
            if told_before and following is not None and is_said(following):
                runs.append(_Run(named=True, elements=(element,)))
        else:
            excepting = False
            runs = _append(runs, element)
    return runs


def _append(runs: list[_Run], element: Element) -> list[_Run]:
    named = isinstance(element, Named)
    if runs and runs[-1].named == named and not runs[-1].excluded:
        return [*runs[:-1], replace(runs[-1], elements=(*runs[-1].elements, element))]
    return [*runs, _Run(named, (element,))]


def _except(runs: list[_Run], element: NamedUnits) -> list[_Run]:
    """Leave units out of the last named run; without one, of whatever came before."""
    named = [at for at, run in enumerate(runs) if run.named]
    if not named:
        return [*runs, _Run(named=True, elements=(), excluded=(element,))]
    at = named[-1]
    changed = replace(runs[at], excluded=(*runs[at].excluded, element))
    return [*runs[:at], changed, *runs[at + 1 :]]


def _paired(runs: list[_Run], frame: Clause) -> list[Clause]:
    """Pair named runs with what is said: in turn, or all with the only named run."""
    named = [run for run in runs if run.named and run.elements != ()]
    if len(named) <= 1:
        return [_whole(runs, frame)]
    runs = _without_edge_remark(runs)
    said = [run for run in runs if not run.named]
    if len(said) == 1 and not runs[-1].named and not runs[0].named:
        return [_with_unclear_part(runs, frame)]
    return _alternating(runs, named, said, frame)


def _whole(runs: list[_Run], frame: Clause) -> Clause:
    elements = tuple(a for run in runs if not run.named for a in run.elements)
    units = tuple(a for run in runs if run.named for a in run.elements)
    return replace(
        frame,
        units=tuple(a for a in units if isinstance(a, Named)),
        excluded=tuple(a for run in runs for a in run.excluded),
        said=elements,
        units_first=not (runs and not runs[0].named and units),
    )


def _with_unclear_part(runs: list[_Run], frame: Clause) -> Clause:
    return replace(_whole(runs, frame), said=(frame.unclear(QuestionKind.WHICH_MEANING),))


def _alternating(
    runs: list[_Run], named: list[_Run], said: list[_Run], frame: Clause
) -> list[Clause]:
    first, last = runs[0].named, runs[-1].named
    if first and last and any(isinstance(a, NamedUnits) and a.into for a in runs[-1].elements):
        return [_with_unclear_part(runs, frame)]
    if not first and not last:
        verb = runs[0]
        details = all(isinstance(element, DETAILS) for run in said[1:] for element in run.elements)
        if not _is_verb(verb) or not details:
            return [_with_unclear_part(runs, frame)]
        return [_couple(unit, (*verb.elements, *run.elements), frame, units_first=False)
                for unit, run in zip(named, said[1:], strict=True)]  # fmt: skip
    parts = [
        _couple(unit, run.elements, frame, units_first=first)
        for unit, run in zip(named, said, strict=False)
    ]
    if len(named) > len(said):
        left = named[-1]
        parts.append(_couple(left, (), frame, units_first=True))
    return parts


def _couple(unit: _Run, said: tuple[Element, ...], frame: Clause, *, units_first: bool) -> Clause:
    elements = (*unit.elements, *said)
    return replace(
        frame,
        units=tuple(a for a in unit.elements if isinstance(a, Named)),
        excluded=unit.excluded,
        said=said,
        units_first=units_first,
        start=min(a.start for a in elements),
        end=max(a.end for a in elements),
    )


def _without_edge_remark(runs: list[_Run]) -> list[_Run]:
    """Drop a remark at one end when words stand at both: "found 4a eggs 4b none"."""
    if runs[0].named or runs[-1].named:
        return runs
    if _is_remark(runs[0]):
        return runs[1:]
    return runs[:-1] if _is_remark(runs[-1]) else runs


def _is_remark(run: _Run) -> bool:
    return all(has_role(element, PhraseRole.REMARK) for element in run.elements)


def _is_verb(run: _Run) -> bool:
    return all(
        isinstance(element, Phrase) and element.sense.role is None for element in run.elements
    )
