"""Columns and references as the tables of the baseline have them."""

from collections.abc import Iterator
from typing import Any

import sqlalchemy as sa

Kind = sa.types.TypeEngine[Any]


def must(kind: Kind, *names: str) -> Iterator[sa.Column[Any]]:
    """Columns of one type that are always filled."""
    return (sa.Column(name, kind, nullable=False) for name in names)


def may(kind: Kind, *names: str) -> Iterator[sa.Column[Any]]:
    """Columns of one type that may be empty."""
    return (sa.Column(name, kind, nullable=True) for name in names)


def of_crew(table: str, column: str, name: str) -> sa.ForeignKeyConstraint:
    """Point at a row of the same crew."""
    return sa.ForeignKeyConstraint(
        ["crew_id", column], [f"{table}.crew_id", f"{table}.id"], name=name
    )
