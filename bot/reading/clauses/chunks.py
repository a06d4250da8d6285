"""A text's atoms cut at its commas, each chunk into pieces of units and what is said of them."""

from collections.abc import Iterator, Sequence

from bot.reading.clauses.clause import Piece, has_role, is_said
from bot.reading.clauses.runs import paired, runs_of
from bot.reading.lexicon.sense import Role
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import Atom, AtYard, Break, Everything, Puzzle, Strength, Units, When


def pieces_of(atoms: Sequence[Atom]) -> list[Piece]:
    """Cut atoms into pieces, in the order of the text."""
    return [piece for parted, chunk in _chunks(atoms) for piece in _pieces(chunk, parted)]


def _chunks(atoms: Sequence[Atom]) -> Iterator[tuple[Strength, list[Atom]]]:
    strength, chunk = Strength.STOP, list[Atom]()
    for at, atom in enumerate(atoms):
        parting = _parting(atoms, at)
        if parting or _starts_yard(chunk, atom):
            if chunk:
                yield strength, chunk
                strength, chunk = Strength.AND, []
            if parting:
                strength = max(strength, parting)
                continue
        chunk.append(atom)
    if chunk:
        yield strength, chunk


def _parting(atoms: Sequence[Atom], at: int) -> Strength | None:
    atom = atoms[at]
    if isinstance(atom, Break):
        return atom.strength
    return Strength.STOP if _is_breaking_but(atoms, at) else None


def _is_breaking_but(atoms: Sequence[Atom], at: int) -> bool:
    """Say whether "but" here begins a new clause rather than an exception."""
    if not has_role(atoms[at], Role.MAYBE_EXCEPT):
        return False
    after = at + 1
    while after < len(atoms) and isinstance(atoms[after], Units):
        after += 1
    ends = after == len(atoms) or isinstance(atoms[after], Break)
    return after == at + 1 or not ends


def _starts_yard(chunk: Sequence[Atom], atom: Atom) -> bool:
    """Say whether a second yard, or units after a closing yard, begin a new chunk."""
    yards = [a for a in chunk if isinstance(a, AtYard)]
    told = any(isinstance(a, Units) for a in chunk) and any(is_said(a) for a in chunk)
    if not yards or not told:
        return False
    if isinstance(atom, AtYard):
        return atom.name != yards[-1].name and not isinstance(chunk[-1], AtYard)
    return isinstance(atom, Units) and chunk[-1] is yards[-1] and chunk[0] is not yards[0]


def _pieces(chunk: list[Atom], parted: Strength) -> list[Piece]:
    yards = [atom.name for atom in chunk if isinstance(atom, AtYard)]
    whens = [atom for atom in chunk if isinstance(atom, When)]
    frame = Piece(
        yard=yards[-1] if yards else None,
        when=whens[0] if whens else None,
        leading=isinstance(chunk[0], When)
        or (isinstance(chunk[0], AtYard) and chunk[1:2] == whens[:1]),
        yard_leads=isinstance(chunk[0], AtYard),
        parted=parted,
        start=chunk[0].start,
        end=chunk[-1].end,
    )
    if len(whens) > 1 or len(set(yards)) > 1:
        kind = QuestionKind.WHICH_DATE if len(whens) > 1 else QuestionKind.WHICH_YARD
        chunk = [*chunk, Puzzle(frame.start, frame.end, kind, tuple(sorted(set(yards))))]
    chunk = _unless_guessing(chunk)
    named = any(isinstance(atom, Units) for atom in _before_except(chunk))
    left_out = (AtYard, When, Everything) if named else (AtYard, When)
    runs = runs_of([atom for atom in chunk if not isinstance(atom, left_out)])
    return paired(runs, frame)


def _unless_guessing(chunk: list[Atom]) -> list[Atom]:
    """Put puzzles for "4 or 5 eggs" and "no 4b eggs"; "no eggs in 3a or 3b" denies both."""
    denying = False
    found: list[Atom] = []
    for at, atom in enumerate(chunk):
        before_units = at + 1 < len(chunk) and isinstance(chunk[at + 1], Units)
        either = before_units and has_role(atom, Role.OR)
        if (before_units and has_role(atom, Role.NEGATION)) or (either and not denying):
            return _guess(chunk)
        if not either:
            found.append(atom)
        denying = denying or has_role(atom, Role.NEGATION, Role.NOT_SEEN)
    return found


def _guess(chunk: list[Atom]) -> list[Atom]:
    """Give the chunk's units with a question about all that is said of them."""
    named = [atom for atom in chunk if isinstance(atom, Units | AtYard | When)]
    puzzle = Puzzle(chunk[0].start, chunk[-1].end, QuestionKind.WHICH_MEANING)
    return [*named, puzzle]


def _before_except(chunk: Sequence[Atom]) -> Sequence[Atom]:
    """Give the chunk without its exceptions: "all" is noise beside units, not beside those."""
    at = [i for i, atom in enumerate(chunk) if has_role(atom, Role.EXCEPT, Role.MAYBE_EXCEPT)]
    return chunk[: at[0]] if at else chunk
