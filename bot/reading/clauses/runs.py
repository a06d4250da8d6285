"""Units and words of one chunk, paired in turn or with the only units there are."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bot.reading.clauses.clause import DETAILS, Clause, has_role, is_said
from bot.reading.lexicon.sense import PhraseRole
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import AllUnits, Element, NamedUnits, Phrase


@dataclass(frozen=True)
class Run:
    """Neighbouring elements that are all units, or all something said."""

    named: bool
    elements: tuple[Element, ...]
    excluded: tuple[NamedUnits, ...] = ()


def runs_of(elements: Sequence[Element]) -> list[Run]:
    """Group neighbouring elements; exceptions go to the units they are taken from."""
    runs: list[Run] = []
    excepting = False
    for at, element in enumerate(elements):
        if has_role(element, PhraseRole.EXCEPT, PhraseRole.MAYBE_EXCEPT):
            excepting = True
        elif excepting and isinstance(element, NamedUnits):
            runs = _except(runs, element)
            following = elements[at + 1] if at + 1 < len(elements) else None
            told_before = any(not run.named for run in runs)
            if told_before and following is not None and is_said(following):
                runs.append(Run(named=True, elements=(element,)))
        else:
            excepting = False
            runs = _append(runs, element)
    return runs


def _append(runs: list[Run], element: Element) -> list[Run]:
    named = isinstance(element, NamedUnits | AllUnits)
    if runs and runs[-1].named == named and not runs[-1].excluded:
        return [*runs[:-1], replace(runs[-1], elements=(*runs[-1].elements, element))]
    return [*runs, Run(named, (element,))]


def _except(runs: list[Run], element: NamedUnits) -> list[Run]:
    """Leave units out of the last named run; without one, of whatever came before."""
    named = [at for at, run in enumerate(runs) if run.named]
    if not named:
        return [*runs, Run(named=True, elements=(), excluded=(element,))]
    at = named[-1]
    changed = replace(runs[at], excluded=(*runs[at].excluded, element))
    return [*runs[:at], changed, *runs[at + 1 :]]


def paired(runs: list[Run], frame: Clause) -> list[Clause]:
    """Pair named runs with what is said: in turn, or all with the only named run."""
    named = [run for run in runs if run.named and run.elements != ()]
    said = [run for run in runs if not run.named]
    if len(named) <= 1:
        return [_whole(runs, frame)]
    runs = _without_edge_remark(runs)
    said = [run for run in runs if not run.named]
    if len(said) == 1 and not runs[-1].named and not runs[0].named:
        return [_with_unclear_part(runs, frame)]
    return _alternating(runs, named, said, frame)


def _whole(runs: list[Run], frame: Clause) -> Clause:
    elements = tuple(a for run in runs if not run.named for a in run.elements)
    units = tuple(a for run in runs if run.named for a in run.elements)
    return replace(
        frame,
        units=tuple(a for a in units if isinstance(a, NamedUnits | AllUnits)),
        excluded=tuple(a for run in runs for a in run.excluded),
        said=elements,
        units_first=not (runs and not runs[0].named and units),
    )


def _with_unclear_part(runs: list[Run], frame: Clause) -> Clause:
    return replace(_whole(runs, frame), said=(frame.unclear(QuestionKind.WHICH_MEANING),))


def _alternating(runs: list[Run], named: list[Run], said: list[Run], frame: Clause) -> list[Clause]:
    first, last = runs[0].named, runs[-1].named
    if first and last and any(isinstance(a, NamedUnits) and a.into for a in runs[-1].elements):
        return [_with_unclear_part(runs, frame)]
    if not first and not last:
        verb = runs[0]
        if not _is_verb(verb) or not all(_is_detail(run) for run in said[1:]):
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


def _couple(unit: Run, said: tuple[Element, ...], frame: Clause, *, units_first: bool) -> Clause:
    elements = (*unit.elements, *said)
    return replace(
        frame,
        units=tuple(a for a in unit.elements if isinstance(a, NamedUnits | AllUnits)),
        excluded=unit.excluded,
        said=said,
        units_first=units_first,
        start=min(a.start for a in elements),
        end=max(a.end for a in elements),
    )


def _without_edge_remark(runs: list[Run]) -> list[Run]:
    """Drop a remark at one end when words stand at both: "found 4a eggs 4b none"."""
    if runs[0].named or runs[-1].named:
        return runs
    if _is_remark(runs[0]):
        return runs[1:]
    return runs[:-1] if _is_remark(runs[-1]) else runs


def _is_remark(run: Run) -> bool:
    return all(has_role(element, PhraseRole.REMARK) for element in run.elements)


def _is_verb(run: Run) -> bool:
    return all(
        isinstance(element, Phrase) and element.sense.role is None for element in run.elements
    )


def _is_detail(run: Run) -> bool:
    return all(isinstance(element, DETAILS) for element in run.elements)
