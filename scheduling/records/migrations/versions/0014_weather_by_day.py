"""Weather by day, made once when the source answers.

Revision ID: 0014_weather_by_day
"""

import sqlalchemy as sa
from alembic import op

revision = "0014_weather_by_day"
down_revision = "0013_texts_known"


def upgrade() -> None:
    """Make room for days; they are made of the hours that are kept, once the program starts."""
    op.create_table(
        "weather_day",
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("flight_hours", sa.Float(), nullable=True),
        sa.Column("opening_hours", sa.Float(), nullable=True),
        sa.Column("unfit", sa.String(10), nullable=True),
        sa.Column("warmest_c", sa.Float(), nullable=True),
        sa.Column("mean_c", sa.Float(), nullable=True),
        sa.Column("heat_index_f", sa.Float(), nullable=True),
        sa.Column("measured", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("yard_id", "day", name="pk_weather_day"),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name="fk_weather_day_yard_id"),
    )
    op.add_column(
        "weather_asked", sa.Column("figures", sa.String(16), nullable=False, server_default="")
    )
    op.create_index("ix_weather_asked_figures", "weather_asked", ["figures"])
