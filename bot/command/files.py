"""The log as a CSV file: import and export."""

import io
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

import click
from sqlalchemy.orm import Session

from bot.command.call import Call, InputError
from bot.command.machine_clock import own_zone
from bot.command.options import crew_option, pass_call
from bot.command.screen import show
from bot.command.whose import everybody, nobody_yet, person_asked
from scheduling.entries import Entry
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.crews import hold_crew
from scheduling.records.csv_file import BadRowsError, read_file, write_entries, write_file
from scheduling.records.engine import reading, writing
from scheduling.records.imports import ImportReport, import_entries
from scheduling.records.people import Person

for_option = click.option("--for", "name", metavar="NAME", help="Whose crew, if there are several.")

_FAULTS_SHOWN = 5
"""Bad rows named at a time; who mends those tries again."""


@click.command("import")
@click.argument("file", metavar="FILE.csv", type=click.Path(path_type=Path, dir_okay=False))
@for_option
@crew_option
@pass_call
def import_command(call: Call, file: Path, name: str | None, crew: int | None) -> None:
    """Add the entries of FILE.csv to the log; all of them, or none if a row is bad.

    Columns: on, yard, unit, kind, value, person, note. Yards, units and people that are not
    there yet are made. Importing a file twice adds nothing the second time.
    """
    now = datetime.now(UTC)
    entries = _read(file, now)
    with writing(call.engine()) as session:
        try:
            owner = _owner(session, (name, crew), entries, now)
            hold_crew(session, owner.crew_id)
            report = import_entries(CrewRecords(session, owner.crew_id), entries, now)
        except (LookupError, ValueError) as error:
            raise InputError(f"{file}: {error}; nothing imported") from None
    show(_report(report))


@click.command("export")
@click.argument("file", metavar="FILE.csv", type=click.Path(path_type=Path, allow_dash=True))
@for_option
@crew_option
@pass_call
def export_command(call: Call, file: Path, name: str | None, crew: int | None) -> None:
    """Write the whole log, strikes included, to FILE.csv (- for the terminal)."""
    engine = call.engine_to_look()
    if engine is None:
        raise nobody_yet(call)
    with reading(engine) as session:
        person = person_asked(session, name, crew)
        entries = CrewRecords(session, person.crew_id).entries()
    if str(file) == "-":
        click.echo(_table(entries), nl=False)
        return
    try:
        write_file(entries, file)
    except OSError as error:
        raise InputError(f"{file} cannot be written: {error.strerror}") from None
    show(f"{len(entries)} entries written to {file}")


def _table(entries: Sequence[Entry]) -> bytes:
    """The table as bytes, since the terminal's own letters and line ends may be others."""
    text = io.StringIO(newline="")
    write_entries(entries, text)
    return text.getvalue().encode()


def _read(file: Path, now: datetime) -> list[Entry]:
    try:
        return read_file(file, now)
    except OSError as error:
        raise InputError(f"{file} cannot be read: {error.strerror}") from None
    except BadRowsError as error:
        raise InputError(f"{file}: {_faults(error)}; nothing imported") from None


def _faults(error: BadRowsError) -> str:
    shown = "; ".join(str(problem) for problem in error.problems[:_FAULTS_SHOWN])
    further = len(error.problems) - _FAULTS_SHOWN
    return f"{shown}; and {further} more" if further > 0 else shown


def _owner(
    session: Session, whose: tuple[str | None, int | None], entries: list[Entry], now: datetime
) -> Person:
    """Whose crew the entries go to; in an empty database a crew is founded for them."""
    name, crew = whose
    if everybody(session):
        return person_asked(session, name, crew)
    if name is None and not entries:
        raise InputError("the file has no entries; nothing imported")
    owner = name or entries[0].person
    return found_crew(session, f"{owner}'s crew", owner, own_zone(), now)[1]


def _report(report: ImportReport) -> str:
    lines = [f"{report.added} entries added, {report.already_there} there already"]
    for what, made in (
        ("yards", report.new_yards),
        ("units", report.new_units),
        ("people", report.new_people),
    ):
        if made:
            lines.append(f"new {what}: {', '.join(made)}")
    return "\n".join(lines)
