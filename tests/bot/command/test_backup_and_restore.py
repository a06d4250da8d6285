"""A backup of either kind of database goes into either kind, whole or not at all."""

import shutil
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from pathlib import Path
from threading import Event

import pytest
from sqlalchemy import Engine, func, insert, select, text
from sqlalchemy.exc import DBAPIError

import bot.all_tables  # noqa: F401 - all of them are copied
from bot.channels.channel import IncomingMessage
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from bot.delivery.message_tables import InboxRow, OutboxRow
from scheduling.records import backup_file as restoring
from scheduling.records.backup_file import back_up, opened_backup
from scheduling.records.engine import open_engine, reading, writing
from scheduling.records.migrate import current_version, migrate, newest_version
from scheduling.records.tables import Base, EntryRow
from tests.bot.command.conftest import Yardbell
from tests.scheduling.records.databases_of_the_chain import load_end_of_chain
from tests.scheduling.records.old_rows import OLD_ROWS

NOW = datetime(2027, 5, 12, 12, tzinfo=UTC)


def everything(engine: Engine) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table, as the program reads it."""
    tables = {table.name: select(table) for table in Base.metadata.sorted_tables}
    with reading(engine) as session:
        return {
            name: sorted((tuple(row) for row in session.execute(rows)), key=str)
            for name, rows in tables.items()
        }


def fill(engine: Engine) -> None:
    """A row or two in every table."""
    migrate(engine)
    with engine.begin() as connection:
        for table in Base.metadata.sorted_tables:
            for row in OLD_ROWS[table.name]:
                connection.execute(insert(table), [row])


def say(engine: Engine, what: str, key: str, who: str = "Ada") -> None:
    Intake(engine, MessageHandler()).receive(
        IncomingMessage("phone", who, key, what, NOW, who), NOW
    )


@pytest.fixture
def season(engine: Engine, tmp_path: Path) -> Engine:
    """A row in every table, put back from a backup, and a crew of Ada's set up by chat since."""
    before = opened_backup(tmp_path / "before")
    fill(before)
    # The file is still in use, and its last writes stand beside it.
    restoring.restore(engine, tmp_path / "before", NOW)
    assert everything(engine) == everything(before)
    before.dispose()
    for number, what in enumerate(("new yard Hill", "boxes 1-3 of 3", "10 day cells in 1a-2c")):
        say(engine, what, f"a{number}")
    return engine


@pytest.fixture
def target(blank: str) -> Iterator[Engine]:
    engine = open_engine(blank)
    yield engine
    engine.dispose()


def test_a_backup_of_either_goes_into_either(
    yardbell: Yardbell, season: Engine, database: str, blank: str, target: Engine
) -> None:
    file = yardbell.folder / "backup of bees"

    assert "backup written" in yardbell.good("--database", database, "backup", str(file))
    said = yardbell.good("--database", blank, "restore", str(file))

    assert "2 crews, 3 people, 2 yards, 11 units, 8 entries" in said
    assert said.count("\n") == 1
    assert everything(target) == everything(season)
    say(target, "1a eggs", "after")
    with reading(target) as session:
        assert session.scalar(select(func.count()).select_from(EntryRow)) == 9


def test_a_backup_is_of_one_moment_while_somebody_writes(engine: Engine, tmp_path: Path) -> None:
    say(engine, "new yard Hill", "yard")
    say(engine, "boxes 1-3 of 3", "boxes")
    stop = Event()

    def write() -> int:
        count = 0
        while not stop.is_set():
            say(engine, "1ab fed 1 quart", f"m{count}")
            count += 1
        return count

    with ThreadPoolExecutor(1) as writer:
        written = writer.submit(write)
        sizes = []
        try:
            for number in range(6):
                back_up(engine, tmp_path / f"{number}.backup")
                sizes.append(reported(tmp_path / f"{number}.backup"))
        finally:
            stop.set()

    assert sizes == sorted(sizes)
    assert written.result() >= sizes[-1] > 0


def reported(file: Path) -> int:
    """How many messages a backup holds, after seeing that each has its entries and its answer."""
    backup = opened_backup(file)
    with reading(backup) as session:
        done = select(func.count()).where(InboxRow.state == "done", InboxRow.message_id.like("m%"))
        messages = session.scalar(done) or 0
        assert session.scalar(select(func.count()).select_from(EntryRow)) == 2 * messages
        answers = select(func.count()).where(OutboxRow.key.like("answer:phone:m%"))
        assert session.scalar(answers) == messages
    backup.dispose()
    return messages


