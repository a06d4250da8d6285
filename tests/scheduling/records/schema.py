"""The form of a database's tables and its guards, so that two can be compared."""

import re
from typing import Any

from sqlalchemy import Engine, inspect, text

_GUARDS = {
    "sqlite": "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'",
    "postgresql": (
        "SELECT tgname, pg_get_triggerdef(t.oid) || prosrc FROM pg_trigger t "
        "JOIN pg_proc p ON p.oid = tgfoid WHERE NOT tgisinternal"
    ),
}


def schema_of(engine: Engine) -> dict[str, Any]:
    """Every table with its columns, keys, constraints and indexes, and every trigger, by name."""
    look = inspect(engine)
    tables = {
        table: {
            "columns": _by_name(look.get_columns(table)),
            "primary key": _plain(look.get_pk_constraint(table)),
            "foreign keys": _by_name(look.get_foreign_keys(table)),
            "uniques": _by_name(look.get_unique_constraints(table)),
            "checks": {c["name"]: _words(c["sqltext"]) for c in look.get_check_constraints(table)},
            "indexes": _by_name(look.get_indexes(table)),
        }
        for table in look.get_table_names()
    }
    with engine.connect() as connection:
        guards = [tuple(row) for row in connection.execute(text(_GUARDS[engine.dialect.name]))]
    return {**tables, "guards": sorted(guards)}


def _words(condition: str) -> list[str]:
    """The words of a condition: PostgreSQL puts casts and brackets elsewhere after a reload."""
    return re.findall(r"'[^']*'|\w+", re.sub(r"::(character varying|text)(\[\])?", "", condition))


def _by_name(found: Any) -> dict[str, Any]:
    return {str(each["name"]): _plain(each) for each in found}


def _plain(found: Any) -> Any:
    """Types and clauses, which compare by identity, as text."""
    if isinstance(found, dict):
        return {key: _plain(value) for key, value in found.items()}
    if isinstance(found, list):
        return [_plain(value) for value in found]
    return found if isinstance(found, bool) else str(found)
