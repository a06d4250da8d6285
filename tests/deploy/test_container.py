"""The container file: its steps run, without a builder, on a checkout that needs no network."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from bot.settings.load import setting_names
from deploy.environment import POSTGRESQL, RUN
from deploy.standins.containerfile import USER, Image, follow

ROOT = Path(__file__).resolve().parents[2]
CONTAINERFILE = ROOT / "deploy" / "Containerfile"
COMPOSE = (ROOT / "deploy" / "compose.yml").read_text()


@pytest.fixture
def image(checkout: Path, tmp_path: Path) -> Image:
    (tmp_path / "image").mkdir()
    return follow(CONTAINERFILE, checkout, tmp_path / "image")


def test_the_steps_make_what_the_entrypoint_starts(image: Image) -> None:
    stamp = (image.root / "opt" / "yardbell" / ".venv" / "yardbell.stamp").read_text()
    done = subprocess.run(
        [*image.entrypoint, *image.command], capture_output=True, check=True, text=True
    )

    assert RUN in stamp
    assert POSTGRESQL in stamp
    assert done.stdout == "yardbell serve\n"


def test_only_the_program_comes_in(image: Image) -> None:
    brought = {path.name for path in (image.root / "opt" / "yardbell").iterdir()}

    assert {"bot", "deploy", "pyproject.toml"} <= brought
    assert brought.isdisjoint({".git", ".ci", ".env", "tests"})


def test_who_runs_in_it_is_nobody_and_owns_the_volume_alone(image: Image) -> None:
    volume = image.root / "data"

    assert image.user == f"{USER}:{USER}"
    assert image.volumes == ["/data"]
    assert volume.stat().st_mode & 0o777 == 0o700
    assert image.environment["YARDBELL_DATABASE"] == f"sqlite:///{volume}/yardbell.sqlite"


def test_the_health_check_asks_the_page_that_is_on(image: Image) -> None:
    port = image.environment["YARDBELL_PAGES"]
    asked = [sys.executable, *image.health[1:]]

    assert f"http://127.0.0.1:{port}/health" in image.health[-1]
    assert subprocess.run(asked, capture_output=True, check=False).returncode == 1


def test_the_settings_of_both_files_are_settings() -> None:
    named = re.findall(r"\bYARDBELL_\w+", CONTAINERFILE.read_text() + COMPOSE)

    assert len(named) >= 4
    assert set(named) <= set(setting_names())


@pytest.mark.parametrize(
    "line",
    [
        "replicas: 2",
        "read_only: true",
        "tmpfs: /tmp",
        "cap_drop: [ALL]",
        'security_opt: ["no-new-privileges:true"]',
        "condition: service_healthy",
        "dockerfile: deploy/Containerfile",
        "- data:/data",
    ],
)
def test_two_workers_run_with_nothing_they_do_not_need(line: str) -> None:
    worker = COMPOSE.partition("\n  worker:\n")[2].partition("\nvolumes:\n")[0]

    assert [each.strip() for each in worker.splitlines()].count(line) == 1
