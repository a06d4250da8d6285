"""Which check an entry answers, and whether the unit was opened for it."""

from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.values import PutOff

_LOOKED_FOR_EGGS = (CheckKind.EMERGENCE, CheckKind.LAYING, CheckKind.GIVE_UP)
_ABOUT_THE_QUEEN = tuple(
    kind for kind in CheckKind if kind not in {CheckKind.REST, CheckKind.FEED, CheckKind.TRAP}
)

ANSWERS: dict[EntryKind, tuple[CheckKind, ...]] = {
    EntryKind.CELL_PLACED: _ABOUT_THE_QUEEN,
    EntryKind.VIRGIN_PLACED: _ABOUT_THE_QUEEN,
    EntryKind.CAGED_QUEEN_PLACED: _ABOUT_THE_QUEEN,
    EntryKind.RAISING_OWN: _ABOUT_THE_QUEEN,
    EntryKind.QUEEN_TAKEN: _ABOUT_THE_QUEEN,
    EntryKind.CELL_FAILED: _ABOUT_THE_QUEEN,
    EntryKind.QUEEN_DEAD: _ABOUT_THE_QUEEN,
    EntryKind.DRONE_LAYER: _ABOUT_THE_QUEEN,
    EntryKind.LAYING_WORKERS: _ABOUT_THE_QUEEN,
    EntryKind.EMERGED: (CheckKind.EMERGENCE,),
    EntryKind.NOT_EMERGED: (CheckKind.EMERGENCE,),
    EntryKind.RELEASED: (CheckKind.RELEASE,),
    EntryKind.STILL_CAGED: (CheckKind.RELEASE,),
    EntryKind.VIRGIN_SEEN: _LOOKED_FOR_EGGS,
    EntryKind.QUEEN_SEEN: _LOOKED_FOR_EGGS,
    EntryKind.NO_EGGS: _LOOKED_FOR_EGGS,
    EntryKind.EGGS: _LOOKED_FOR_EGGS,
    EntryKind.SEALED_BROOD: (*_LOOKED_FOR_EGGS, CheckKind.SEALED_BROOD),
    EntryKind.FED: (CheckKind.FEED,),
    EntryKind.STORES: (CheckKind.FEED,),
    EntryKind.TRAP_SET: (CheckKind.TRAP,),
    EntryKind.TRAP_SERVICED: (CheckKind.TRAP,),
    EntryKind.BROOD_ADDED: (CheckKind.BOOST,),
    EntryKind.BEES_ADDED: (CheckKind.BOOST,),
}
"""The checks each kind of entry answers; kinds not named here answer none."""

OPENED = frozenset(
    {
        EntryKind.MADE_UP,
        EntryKind.CELL_PLACED,
        EntryKind.VIRGIN_PLACED,
        EntryKind.CAGED_QUEEN_PLACED,
        EntryKind.RAISING_OWN,
        EntryKind.EMERGED,
        EntryKind.NOT_EMERGED,
        EntryKind.CELL_FAILED,
        EntryKind.RELEASED,
        EntryKind.STILL_CAGED,
        EntryKind.QUEEN_DEAD,
        EntryKind.VIRGIN_SEEN,
        EntryKind.QUEEN_SEEN,
        EntryKind.QUEEN_NOT_SEEN,
        EntryKind.EGGS,
        EntryKind.NO_EGGS,
        EntryKind.SEALED_BROOD,
        EntryKind.DRONE_LAYER,
        EntryKind.LAYING_WORKERS,
        EntryKind.OWN_CELLS,
        EntryKind.BROOD_ADDED,
        EntryKind.QUEEN_TAKEN,
    }
)
"""Kinds that cannot be told without opening the unit."""


def opened(kind: EntryKind) -> bool:
    """Tell whether the unit was opened for such an entry."""
    return kind in OPENED


def without_answered(put_offs: tuple[PutOff, ...], kind: EntryKind) -> tuple[PutOff, ...]:
    """Drop what was put off and is now answered, so that it moves no later check."""
    answered = ANSWERS.get(kind, ())
    return tuple(put_off for put_off in put_offs if put_off.check not in answered)
