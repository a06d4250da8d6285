"""Mutations fit the code, and what is tried in a scratch copy is told from what is not noticed.

``python3 deploy/prove.py mutations`` tries them all.
"""

from collections import Counter
from pathlib import Path

import pytest

from deploy.proof import mutations
from deploy.proof.mutations import Copy, Mutation, Outcome, all_mutations, unfit

SUBJECTS = frozenset(
    {
        *("delivery", "consent", "signatures", "isolation", "roles", "quiet_hours"),
        *("migrations", "restore", "reading", "dates"),
    }
)


def test_each_changes_a_line_that_stands_there_once_and_names_its_tests() -> None:
    assert list(unfit(all_mutations())) == []


def test_there_are_enough_of_each_subject() -> None:
    found = Counter(each.subject for each in all_mutations())
    assert found.keys() == SUBJECTS
    assert min(found.values()) >= 5
    assert found.total() >= 60


def test_none_is_there_twice_and_all_say_what_goes_wrong() -> None:
    each = [(one.file, one.old, one.new) for one in all_mutations()]
    assert len(set(each)) == len(each)
    assert all(one.what and one.tests for one in all_mutations())


@pytest.mark.parametrize(
    ("file", "old"),
    [
        ("bot/channels/twilio/twilio_notices.py", "self._account.sid"),
        ("bot/delivery/rules.py", "Purpose.INVITE: 0"),
        ("scheduling/records/backup_file.py", "_refuse_damaged(backup)"),
        ("bot/jobs/fallback.py", "owner.stopped"),
    ],
)
def test_what_once_survived_is_among_them(file: str, old: str) -> None:
    assert any(old in each.old for each in all_mutations() if each.file == file)


@pytest.fixture
def copy(tmp_path: Path) -> Copy:
    """A checkout of one function and its test."""
    (tmp_path / "sums.py").write_text("def total(a: int, b: int) -> int:\n    return a + b\n")
    (tmp_path / "pyproject.toml").write_text('[tool.pytest.ini_options]\npythonpath = ["."]\n')
    (tmp_path / "test_sums.py").write_text(
        "from sums import total\n\n\ndef test_total():\n    assert total(2, 2) == 4\n"
    )
    return Copy(tmp_path)


def changed(new: str, test: str = "test_sums.py") -> Mutation:
    return Mutation("sums", "it is wrong", "sums.py", "return a + b", new, (test,))


@pytest.mark.parametrize(
    ("new", "outcome"),
    [
        ("return a - b", Outcome.CAUGHT),
        ("return a * b", Outcome.SURVIVED),
        ("return (", Outcome.BROKEN),
    ],
)
def test_a_failing_test_notices_and_a_passing_one_does_not(
    copy: Copy, new: str, outcome: Outcome
) -> None:
    before = (copy.folder / "sums.py").read_text()
    assert copy.tried(changed(new)) is outcome
    assert (copy.folder / "sums.py").read_text() == before
    assert copy.outcome(["test_sums.py"]) is Outcome.SURVIVED


def test_tests_that_hang_are_ended(copy: Copy, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(mutations, "LIMIT_SECONDS", 3)
    hangs = changed("import time; time.sleep(60)")
    assert copy.tried(hangs) is Outcome.TOO_LONG


@pytest.mark.parametrize(
    "wrong",
    [
        Mutation("sums", "", "sums.py", "return a - b", "return b", ("test_sums.py",)),
        Mutation("sums", "", "sums.py", "int", "float", ("test_sums.py",)),
        Mutation("sums", "", "other.py", "return a + b", "return b", ("test_sums.py",)),
        Mutation("sums", "", "sums.py", "return a + b", "return a + b", ("test_sums.py",)),
        Mutation("sums", "", "sums.py", "return a + b", "return a\n", ("test_sums.py",)),
        changed("return a - b", "test_others.py"),
    ],
)
def test_one_that_does_not_fit_is_named(copy: Copy, wrong: Mutation) -> None:
    assert len(list(unfit([wrong], copy.folder))) == 1
    assert list(unfit([changed("return a - b")], copy.folder)) == []
