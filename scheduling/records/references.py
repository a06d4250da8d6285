"""Whether every row that points at another row finds it there."""

from sqlalchemy import Connection, Inspector, MetaData, Table, and_, exists, func, inspect, select
from sqlalchemy.engine.interfaces import ReflectedForeignKeyConstraint


def broken_references(connection: Connection) -> dict[str, int]:
    """Count rows without their parent, by table; tables without such rows are left out."""
    inspector = inspect(connection)
    tables = MetaData()
    tables.reflect(connection, resolve_fks=False)
    broken = {name: _orphans(connection, inspector, tables, name) for name in tables.tables}
    return {name: count for name, count in sorted(broken.items()) if count}


def _orphans(connection: Connection, inspector: Inspector, tables: MetaData, name: str) -> int:
    keys = inspector.get_foreign_keys(name)
    return sum(_orphans_by_key(connection, tables.tables[name], tables, key) for key in keys)


def _orphans_by_key(
    connection: Connection, child: Table, tables: MetaData, key: ReflectedForeignKeyConstraint
) -> int:
    pointing = [child.c[name] for name in key["constrained_columns"]]
    parent = tables.tables[key["referred_table"]].alias()
    pointed_at = [parent.c[name] for name in key["referred_columns"]]
    there = exists().where(and_(*(a == b for a, b in zip(pointing, pointed_at, strict=True))))
    set_ = and_(*(column.is_not(None) for column in pointing))
    counted = select(func.count()).select_from(child).where(set_, ~there)
    return connection.scalar(counted) or 0
