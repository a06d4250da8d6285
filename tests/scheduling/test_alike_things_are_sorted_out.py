"""What is alike is reckoned once, and each thing finds its own kind again."""

from hypothesis import given
from hypothesis import strategies as st

from scheduling.alike import Alike


@given(st.lists(st.integers(0, 5)))
def test_each_thing_finds_its_kind_again(things: list[int]) -> None:
    alike = Alike(things)
    assert [alike.kinds[kind] for kind in alike.kind_of_each] == things
    assert len(alike.kinds) == len(set(things))


@given(st.lists(st.integers(0, 5)))
def test_a_kind_is_known_by_the_first_thing_of_it(things: list[int]) -> None:
    alike = Alike(things)
    assert [things[number] for number in alike.first_of_each_kind()] == alike.kinds
    assert [things.index(kind) for kind in alike.kinds] == alike.first_of_each_kind()
