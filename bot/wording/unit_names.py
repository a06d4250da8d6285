"""Units in the short form a keeper writes: ``4a-c 6b``, whole boxes ``1-3``."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from operator import attrgetter

from scheduling.places import UnitName

_AS_IT_STANDS = attrgetter("box", "letter")

_WORTH_A_RUN = 3
"""From this many neighbours on a run is written with a hyphen."""


def compact(units: Iterable[UnitName], yard: Iterable[UnitName] = ()) -> str:
    """Write units in yard order, as short as can be read without doubt.

    ``yard`` is every unit of the yard. With it a box of which all units are named stands as its
    number, and a run over several boxes is written from end to end; without it only letters of
    one box and single boxes are drawn together.
    """
    named = sorted(set(units), key=_AS_IT_STANDS)
    order = _order_of(yard if isinstance(yard, tuple) else tuple(yard))
    pieces: list[str] = []
    for run in _runs(named, order):
        pieces.extend(_run_words(run, order))
    return " ".join(_boxes_drawn_together(pieces))


@dataclass(frozen=True)
class _Order:
    """The units of a yard as they stand: each one's number, and how many each box holds."""

    number: Mapping[UnitName, int]
    in_box: Mapping[int, int]


_last: tuple[tuple[UnitName, ...], _Order] = ((), _Order({}, {}))
"""The yard of which units were written last: many lines of a message are of one yard."""


def _order_of(yard: tuple[UnitName, ...]) -> _Order:
    global _last
    known, order = _last
    if known is not yard:
        order = _sorted_out(yard)
        _last = (yard, order)
    return order


def _sorted_out(yard: tuple[UnitName, ...]) -> _Order:
    stand = sorted(set(yard), key=_AS_IT_STANDS)
    numbers = {unit: number for number, unit in enumerate(stand)}
    return _Order(numbers, Counter(unit.box for unit in stand))


def _runs(named: Sequence[UnitName], order: _Order) -> list[list[UnitName]]:
    """Stretches of named units between which the yard has no other."""
    runs: list[list[UnitName]] = []
    for unit in named:
        if runs and _next_to(runs[-1][-1], unit, order):
            runs[-1].append(unit)
        else:
            runs.append([unit])
    return runs


def _next_to(left: UnitName, right: UnitName, order: _Order) -> bool:
    if left.box == right.box:
        return True
    if right.box != left.box + 1 or left not in order.number or right not in order.number:
        return False
    return order.number[right] == order.number[left] + 1


def _run_words(run: Sequence[UnitName], order: _Order) -> list[str]:
    if _unbroken(run, order) and len(_boxes(run)) >= _WORTH_A_RUN and not _whole(run, order):
        return [f"{run[0]}-{run[-1]}"]
    return [_box_words(list(units), order) for _, units in groupby(run, lambda unit: unit.box)]


def _unbroken(run: Sequence[UnitName], order: _Order) -> bool:
    if not all(unit in order.number for unit in run):
        return False
    return order.number[run[-1]] - order.number[run[0]] == len(run) - 1


def _boxes(units: Iterable[UnitName]) -> set[int]:
    return {unit.box for unit in units}


def _whole(units: Sequence[UnitName], order: _Order) -> bool:
    """Whether the units are all that their boxes hold."""
    known = all(unit in order.number for unit in units)
    return known and len(units) == sum([order.in_box[box] for box in _boxes(units)])


def _box_words(units: Sequence[UnitName], order: _Order) -> str:
    box = units[0].box
    if _whole(units, order):
        return str(box)
    letters = "".join(unit.letter for unit in units)
    if len(letters) >= _WORTH_A_RUN and ord(letters[-1]) - ord(letters[0]) == len(letters) - 1:
        return f"{box}{letters[0]}-{letters[-1]}"
    return f"{box}{letters}"


def _boxes_drawn_together(pieces: Sequence[str]) -> list[str]:
    """``1 2 3`` as ``1-3``."""
    drawn: list[str] = []
    for run in _number_runs(pieces):
        drawn.extend([f"{run[0]}-{run[-1]}"] if len(run) >= _WORTH_A_RUN else run)
    return drawn


def _number_runs(pieces: Sequence[str]) -> list[list[str]]:
    runs: list[list[str]] = []
    for piece in pieces:
        last = runs[-1][-1] if runs else ""
        if piece.isdigit() and last.isdigit() and int(piece) == int(last) + 1:
            runs[-1].append(piece)
        else:
            runs.append([piece])
    return runs
