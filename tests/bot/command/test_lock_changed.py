"""After an update with other packages the command says what to do, and no missing module does."""

import sys
from pathlib import Path

import pytest

from bot.command import group
from deploy import environment
from deploy.environment import RUN, UNFINISHED, Checkout
from tests.bot.command.conftest import Yardbell


@pytest.fixture
def updated(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Checkout:
    """A checkout whose environment, in which the command runs, is as the lock says."""
    place = Checkout(tmp_path / "yardbell")
    (place.root / "deploy").mkdir(parents=True)
    (place.root / RUN).write_text("smallhive==1.0\n")
    (place.root / "pyproject.toml").write_text("# a project\n")
    place.venv.mkdir()
    place.write_stamp(RUN)
    monkeypatch.setattr(sys, "prefix", str(place.venv))
    return place


def test_both_halves_mean_the_same_files() -> None:
    place = Checkout()
    assert (place.root / group.LOCK, group.UNFINISHED) == (place.root / RUN, UNFINISHED)
    assert place.venv / group.STAMP == place.stamp


def test_with_the_lock_it_was_made_from_it_runs(updated: Checkout, yardbell: Yardbell) -> None:
    assert yardbell.good("read", "4b eggs")


def test_a_lock_that_changed_is_said_in_one_line(updated: Checkout, yardbell: Yardbell) -> None:
    (updated.root / RUN).write_text("smallhive==1.0\nlargehive==1.0\n")
    said = yardbell("serve").complaint
    assert said.startswith(f"{updated.venv} does not hold the packages of {RUN}; ")
    assert said.endswith(f"run: python3 {updated.root}/deploy/start.py help")
    assert "Commands:" in yardbell.good("--help")


def test_a_set_up_that_was_cut_short_is_said_too(updated: Checkout, yardbell: Yardbell) -> None:
    updated.stamp.write_text(UNFINISHED)
    assert "does not hold the packages" in yardbell("serve").complaint


@pytest.mark.parametrize("gone", ["stamp", "lock"])
def test_an_environment_of_somebodys_own_is_not_looked_into(
    updated: Checkout, yardbell: Yardbell, gone: str
) -> None:
    (updated.root / RUN).write_text("largehive==1.0\n")
    (updated.stamp if gone == "stamp" else updated.root / RUN).unlink()
    assert yardbell.good("read", "4b eggs")


def test_a_new_set_up_mends_it(updated: Checkout, yardbell: Yardbell) -> None:
    (updated.root / RUN).write_text("largehive==1.0\n")
    assert not environment.is_ready(updated, RUN)
    updated.write_stamp(RUN)
    assert yardbell.good("read", "4b eggs")
