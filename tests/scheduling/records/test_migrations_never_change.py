"""A migration that was once on main stays as it is: databases were made by it.

``migrations.sha256`` records each; a line is only ever added, when a new migration is:
``cd scheduling/records/migrations && sha256sum versions/NAME.py`` writes it.
"""

import hashlib
from pathlib import Path

import pytest

from scheduling.records.migrate import MIGRATIONS

RECORD = Path(__file__).with_name("migrations.sha256")


def recorded() -> dict[str, str]:
    """The digest of each file that stands in the record."""
    lines = RECORD.read_text(encoding="utf-8").splitlines()
    return {name: digest for digest, name in (line.split("  ") for line in lines)}


def digests(folder: Path) -> dict[str, str]:
    """The digest of each file that makes or changes tables."""
    return {
        file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()
        for part in ("baseline", "versions")
        for file in folder.glob(f"{part}/*.py")
    }


def faults(record: dict[str, str], found: dict[str, str]) -> dict[str, str]:
    """What is wrong with each migration that is not as recorded, by its file."""
    gone = dict.fromkeys(record.keys() - found.keys(), "gone or renamed")
    new = dict.fromkeys(found.keys() - record.keys(), "not recorded")
    both = record.keys() & found.keys()
    return gone | new | {name: "changed" for name in both if record[name] != found[name]}


def test_each_migration_is_as_it_was_recorded() -> None:
    assert len(recorded()) >= 4
    assert faults(recorded(), digests(MIGRATIONS)) == {}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder of two migrations."""
    for name in ("baseline/bees.py", "versions/0001_bees.py"):
        (tmp_path / name).parent.mkdir()
        (tmp_path / name).write_text("revision = '0001_bees'\n")
    return tmp_path


def test_one_that_changed_is_found(folder: Path) -> None:
    before = digests(folder)
    (folder / "baseline" / "bees.py").write_text("revision = '0001_bees' \n")
    assert faults(before, digests(folder)) == {"baseline/bees.py": "changed"}


def test_one_that_moved_is_found_under_both_names(folder: Path) -> None:
    before = digests(folder)
    (folder / "versions" / "0001_bees.py").rename(folder / "versions" / "0002_bees.py")
    assert faults(before, digests(folder)) == {
        "versions/0001_bees.py": "gone or renamed",
        "versions/0002_bees.py": "not recorded",
    }
