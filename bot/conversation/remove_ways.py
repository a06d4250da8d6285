"""A number, chat or e-mail address by which a person is reached no more, as after a lost phone."""

from collections.abc import Sequence

from bot.channels.traits import SMS
from bot.conversation.turn import Turn
from bot.delivery.outbox import Recipient, next_address, redirect
from bot.reading.result import Command
from bot.wording import people_texts as words
from bot.wording.message import Message
from scheduling.records.addresses import Address, crews_together
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person


def remove_way(turn: Turn, command: Command) -> Message:
    """Take an address away from the person, in each of their crews; never the last one."""
    mine = turn.records.addresses(turn.person.id)
    gone = _meant(turn, command, mine)
    if gone is None:
        ways = [(each.channel, each.address) for each in mine]
        return Message.of(words.no_such_way(command.word or "", ways))
    people = crews_together(turn.session, turn.person.id)
    if any(_left(turn, each, gone) == [] for each in people):
        return Message.of(words.only_way())
    for each in people:
        _remove(turn, each, gone)
    turn.person = turn.records.person(turn.person.id)
    turn.is_out = gone == Address(turn.message.channel, turn.message.address)
    left = [each.channel for each in turn.records.addresses(turn.person.id)]
    return Message.of(words.way_removed(gone.channel, gone.address, left))


def _meant(turn: Turn, command: Command, mine: Sequence[Address]) -> Address | None:
    """The address that is named; of several on a channel the one that was not written from."""
    there = [each for each in mine if each.channel == command.word]
    if command.number is not None:
        return next((each for each in there if _is(each, command.number)), None)
    here = Address(turn.message.channel, turn.message.address)
    found = [each for each in there if each != here] or there
    return found[0] if len(found) == 1 else None


def _is(address: Address, written: str) -> bool:
    if address.channel != SMS.name:
        return address.address.casefold() == written.casefold()
    # However it was written: with the land before it, or a 0 in its place.
    digits = "".join(filter(str.isdecimal, written)).lstrip("0")
    return address.address.endswith(digits)


def _left(turn: Turn, person: Person, gone: Address) -> list[Address]:
    ways = CrewRecords(turn.session, person.crew_id).addresses(person.id)
    return [each for each in ways if each != gone]


def _remove(turn: Turn, person: Person, gone: Address) -> None:
    records = CrewRecords(turn.session, person.crew_id)
    records.remove_address(person.id, gone)
    if person.first_channel == gone.channel:
        records.update_person(person.id, first_channel=None)
    to = next_address(records, person.id, ())
    if to is not None:
        redirect(turn.session, Recipient(gone.channel, gone.address, person.id), to)
