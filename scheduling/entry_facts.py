"""The record of each kind of entry."""

from collections.abc import Callable
from functools import partial

from scheduling import values
from scheduling.check_kinds import ABOUT_THE_QUEEN, CheckKind
from scheduling.entry_kinds import EntryFacts, EntryKind, FoodNews, Noun, QueenNews, Scope, Subject

_EMERGENCE = frozenset({CheckKind.EMERGENCE})
_RELEASE = frozenset({CheckKind.RELEASE})
_LAYING = frozenset({CheckKind.LAYING})
_FOR_EGGS = frozenset({CheckKind.EMERGENCE, CheckKind.LAYING, CheckKind.GIVE_UP})
_FEED = frozenset({CheckKind.FEED})
_TRAP = frozenset({CheckKind.TRAP})
_BOOST = frozenset({CheckKind.BOOST})
_ALIVE = frozenset(
    {
        EntryKind.EGGS,
        EntryKind.QUEEN_SEEN,
        EntryKind.VIRGIN_SEEN,
        EntryKind.RELEASED,
        EntryKind.NOT_EMERGED,
        EntryKind.FED,
        EntryKind.SEALED_BROOD,
    }
)
"""What nobody sees or does in a unit that is dead or gone."""

_looked = partial(EntryFacts, opened=True, subject=Subject.QUEEN)
"""What is seen of a queen, or done to her, in a unit that was opened for it."""

_placed = partial(
    EntryFacts,
    answers=ABOUT_THE_QUEEN,
    opened=True,
    starts=True,
    subject=Subject.PLACED,
    queen=QueenNews.ANOTHER,
)
"""Another queen, or her cell, put into a unit."""

