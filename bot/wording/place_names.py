"""Places of one yard in words: ``4a-c 6b``, whole boxes ``1-3``, batches by their graft day."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from bot.wording.days_and_numbers import full_day
from scheduling.places import Place, UnitName


def place_words(places: Iterable[Place], yard_units: Iterable[UnitName] = ()) -> str:
    """Write ``4a-c 6b`` or ``batch Sat 2 May``; a yard as a whole by its name."""
    known = set(places)
    units = [place.unit for place in known if place.unit is not None]
    batches = sorted(place.batch for place in known if place.batch is not None)
    yards = sorted({place.yard for place in known if place.unit is None and place.batch is None})
    pieces = [compact(units, yard_units), *map(batch_words, batches), *yards]
    return " ".join(piece for piece in pieces if piece)


def batch_words(batch: str) -> str:
    """Name a batch by its graft day if that is its name: ``batch Sat 2 May``."""
    try:
        return f"batch {full_day(date.fromisoformat(batch))}"
    except ValueError:
        return f"batch {batch}"


_WORTH_A_RUN = 3
"""From this many neighbours on a run is written with a hyphen."""

_Box = list[UnitName]
"""The named units of one box, at least one."""


def compact(units: Iterable[UnitName], yard: Iterable[UnitName] = ()) -> str:
    """Write units in yard order, as short as can be read without doubt.

    ``yard`` is every unit of the yard. With it a box of which all units are named stands as its
    number, and a run over several boxes is written from end to end; without it only letters of
    one box and single boxes are drawn together.
    """
    order = _sorted_out(yard)
    pieces: list[str] = []
    for run in _runs(_by_box(units), order):
        pieces.extend(_run_words(run, order))
    return " ".join(_boxes_drawn_together(pieces))


@dataclass(frozen=True)
class _Order:
    """The units of a yard as they stand: each one's number, and how many each box holds."""

    number: Mapping[UnitName, int]
    in_box: Mapping[int, int]


def _sorted_out(yard: Iterable[UnitName]) -> _Order:
    stand = sorted(set(yard))
    numbers = {unit: number for number, unit in enumerate(stand)}
    return _Order(numbers, Counter([unit.box for unit in stand]))


def _by_box(units: Iterable[UnitName]) -> list[_Box]:
    boxes: dict[int, _Box] = {}
    for unit in sorted(set(units)):
        boxes.setdefault(unit.box, []).append(unit)
    return list(boxes.values())


def _runs(boxes: Iterable[_Box], order: _Order) -> list[list[_Box]]:
    """Stretches of boxes between which the yard has no other unit."""
    runs: list[list[_Box]] = []
    for box in boxes:
        if runs and _next_to(runs[-1][-1][-1], box[0], order):
            runs[-1].append(box)
        else:
            runs.append([box])
    return runs


def _next_to(left: UnitName, right: UnitName, order: _Order) -> bool:
    if right.box != left.box + 1 or left not in order.number or right not in order.number:
        return False
    return order.number[right] == order.number[left] + 1


def _run_words(run: Sequence[_Box], order: _Order) -> list[str]:
    # The cheap question first: most runs are of one box or two.
    if len(run) >= _WORTH_A_RUN and _unbroken(run, order) and not _all_whole(run, order):
        return [f"{run[0][0]}-{run[-1][-1]}"]
    return [_box_words(box, order) for box in run]


def _unbroken(run: Sequence[_Box], order: _Order) -> bool:
    if not all(unit in order.number for box in run for unit in box):
        return False
    return order.number[run[-1][-1]] - order.number[run[0][0]] == sum(map(len, run)) - 1


def _all_whole(run: Sequence[_Box], order: _Order) -> bool:
    return all(_is_whole(box, order) for box in run)


def _is_whole(units: _Box, order: _Order) -> bool:
    """Whether the units are all that their box holds."""
    if len(units) != order.in_box.get(units[0].box):
        return False
    return all(unit in order.number for unit in units)


def _box_words(units: _Box, order: _Order) -> str:
    box = units[0].box
    if _is_whole(units, order):
        return str(box)
    letters = "".join([unit.letter for unit in units])
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
