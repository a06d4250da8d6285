"""What a crew settled on: at which chances it looks and gives up, and on which weekdays it goes.

Revision ID: 0005_crew_settings
"""

import sqlalchemy as sa
from alembic import op

revision = "0005_crew_settings"
down_revision = "0004_weather"


def upgrade() -> None:
    """Add the settings; what a crew did not settle is empty and as usual."""
    op.add_column("crew", sa.Column("look_at", sa.Float(), nullable=True))
    op.add_column("crew", sa.Column("give_up_at", sa.Float(), nullable=True))
    op.add_column("crew", sa.Column("weekdays", sa.String(7), nullable=True))
