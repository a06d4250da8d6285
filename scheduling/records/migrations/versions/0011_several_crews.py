"""An address may be a person's in each of several crews.

Revision ID: 0011_several_crews
"""

from alembic import op

revision = "0011_several_crews"
down_revision = "0010_consent"


def upgrade() -> None:
    """Let people of different crews share an address; each still has it once."""
    with op.batch_alter_table("address") as address:
        address.drop_constraint("uq_address_channel_address", type_="unique")
        address.create_unique_constraint(
            "uq_address_channel_address_person_id", ["channel", "address", "person_id"]
        )
