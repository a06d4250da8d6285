"""Runs the migrations on the one connection that ``scheduling.records.migrate`` hands over."""

import logging
from collections.abc import Collection, Mapping
from typing import Any

from alembic import context
from alembic.runtime.migration import MigrationContext, MigrationInfo


def tell(
    ctx: MigrationContext,  # noqa: ARG001 - the library names what it gives
    step: MigrationInfo,
    heads: Collection[Any],  # noqa: ARG001
    run_args: Mapping[str, Any],  # noqa: ARG001
) -> None:
    """Say in the log which migration was run."""
    told = logging.getLogger("scheduling.records.migrate")
    told.info("a migration was run", extra={"schema": step.up_revision_id})


context.configure(
    on_version_apply=tell,
    connection=context.config.attributes["connection"],
    transactional_ddl=True,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
