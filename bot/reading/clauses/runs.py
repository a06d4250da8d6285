"""Units and words of one chunk, paired in turn or with the only units there are."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bot.reading.clauses.clause import DETAILS, Piece, has_role, is_said
from bot.reading.lexicon.sense import Role
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import Atom, Everything, Puzzle, Said, Units


@dataclass(frozen=True)
class Run:
    """Neighbouring atoms that are all units, or all something said."""

    named: bool
    atoms: tuple[Atom, ...]
    excluded: tuple[Units, ...] = ()


def runs_of(atoms: Sequence[Atom]) -> list[Run]:
    """Group neighbouring atoms; exceptions go to the units they are taken from."""
    runs: list[Run] = []
    excepting = False
    for at, atom in enumerate(atoms):
        if has_role(atom, Role.EXCEPT, Role.MAYBE_EXCEPT):
            excepting = True
        elif excepting and isinstance(atom, Units):
            runs = _except(runs, atom)
            following = atoms[at + 1] if at + 1 < len(atoms) else None
            told_before = any(not run.named for run in runs)
            if told_before and following is not None and is_said(following):
                runs.append(Run(named=True, atoms=(atom,)))
        else:
            excepting = False
            runs = _append(runs, atom)
    return runs


def _append(runs: list[Run], atom: Atom) -> list[Run]:
    named = isinstance(atom, Units | Everything)
    if runs and runs[-1].named == named and not runs[-1].excluded:
        return [*runs[:-1], replace(runs[-1], atoms=(*runs[-1].atoms, atom))]
    return [*runs, Run(named, (atom,))]


def _except(runs: list[Run], atom: Units) -> list[Run]:
    """Leave units out of the last named run; without one, of whatever came before."""
    named = [at for at, run in enumerate(runs) if run.named]
    if not named:
        return [*runs, Run(named=True, atoms=(), excluded=(atom,))]
    at = named[-1]
    changed = replace(runs[at], excluded=(*runs[at].excluded, atom))
    return [*runs[:at], changed, *runs[at + 1 :]]


def paired(runs: list[Run], frame: Piece) -> list[Piece]:
    """Pair named runs with what is said: in turn, or all with the only named run."""
    named = [run for run in runs if run.named and run.atoms != ()]
    said = [run for run in runs if not run.named]
    if len(named) <= 1:
        return [_whole(runs, frame)]
    runs = _without_edge_remark(runs)
    said = [run for run in runs if not run.named]
    if len(said) == 1 and not runs[-1].named and not runs[0].named:
        return [_puzzled(runs, frame)]
    return _alternating(runs, named, said, frame)


def _whole(runs: list[Run], frame: Piece) -> Piece:
    atoms = tuple(a for run in runs if not run.named for a in run.atoms)
    units = tuple(a for run in runs if run.named for a in run.atoms)
    return replace(
        frame,
        units=tuple(a for a in units if isinstance(a, Units | Everything)),
        excluded=tuple(a for run in runs for a in run.excluded),
        said=atoms,
        units_first=not (runs and not runs[0].named and units),
    )


def _puzzled(runs: list[Run], frame: Piece) -> Piece:
    puzzle = Puzzle(frame.start, frame.end, QuestionKind.WHICH_MEANING)
    return replace(_whole(runs, frame), said=(puzzle,))


def _alternating(runs: list[Run], named: list[Run], said: list[Run], frame: Piece) -> list[Piece]:
    first, last = runs[0].named, runs[-1].named
    if first and last and any(isinstance(a, Units) and a.into for a in runs[-1].atoms):
        return [_puzzled(runs, frame)]
    if not first and not last:
        verb = runs[0]
        if not _is_verb(verb) or not all(_is_detail(run) for run in said[1:]):
            return [_puzzled(runs, frame)]
        return [_couple(unit, (*verb.atoms, *run.atoms), frame, units_first=False)
                for unit, run in zip(named, said[1:], strict=True)]  # fmt: skip
    pieces = [
        _couple(unit, run.atoms, frame, units_first=first)
        for unit, run in zip(named, said, strict=False)
    ]
    if len(named) > len(said):
        left = named[-1]
        pieces.append(_couple(left, (), frame, units_first=True))
    return pieces


def _couple(unit: Run, said: tuple[Atom, ...], frame: Piece, *, units_first: bool) -> Piece:
    atoms = (*unit.atoms, *said)
    return replace(
        frame,
        units=tuple(a for a in unit.atoms if isinstance(a, Units | Everything)),
        excluded=unit.excluded,
        said=said,
        units_first=units_first,
        start=min(a.start for a in atoms),
        end=max(a.end for a in atoms),
    )


def _without_edge_remark(runs: list[Run]) -> list[Run]:
    """Drop a remark at one end when words stand at both: "found 4a eggs 4b none"."""
    if runs[0].named or runs[-1].named:
        return runs
    if _is_remark(runs[0]):
        return runs[1:]
    return runs[:-1] if _is_remark(runs[-1]) else runs


def _is_remark(run: Run) -> bool:
    return all(has_role(atom, Role.REMARK) for atom in run.atoms)


def _is_verb(run: Run) -> bool:
    return all(isinstance(atom, Said) and atom.sense.role is None for atom in run.atoms)


def _is_detail(run: Run) -> bool:
    return all(isinstance(atom, DETAILS) for atom in run.atoms)
