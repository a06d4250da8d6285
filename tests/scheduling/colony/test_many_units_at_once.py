"""Arrays for many units reckon to the last digit what is reckoned for one unit by itself."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from scheduling.colony.account import accounted
from scheduling.colony.course import Course, walk
from scheduling.colony.courses import walk_many
from scheduling.colony.forage import ForageWords
from scheduling.colony.larder import Provisions, pantry_of, stored
from scheduling.colony.larders import stored_many
from scheduling.colony.plan import Added, Laying, Plan
from scheduling.colony.stock import Stock
from scheduling.values import Forage, MakeUp
from tests.scheduling.story import FIRST_OF_MAY, may

amounts = st.floats(0, 20_000)
stocks = st.builds(Stock, amounts, amounts, amounts, amounts)
layings = st.lists(
    st.builds(Laying, st.integers(-5, 70), st.none() | st.integers(-5, 70)), max_size=3
).map(tuple)
added = st.lists(st.builds(Added, st.integers(0, 70), stocks), max_size=3).map(tuple)
plans = st.builds(Plan, st.just(may(1)), st.just(MakeUp()), stocks, layings, added)

days = st.integers(-10, 80).map(lambda number: FIRST_OF_MAY + timedelta(days=number))
kilograms = st.floats(0, 8)
provisions = st.builds(
    Provisions,
    days,
    kilograms,
    st.lists(st.tuples(st.integers(81, 160).map(may), kilograms), max_size=3).map(tuple),
)
forage = st.lists(st.tuples(days, st.sampled_from(Forage)), max_size=3).map(
    lambda words: ForageWords(tuple(sorted(words)))
)
kept_in = st.frozensets(days, max_size=4)


def alone(plan: Plan) -> Course:
    return walk(plan.stock, plan.layings, plan.added)


@given(st.lists(plans, max_size=6))
def test_many_units_walk_as_each_does_alone(crew: list[Plan]) -> None:
    assert walk_many(crew).each() == [alone(plan) for plan in crew]


@given(plans, plans)
def test_units_alike_share_one_walk_and_others_keep_theirs(one: Plan, other: Plan) -> None:
    walked = walk_many([one, other, one])
    assert walked.each() == [alone(one), alone(other), alone(one)]
    assert walked.bees.shape[1] == len({one, other})


@given(st.lists(st.tuples(provisions, st.none() | plans, forage, kept_in), max_size=6))
def test_stores_of_many_units_are_those_of_each_alone(
    crew: list[tuple[Provisions, Plan | None, ForageWords, frozenset[date]]],
) -> None:
    known = [plan for _told, plan, _words, _days in crew if plan is not None]
    courses = walk_many(known)
    walks = iter(courses.walks)
    pantries = [
        pantry_of(told, plan.made_up_on if plan is not None else None, said, at)
        for told, plan, said, at in crew
    ]
    left = stored_many(
        pantries,
        courses,
        [next(walks) if plan is not None else None for _told, plan, _said, _at in crew],
    )
    assert left == [
        stored(told, accounted(plan) if plan is not None else None, said, at).kilograms
        for told, plan, said, at in crew
    ]
