"""When an environment is used as it stands, renewed in place, or made anew."""

from pathlib import Path

import pytest

from deploy import environment
from deploy.environment import (
    POSTGRESQL,
    PYTHON,
    RUN,
    TEST,
    UNFINISHED,
    Checkout,
    is_ready,
    make_ready,
    must_be_remade,
)


@pytest.fixture
def whole(checkout: Path) -> Checkout:
    """A checkout with the outer marks of an environment finished for running."""
    place = Checkout(checkout)
    place.program("python").parent.mkdir(parents=True)
    place.program("python").touch()
    (place.venv / "pyvenv.cfg").write_text(f"home = /usr/bin\nversion = {PYTHON}.7\n")
    place.write_stamp(RUN)
    return place


def test_a_whole_environment_serves_running_and_not_yet_testing(whole: Checkout) -> None:
    assert is_ready(whole, RUN)
    (whole.root / TEST).write_text("# more than what runs\n")
    assert not is_ready(whole, TEST)
    assert not must_be_remade(whole)


def test_an_environment_for_tests_serves_running_too(whole: Checkout) -> None:
    (whole.root / TEST).write_text("# more than what runs\n")
    whole.write_stamp(RUN, TEST)
    assert is_ready(whole, RUN)
    assert is_ready(whole, TEST)


def test_the_driver_of_postgresql_is_kept_when_it_is_renewed(
    whole: Checkout, monkeypatch: pytest.MonkeyPatch
) -> None:
    (whole.root / POSTGRESQL).write_text("# what runs, and the driver\n")
    whole.write_stamp(RUN, POSTGRESQL)
    installed: list[str] = []
    monkeypatch.setattr(environment, "install", lambda _checkout, lock: installed.append(lock))
    for lock in (RUN, POSTGRESQL):
        with (whole.root / lock).open("a") as file:
            file.write("# newer\n")
    assert make_ready(whole, RUN) == 0
    assert installed == [POSTGRESQL]
    assert is_ready(whole, RUN)
    assert is_ready(whole, POSTGRESQL)


@pytest.mark.parametrize("changed", ["deploy/requirements.lock", "pyproject.toml"])
def test_a_changed_lock_or_project_renews_it_in_place(whole: Checkout, changed: str) -> None:
    with (whole.root / changed).open("a") as file:
        file.write("# changed\n")
    assert not is_ready(whole, RUN)
    assert not must_be_remade(whole)


@pytest.mark.parametrize("text", ["unfinished", "", "{", "[]", '{"root": "/"}'])
def test_a_torn_or_garbled_one_is_made_anew(whole: Checkout, text: str) -> None:
    whole.stamp.write_text(text)
    assert not is_ready(whole, RUN)
    assert must_be_remade(whole)


def test_one_that_was_only_begun_is_made_anew(checkout: Path) -> None:
    (checkout / ".venv").mkdir()
    Checkout(checkout).stamp.write_text(UNFINISHED)
    assert must_be_remade(Checkout(checkout))


@pytest.mark.parametrize("line", ["version = 3.9.18", "version_info = 3.9.18", ""])
def test_one_of_another_python_is_made_anew(whole: Checkout, line: str) -> None:
    (whole.venv / "pyvenv.cfg").write_text(f"home = /usr/bin\n{line}\n")
    assert must_be_remade(whole)


def test_one_whose_python_is_gone_is_made_anew(whole: Checkout) -> None:
    whole.program("python").unlink()
    whole.program("python").symlink_to("/nowhere/python3")
    assert must_be_remade(whole)


def test_one_that_was_moved_is_made_anew(whole: Checkout, tmp_path: Path) -> None:
    moved = Checkout(whole.root.rename(tmp_path / "moved"))
    assert not is_ready(moved, RUN)
    assert must_be_remade(moved)


def test_one_made_by_hand_is_kept_and_filled(whole: Checkout) -> None:
    whole.stamp.unlink()
    assert not is_ready(whole, RUN)
    assert not must_be_remade(whole)
