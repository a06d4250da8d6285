"""The collected replies: at least 98 in 100 are read right, and none is recorded wrong."""

from pathlib import Path

import pytest

from bot.reading.reader import read
from tests.bot.reading.corpus import Example, Fact, examples, expected, said

HERE = Path(__file__).parent
COLLECTIONS = (
    "replies.toml",
    "unseen_replies.toml",
    "later_replies.toml",
    "blind_replies.toml",
    "second_blind_replies.toml",
    "third_blind_replies.toml",
    "forage_replies.toml",
)
LEAST_SHARE = 0.98


def entries(facts: set[Fact]) -> set[Fact]:
    return {fact for fact in facts if fact[0] == "entry"}


def read_facts(example: Example) -> set[Fact]:
    return said(read(example.say, example.situation))


@pytest.mark.parametrize("name", COLLECTIONS)
def test_nearly_every_reply_is_read_as_it_was_meant(name: str) -> None:
    book = list(examples(HERE / name))
    wrong = [example.say for example in book if read_facts(example) != expected(example)]
    share = 1 - len(wrong) / len(book)
    print(f"{name}: {len(book) - len(wrong)} of {len(book)} read right ({share:.1%})")  # noqa: T201
    assert share >= LEAST_SHARE, wrong


@pytest.mark.parametrize("name", COLLECTIONS)
def test_no_reply_is_recorded_wrong(name: str) -> None:
    recorded_wrong = {
        example.say: entries(read_facts(example)) - entries(expected(example))
        for example in examples(HERE / name)
    }
    assert {say: wrong for say, wrong in recorded_wrong.items() if wrong} == {}


def test_the_collection_is_large_and_tries_every_kind_of_finding() -> None:
    book = [example for name in COLLECTIONS for example in examples(HERE / name)]
    kinds = {fact[3] for example in book for fact in entries(expected(example))}
    assert len({example.say for example in book}) >= 600
    assert len(kinds) >= 34