def test_a_backup_is_one_file_for_its_owner_only(season: Engine, tmp_path: Path) -> None:
    folder = tmp_path / "backups"
    folder.mkdir()

    back_up(season, folder / "bees")
    back_up(season, folder / "bees")

    assert [file.name for file in folder.iterdir()] == ["bees"]
    assert (folder / "bees").stat().st_mode & 0o777 == 0o600


def test_only_an_earlier_backup_is_written_over(
    yardbell: Yardbell, season: Engine, database: str
) -> None:
    notes = yardbell.folder / "notes.txt"
    notes.write_text("queens sold: 12")

    assert "something else" in yardbell("--database", database, "backup", str(notes)).complaint
    assert notes.read_text() == "queens sold: 12"
    nowhere = str(yardbell.folder / "nowhere" / "bees")
    assert "cannot be written" in yardbell("--database", database, "backup", nowhere).complaint


def test_the_database_is_not_written_over_by_its_own_backup(river: Yardbell) -> None:
    assert "the database itself" in river("backup", str(river.database)).complaint


def test_a_database_that_is_not_empty_is_left_alone(
    yardbell: Yardbell, season: Engine, database: str, target: Engine, blank: str
) -> None:
    migrate(target)
    say(target, "begin", "b", who="Noor")
    before, file = everything(target), yardbell.folder / "backup"
    back_up(season, file)

    assert "not empty" in yardbell("--database", blank, "restore", str(file)).complaint
    assert everything(target) == before

    yardbell.good("--database", blank, "restore", "--replace", str(file))
    assert everything(target) == everything(season)
    with pytest.raises(DBAPIError, match="never changed or deleted"), writing(target) as session:
        session.execute(text("DELETE FROM entry"))


def test_a_restore_that_breaks_off_changes_nothing(
    season: Engine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    back_up(season, tmp_path / "backup")
    say(season, "1a eggs", "later")
    before = everything(season)

    def break_off(*_: object) -> None:
        raise OSError("the disk is full")

    monkeypatch.setattr(restoring, "check_references", break_off)
    with pytest.raises(OSError, match="full"):
        restoring.restore(season, tmp_path / "backup", NOW, replace=True)

    assert everything(season) == before


def test_what_is_no_backup_is_refused(yardbell: Yardbell, target: Engine, blank: str) -> None:
    notes, missing = yardbell.folder / "notes.txt", yardbell.folder / "missing"
    notes.write_text("queens sold: 12")
    other = yardbell.folder / "other.sqlite"
    with opened_backup(other).begin() as connection:
        connection.execute(text("CREATE TABLE hive (id INTEGER)"))

    for file in (notes, other):
        assert "no backup" in yardbell("--database", blank, "restore", str(file)).complaint
    assert "cannot be read" in yardbell("--database", blank, "restore", str(missing)).complaint


def test_a_damaged_backup_is_refused(river: Yardbell, target: Engine, blank: str) -> None:
    file = river.folder / "backup"
    river.good("backup", str(file))
    pages = bytearray(file.read_bytes())
    pages[4096 * 4 : 4096 * 12] = b"\xff" * (4096 * 8)
    file.write_bytes(pages)

    assert "nothing restored" in river("--database", blank, "restore", str(file)).complaint


def test_a_backup_of_a_later_release_is_refused(
    river: Yardbell, target: Engine, blank: str
) -> None:
    file = river.folder / "backup"
    river.good("backup", str(file))
    later = opened_backup(file)
    with later.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999_later'"))
    later.dispose()

    assert "later release" in river("--database", blank, "restore", str(file)).complaint


def test_a_backup_from_before_the_baseline_is_refused_and_told_what_to_do(
    river: Yardbell, blank: str
) -> None:
    file = river.folder / "backup"
    river.good("backup", str(file))
    earlier = opened_backup(file)
    with earlier.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '0007_heartbeats'"))
    earlier.dispose()

    said = river("--database", blank, "restore", str(file)).complaint
    assert "start Yardbell 0.1.0 on it once" in said


def test_a_backup_of_an_earlier_release_becomes_one_of_this(
    yardbell: Yardbell, target: Engine, blank: str, tmp_path: Path
) -> None:
    file = tmp_path / "old"
    old = opened_backup(file)
    load_end_of_chain(old)
    old.dispose()
    untouched = shutil.copy(file, tmp_path / "untouched")

    yardbell.good("--database", blank, "restore", str(file))

    assert current_version(target) == newest_version()
    assert file.read_bytes() == Path(untouched).read_bytes()
