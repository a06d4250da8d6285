"""A unit that was moved keeps its story under its new name."""

from scheduling.checks.calendar import work_out
from scheduling.checks.work_out_again import work_out_again
from scheduling.entries import standing
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.units.state import Stage
from scheduling.values import CellAge, Moved
from tests.scheduling.story import Story, unit

OLD, NEW, THIRD = unit("4a"), unit("7b"), unit("9", yard="ridge")


def moved(story: Story, number: int, source: Place = OLD, target: Place = NEW) -> Story:
    """Carry a unit from one place to another."""
    story.on(number, EntryKind.MOVED, at=source)
    left = story.entries[-1].uid
    return story.on(number, EntryKind.MOVED, Moved(left), at=target)


def cell_story() -> Story:
    return Story(OLD).on(1, EntryKind.CELL_PLACED, CellAge(days_since_graft=10))


def kinds_at(story: Story, place: Place) -> list[EntryKind]:
    return [entry.kind for entry in standing(story.entries) if entry.place == place]


def test_what_was_noted_before_is_told_of_the_new_place() -> None:
    story = moved(cell_story(), 5)

    assert kinds_at(story, OLD) == []
    assert kinds_at(story, NEW) == [EntryKind.CELL_PLACED, EntryKind.MOVED, EntryKind.MOVED]
    assert story.state(NEW).stage is Stage.CELL
    assert OLD not in story.calendar().units


def test_what_is_noted_afterwards_belongs_to_whatever_stands_there_then() -> None:
    story = moved(cell_story(), 5).on(6, EntryKind.EGGS, at=OLD).on(16, EntryKind.EGGS, at=NEW)

    assert kinds_at(story, OLD) == [EntryKind.EGGS]
    assert kinds_at(story, NEW)[-1] is EntryKind.EGGS
    assert story.state(NEW).stage is Stage.LAYING


def test_a_unit_may_be_moved_on_and_back() -> None:
    on = moved(moved(cell_story(), 5), 8, NEW, THIRD)
    assert kinds_at(on, THIRD)[0] is EntryKind.CELL_PLACED
    assert kinds_at(on, NEW) == []

    back = moved(on, 9, THIRD, OLD)
    assert kinds_at(back, OLD)[0] is EntryKind.CELL_PLACED
    assert kinds_at(back, THIRD) == []


def test_two_units_may_change_places_by_a_third() -> None:
    story = cell_story().on(1, EntryKind.CAGED_QUEEN_PLACED, at=NEW)
    moved(story, 5, OLD, THIRD)
    moved(story, 5, NEW, OLD)
    moved(story, 5, THIRD, NEW)

    assert kinds_at(story, OLD)[0] is EntryKind.CAGED_QUEEN_PLACED
    assert kinds_at(story, NEW)[0] is EntryKind.CELL_PLACED


def test_a_move_that_is_taken_back_never_was() -> None:
    story = moved(cell_story(), 5)
    for entry in story.entries[1:3]:
        story.strike(6, entry.uid)

    assert kinds_at(story, OLD) == [EntryKind.CELL_PLACED]
    assert kinds_at(story, NEW) == []


def test_a_move_whose_beginning_is_not_known_moves_nothing() -> None:
    story = cell_story().on(5, EntryKind.MOVED, Moved("of another log"), at=NEW)

    assert kinds_at(story, OLD) == [EntryKind.CELL_PLACED]


def test_a_calendar_that_is_worked_out_again_sees_the_move() -> None:
    story = cell_story().on(2, EntryKind.CELL_PLACED, at=unit("9"))
    before = work_out_again(None, story.entries)
    moved(story, 5)

    again = work_out_again(before, story.entries).calendar

    assert again.checks == work_out(story.entries).checks
    assert OLD not in again.units
