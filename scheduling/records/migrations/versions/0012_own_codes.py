"""A code may be for one more channel of who asked for it.

Revision ID: 0012_own_codes
"""

import sqlalchemy as sa
from alembic import op

revision = "0012_own_codes"
down_revision = "0011_several_crews"


def upgrade() -> None:
    """Let an invite say that it is for its maker."""
    own = sa.Column("own", sa.Boolean(), nullable=False, server_default=sa.false())
    op.add_column("invite", own)
