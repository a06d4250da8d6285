"""What was worked out of a thing is given again for an equal one, while it is among the last."""

from scheduling.lately import Lately


def _counting(most: int) -> tuple[Lately[tuple[int, ...], int], list[tuple[int, ...]]]:
    asked: list[tuple[int, ...]] = []

    def total(numbers: tuple[int, ...]) -> int:
        asked.append(numbers)
        return sum(numbers)

    return Lately(total, most), asked


def test_equal_things_are_worked_out_once() -> None:
    totals, asked = _counting(2)
    assert (totals.of((1, 2)), totals.of((1, 2)), totals.of((2, 2))) == (3, 3, 4)
    assert asked == [(1, 2), (2, 2)]


def test_only_the_last_few_are_kept() -> None:
    totals, asked = _counting(2)
    assert [totals.of((number,)) for number in (1, 2, 3, 2, 1)] == [1, 2, 3, 2, 1]
    assert asked == [(1,), (2,), (3,), (1,)]