ENTRY_FACTS: dict[EntryKind, EntryFacts] = {
    EntryKind.MADE_UP: EntryFacts(
        values.MakeUp,
        opened=True,
        starts=True,
        food=FoodNews.SEEN,
        nouns=Noun.BEES,
        takes_details=True,
    ),
    EntryKind.GRAFTED: EntryFacts(values.Graft, starts=True, scope=Scope.BATCH),
    EntryKind.CELL_PLACED: _placed(
        values.CellAge,
        bears_on_others=True,  # It may be the last of its batch.
        nouns=Noun.CELL,
        takes_details=True,
    ),
    EntryKind.VIRGIN_PLACED: _placed(values.VirginAge, takes_details=True),
    EntryKind.CAGED_QUEEN_PLACED: _placed(nouns=Noun.QUEEN),
    EntryKind.RAISING_OWN: EntryFacts(
        answers=ABOUT_THE_QUEEN, opened=True, starts=True, queen=QueenNews.ANOTHER
    ),
    EntryKind.EMERGED: _looked(
        answers=_EMERGENCE,
        queen=QueenNews.OUT,
        nouns=Noun.CELL | Noun.QUEEN,
        opposite=EntryKind.NOT_EMERGED,
        contradicts=frozenset({EntryKind.NOT_EMERGED, EntryKind.CELL_FAILED}),
        looked_for_at=_EMERGENCE,
    ),
    EntryKind.NOT_EMERGED: _looked(
        answers=_EMERGENCE,
        queen=QueenNews.SEALED,
        nouns=Noun.CELL,
        contradicts=frozenset({EntryKind.CELL_FAILED, EntryKind.EGGS}),
        looked_for_at=_EMERGENCE,
    ),
    EntryKind.CELL_FAILED: _looked(
        answers=ABOUT_THE_QUEEN,
        queen=QueenNews.CELL_LOST,
        nouns=Noun.CELL,
        looked_for_at=_EMERGENCE,
    ),
    EntryKind.RELEASED: _looked(
        answers=_RELEASE,
        nouns=Noun.QUEEN,
        opposite=EntryKind.STILL_CAGED,
        contradicts=frozenset({EntryKind.STILL_CAGED}),
        looked_for_at=_RELEASE,
    ),
    EntryKind.STILL_CAGED: _looked(
        answers=_RELEASE,
        nouns=Noun.QUEEN,
        contradicts=frozenset({EntryKind.EGGS}),
        looked_for_at=_RELEASE,
    ),
    EntryKind.QUEEN_DEAD: _looked(
        answers=ABOUT_THE_QUEEN,
        queen=QueenNews.LOST,
        nouns=Noun.QUEEN,
        contradicts=frozenset({EntryKind.QUEEN_SEEN, EntryKind.VIRGIN_SEEN}),
    ),
    EntryKind.VIRGIN_SEEN: _looked(
        answers=_FOR_EGGS,
        queen=QueenNews.VIRGIN,
        opposite=EntryKind.QUEEN_NOT_SEEN,
        contradicts=frozenset({EntryKind.QUEEN_NOT_SEEN, EntryKind.EGGS, EntryKind.NOT_EMERGED}),
    ),
    EntryKind.QUEEN_SEEN: _looked(
        answers=_FOR_EGGS,
        queen=QueenNews.SEEN,
        opposite=EntryKind.QUEEN_NOT_SEEN,
        contradicts=frozenset({EntryKind.QUEEN_NOT_SEEN}),
    ),
    EntryKind.QUEEN_NOT_SEEN: _looked(queen=QueenNews.NOT_SEEN),
    EntryKind.EGGS: _looked(
        answers=_FOR_EGGS,
        queen=QueenNews.LAYS,
        opposite=EntryKind.NO_EGGS,
        contradicts=frozenset({EntryKind.NO_EGGS}),
        looked_for_at=_LAYING,
    ),
    EntryKind.NO_EGGS: _looked(
        answers=_FOR_EGGS,
        queen=QueenNews.NO_EGGS,
        contradicts=frozenset({EntryKind.DRONE_LAYER, EntryKind.LAYING_WORKERS}),
        looked_for_at=_LAYING,
    ),
    EntryKind.SEALED_BROOD: _looked(
        values.Brood,
        answers=_FOR_EGGS | {CheckKind.SEALED_BROOD},
        queen=QueenNews.LAYS,
        looked_for_at=frozenset({CheckKind.SEALED_BROOD}),
    ),
    EntryKind.DRONE_LAYER: _looked(answers=ABOUT_THE_QUEEN, queen=QueenNews.LOST, nouns=Noun.QUEEN),
    EntryKind.LAYING_WORKERS: _looked(answers=ABOUT_THE_QUEEN, queen=QueenNews.LOST),
    EntryKind.OWN_CELLS: _looked(nouns=Noun.CELL),
    EntryKind.FED: EntryFacts(
        values.Feed,
        answers=_FEED,
        subject=Subject.FOOD,
        food=FoodNews.GIVEN,
        whole_yard=True,
        takes_details=True,
    ),
    EntryKind.STORES: EntryFacts(
        values.Stores,
        value_needed=True,
        answers=_FEED,
        subject=Subject.FOOD,
        food=FoodNews.SEEN,
    ),
    EntryKind.TRAP_SET: EntryFacts(answers=_TRAP, subject=Subject.TRAP, whole_yard=True),
    EntryKind.TRAP_SERVICED: EntryFacts(
        values.TrapCount, answers=_TRAP, subject=Subject.TRAP, whole_yard=True, takes_details=True
    ),
    EntryKind.BROOD_ADDED: EntryFacts(
        answers=_BOOST, opened=True, subject=Subject.BOOST, takes_details=True
    ),
    EntryKind.BEES_ADDED: EntryFacts(answers=_BOOST, subject=Subject.BOOST, takes_details=True),
    EntryKind.QUEEN_TAKEN: _looked(
        values.Taken,
        answers=ABOUT_THE_QUEEN,
        queen=QueenNews.LOST,
        nouns=Noun.QUEEN,
        takes_details=True,
    ),
    EntryKind.ROBBED: EntryFacts(
        subject=Subject.MISFORTUNE, food=FoodNews.UNKNOWN, nouns=Noun.BEES
    ),
    EntryKind.ABSCONDED: EntryFacts(
        subject=Subject.MISFORTUNE,
        queen=QueenNews.UNIT_ENDED,
        food=FoodNews.UNKNOWN,
        nouns=Noun.BEES,
        contradicts=_ALIVE,
    ),
    EntryKind.DEAD: EntryFacts(
        subject=Subject.MISFORTUNE,
        queen=QueenNews.UNIT_ENDED,
        food=FoodNews.UNKNOWN,
        nouns=Noun.BEES,
        contradicts=_ALIVE | {EntryKind.ABSCONDED},
    ),
    EntryKind.COMBINED: EntryFacts(subject=Subject.MISFORTUNE, queen=QueenNews.UNIT_ENDED),
    EntryKind.EMPTIED: EntryFacts(
        opened=True,
        subject=Subject.MISFORTUNE,
        queen=QueenNews.UNIT_ENDED,
        food=FoodNews.UNKNOWN,
        nouns=Noun.BEES,
    ),
    EntryKind.WEATHER_SEEN: EntryFacts(
        values.DayWeather, value_needed=True, scope=Scope.YARD, bears_on_others=True
    ),
    EntryKind.FORAGE_SEEN: EntryFacts(
        values.YardForage,
        value_needed=True,
        scope=Scope.YARD,
        every_unit=True,
        bears_on_others=True,
    ),
    EntryKind.PUT_OFF: EntryFacts(
        values.PutOff,
        value_needed=True,
        scope=Scope.UNIT_OR_YARD,
        every_unit=True,
        bears_on_others=True,
        takes_details=True,
    ),
    EntryKind.YARD_TAKEN: EntryFacts(scope=Scope.YARD),
    EntryKind.NOTE: EntryFacts(scope=Scope.UNIT_OR_YARD),
    EntryKind.MOVED: EntryFacts(values.Moved, bears_on_others=True),
    EntryKind.STRIKE: EntryFacts(
        values.Struck, value_needed=True, scope=Scope.ENTRY, bears_on_others=True
    ),
}


def entry_kinds(fit: Callable[[EntryFacts], bool]) -> frozenset[EntryKind]:
    """Give the kinds whose facts fit."""
    return frozenset(kind for kind, facts in ENTRY_FACTS.items() if fit(facts))
