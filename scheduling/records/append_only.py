"""The log's guard in the database, which the migrations set; ``engine`` sets the program's own.

It knows two exceptions, and the program uses each in one place (``forgetting``): of a person who
is forgotten the ids of their messages may change, which hold the number of their chat; and the
entries of a crew go when the whole crew is deleted.
"""


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


def triggers_with_exceptions(dialect: str) -> tuple[str, ...]:
    """Name the statements that put the guard with its two exceptions in place of the first one.

    Raises:
        ValueError: no guard is known for this kind of database.
    """
    try:
        return _WITH_EXCEPTIONS[dialect]
    except KeyError:
        raise ValueError(f"no append-only guard is known for {dialect}") from None


_KEPT_COLUMNS = (
    *("seq", "uid", "crew_id", "yard_id", "box", "letter", "batch", "kind", "value", "day"),
    *("recorded_at", "person_id", "channel", "note"),
)
_ENDING = "EXISTS (SELECT 1 FROM crew WHERE id = OLD.crew_id AND ends_at IS NOT NULL)"
_FORGOTTEN = "EXISTS (SELECT 1 FROM person WHERE id = OLD.person_id AND forgotten_at IS NOT NULL)"


def _same(is_same: str, cast: str = "") -> str:
    pairs = ((f"OLD.{name}", f"NEW.{name}") for name in _KEPT_COLUMNS)
    # PostgreSQL compares no JSON but as text.
    return " AND ".join(f"{old}{cast} {is_same} {new}{cast}" for old, new in pairs)


def _sqlite_but(change: str, exception: str) -> str:
    return (
        f"CREATE TRIGGER entry_no_{change.lower()} BEFORE {change} ON entry "
        f"WHEN NOT ({exception}) "
        "BEGIN SELECT RAISE(ABORT, 'an entry is never changed or deleted'); END"
    )


_WITH_EXCEPTIONS = {
    "sqlite": (
        "DROP TRIGGER entry_no_update",
        "DROP TRIGGER entry_no_delete",
        _sqlite_but("UPDATE", f"{_FORGOTTEN} AND {_same('IS')}"),
        _sqlite_but("DELETE", _ENDING),
    ),
    "postgresql": (
        "DROP TRIGGER entry_no_change ON entry",
        "CREATE OR REPLACE FUNCTION refuse_entry_change() RETURNS trigger LANGUAGE plpgsql AS "
        "$$ BEGIN "
        f"IF TG_OP = 'DELETE' AND {_ENDING} THEN RETURN OLD; END IF; "
        f"IF TG_OP = 'UPDATE' AND {_FORGOTTEN} "
        f"AND {_same('IS NOT DISTINCT FROM', '::text')} THEN RETURN NEW; END IF; "
        "RAISE EXCEPTION 'an entry is never changed or deleted'; END $$",
        "CREATE TRIGGER entry_no_change BEFORE UPDATE OR DELETE ON entry "
        "FOR EACH ROW EXECUTE FUNCTION refuse_entry_change()",
        "CREATE TRIGGER entry_no_truncate BEFORE TRUNCATE ON entry "
        "FOR EACH STATEMENT EXECUTE FUNCTION refuse_entry_change()",
    ),
}
