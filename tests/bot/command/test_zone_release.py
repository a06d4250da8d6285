"""The release of the time zone database in use is named with its place."""

import subprocess
import sys
import zoneinfo
from importlib.metadata import version
from pathlib import Path
from string import ascii_lowercase

import pytest

from bot.command.status import zone_release


def test_the_package_counts_where_the_system_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(zoneinfo, "TZPATH", ("/nowhere",))

    # The package numbers its releases by year and letter of the database: 2026.2 is 2026b.
    year, nth = version("tzdata").split(".")[:2]
    assert zone_release() == f"{year}{ascii_lowercase[int(nth) - 1]} in the package tzdata"


def test_the_systems_own_goes_first(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(zoneinfo, "TZPATH", ("/nowhere", str(tmp_path)))
    (tmp_path / "UTC").write_bytes(b"TZif")
    assert zone_release() == f"unknown release in {tmp_path}"
    (tmp_path / "+VERSION").write_text("2026b\n")
    assert zone_release() == f"2026b in {tmp_path}"
    (tmp_path / "tzdata.zi").write_text("# version 2026c\n# more\n")
    assert zone_release() == f"2026c in {tmp_path}"


def test_it_is_the_place_that_the_zones_come_from() -> None:
    program = (
        "import sys, zoneinfo\n"
        "zoneinfo.ZoneInfo('America/Chicago')\n"
        "from bot.command.status import zone_release\n"
        "print('tzdata' in sys.modules, zone_release())\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        cwd=Path(__file__).parents[3],
        env={"PYTHONTZPATH": "", "PATH": ""},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.startswith("True ")
    assert done.stdout.strip().endswith("in the package tzdata")
