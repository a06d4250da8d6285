"""The log's guard within the program; the migrations set the same guard in the database."""

from typing import Any

from sqlalchemy import event
from sqlalchemy.orm import Mapper, ORMExecuteState, Session

from scheduling.records.tables import EntryRow


class LogChangeError(Exception):
    """Somebody tried to change or take away an entry; a correction is a new entry."""


def _refuse(*_: Any) -> None:
    raise LogChangeError("an entry is never changed or deleted; add a strike instead")


def _refuse_in_bulk(state: ORMExecuteState) -> None:
    mapper: Mapper[Any] | None = state.bind_mapper
    changes = state.is_update or state.is_delete
    if changes and mapper is not None and mapper.class_ is EntryRow:
        _refuse()


def guard_log() -> None:
    """Make every session of this program refuse to change or delete an entry."""
    if event.contains(Session, "do_orm_execute", _refuse_in_bulk):
        return
    event.listen(Session, "do_orm_execute", _refuse_in_bulk)
    for change in ("before_update", "before_delete"):
        event.listen(EntryRow, change, _refuse)


def triggers(dialect: str) -> tuple[str, ...]:
    """Name the statements that make the database itself refuse, for a migration to run.

    A migration that makes the table ``entry`` anew must run them anew.

    Raises:
        ValueError: no guard is known for this kind of database.
    """
    try:
        return _TRIGGERS[dialect]
    except KeyError:
        raise ValueError(f"no append-only guard is known for {dialect}") from None


def _sqlite(change: str) -> str:
    return (
        f"CREATE TRIGGER entry_no_{change.lower()} BEFORE {change} ON entry "
        "BEGIN SELECT RAISE(ABORT, 'an entry is never changed or deleted'); END"
    )


_TRIGGERS = {
    "sqlite": (_sqlite("UPDATE"), _sqlite("DELETE")),
    "postgresql": (
        "CREATE OR REPLACE FUNCTION refuse_entry_change() RETURNS trigger LANGUAGE plpgsql AS "
        "$$ BEGIN RAISE EXCEPTION 'an entry is never changed or deleted'; END $$",
        "CREATE TRIGGER entry_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON entry "
        "FOR EACH STATEMENT EXECUTE FUNCTION refuse_entry_change()",
    ),
}
