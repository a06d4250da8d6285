"""The log's guard in the database, which the migrations set; ``engine`` sets the program's own."""


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
