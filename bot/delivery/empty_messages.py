"""Messages out of people who are forgotten: rows that say nothing, and count their segments."""

from bot.channels.sms.segments import is_gsm7
from bot.delivery.message_tables import OutboxRow

FORGOTTEN = "forgotten:"
"""With what the key of a message begins that is made empty as soon as it is sent."""


def make_empty(row: OutboxRow) -> None:
    """Take all out of a message that says whose it was; it counts as many segments as before."""
    row.text = ("-" if is_gsm7(row.text) else "\N{EN DASH}") * len(row.text)
    row.key, row.address, row.buttons = f"{FORGOTTEN}{row.id}", "", []
    row.carrier_said, row.carrier_id, row.document = "", None, None
    row.of_message, row.places, row.edits = None, None, None
