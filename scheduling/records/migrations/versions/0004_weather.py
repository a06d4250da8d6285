"""Hours of weather for each yard, and when to ask for more.

Revision ID: 0004_weather
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0004_weather"
down_revision = "0003_doubts"

READINGS = (
    "temperature_c",
    "wind_kmh",
    "rain_mm",
    "cloud_share",
    "sunshine_minutes",
    "humidity_percent",
)


def upgrade() -> None:
    """Make the tables of the weather."""
    op.create_table(
        "weather_hour",
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("at", Instant(), nullable=False),
        *(sa.Column(name, sa.Float(), nullable=True) for name in READINGS),
        sa.Column("measured", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("yard_id", "at", name="pk_weather_hour"),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name="fk_weather_hour_yard_id"),
    )
    op.create_table(
        "weather_asked",
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("latitude", sa.Float(), nullable=False),
        sa.Column("longitude", sa.Float(), nullable=False),
        sa.Column("answered_at", Instant(), nullable=True),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.Column("next_at", Instant(), nullable=False),
        sa.PrimaryKeyConstraint("yard_id", name="pk_weather_asked"),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name="fk_weather_asked_yard_id"),
    )
    op.create_index("ix_weather_asked_next_at", "weather_asked", ["next_at"])
