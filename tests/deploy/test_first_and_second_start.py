"""The newcomer's first command, typed for real in a folder with spaces in its name."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from deploy.environment import ADDED, POSTGRESQL, RUN
from tests.deploy.small_checkout import lay_out, start


@pytest.fixture(scope="module")
def astray(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder to which a careless shell's settings point, with a wrong ``bot`` in it."""
    folder = tmp_path_factory.mktemp("astray")
    (folder / "bot.py").write_text("raise SystemExit('the wrong bot')")
    return folder


@pytest.fixture(scope="module")
def misleading(astray: Path) -> dict[str, str]:
    return {
        "PYTHONPATH": str(astray),
        "VIRTUAL_ENV": str(astray),
        "PIP_REQUIRE_VIRTUALENV": "1",
        "PIP_TARGET": str(astray),
        "PIP_USER": "1",
    }


@pytest.fixture(scope="module")
def river(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay_out(tmp_path_factory.mktemp("yards") / "river yard, box 4")


@pytest.fixture(scope="module")
def first(river: Path, misleading: dict[str, str]) -> subprocess.CompletedProcess[str]:
    return start(river, **misleading)


@pytest.fixture
def settled(first: subprocess.CompletedProcess[str], river: Path) -> Path:
    """The checkout after its first start."""
    return river


def test_the_first_start_sets_up_and_plays_the_demo(
    first: subprocess.CompletedProcess[str], settled: Path
) -> None:
    assert (first.returncode, first.stdout) == (0, "yardbell demo\n")
    assert first.stderr.startswith(f"Setting Yardbell up in {settled / '.venv'}")


def test_a_shell_full_of_python_settings_leads_nothing_astray(
    settled: Path, astray: Path, misleading: dict[str, str]
) -> None:
    assert start(settled, **misleading).stdout == "yardbell demo\n"
    assert [path.name for path in astray.iterdir()] == ["bot.py"]


def test_the_second_start_says_and_makes_nothing_new(settled: Path) -> None:
    before = {path: path.stat().st_mtime_ns for path in (settled / ".venv").iterdir()}
    second = start(settled)
    assert (second.returncode, second.stdout, second.stderr) == (0, "yardbell demo\n", "")
    assert {path: path.stat().st_mtime_ns for path in (settled / ".venv").iterdir()} == before


def test_other_words_go_to_yardbell_as_typed(settled: Path) -> None:
    said = start(settled, "chat", "--as", "Sam of the river yard")
    assert said.stdout == "yardbell chat --as Sam of the river yard\n"
    assert start(settled, "help").stdout == "yardbell --help\n"


def test_the_driver_of_postgresql_is_added_by_a_command(settled: Path) -> None:
    added = start(settled, "postgresql")
    assert (added.returncode, added.stdout) == (0, f"{ADDED}\n")
    stamp = json.loads((settled / ".venv" / "yardbell.stamp").read_text())
    assert {RUN, POSTGRESQL} <= stamp.keys()
    assert start(settled).stdout == "yardbell demo\n"
    assert json.loads((settled / ".venv" / "yardbell.stamp").read_text()) == stamp


def test_help_is_six_lines_and_sets_nothing_up(checkout: Path) -> None:
    said = start(checkout, "--help")
    assert (said.returncode, len(said.stdout.splitlines())) == (0, 6)
    assert not (checkout / ".venv").exists()


def test_two_starts_at_once_clear_a_torn_environment_away_only_once(checkout: Path) -> None:
    (checkout / ".venv").mkdir()
    (checkout / ".venv" / "yardbell.stamp").write_text("unfinished")
    (checkout / ".venv" / "left over").write_text("from the torn one")
    both = [
        subprocess.Popen(
            [sys.executable, "deploy/start.py"],
            cwd=checkout,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for _ in range(2)
    ]
    ends = [each.communicate() for each in both]
    assert [stdout for stdout, _ in ends] == ["yardbell demo\n"] * 2
    assert sum("Setting Yardbell up" in stderr for _, stderr in ends) == 1
    assert not (checkout / ".venv" / "left over").exists()


@pytest.mark.parametrize("script", ["bench.py", "prove.py"])
def test_what_measures_sets_up_what_it_needs_before_it_goes_on(checkout: Path, script: str) -> None:
    command = [
        sys.executable,
        f"deploy/{script}",
        {"bench.py": "replies", "prove.py": "fuzz"}[script],
        "1",
    ]
    said = subprocess.run(command, cwd=checkout, capture_output=True, check=False, text=True)
    assert said.stderr.startswith(f"Setting Yardbell up in {checkout / '.venv'}")
    # Nothing that it measures is in so small a checkout.
    assert "ModuleNotFoundError" in said.stderr
    assert (checkout / ".venv" / "bin" / "yardbell").exists()
