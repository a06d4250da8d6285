"""The baseline: every table as it was when the chain of migrations before it was folded into one.

It keeps the name of that chain's last migration, so that a database at the end of the chain goes
on from here as it is (``fixtures/databases`` holds one of each kind). What an older database is
told stands in ``scheduling.records.migrate``.

Revision ID: 0013_texts_known
"""

from scheduling.records.migrations.baseline.crews import make_tables_of_crews
from scheduling.records.migrations.baseline.messages import make_tables_of_messages

revision = "0013_texts_known"
down_revision = None


def upgrade() -> None:
    """Make the tables and their guards."""
    make_tables_of_crews()
    make_tables_of_messages()
