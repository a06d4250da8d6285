"""Where a person is reached."""

from collections.abc import Collection
from dataclasses import dataclass

from scheduling.records.crew_records import CrewRecords


@dataclass(frozen=True)
class Recipient:
    """Where a message goes; ``person_id`` is None for somebody who has not joined."""

    channel: str
    address: str
    person_id: int | None = None


def next_address(
    records: CrewRecords, person_id: int, running: Collection[str], but_of: Collection[str] = ()
) -> Recipient | None:
    """Where a person takes messages: on a running channel before any other, then on their first.

    With ``but_of`` on any channel but those.
    """
    first = records.person(person_id).first_channel
    found = sorted(
        [each for each in records.reachable_addresses(person_id) if each.channel not in but_of],
        key=lambda each: (each.channel not in running, each.channel != first),
    )
    return Recipient(found[0].channel, found[0].address, person_id) if found else None
