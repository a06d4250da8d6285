"""A way that was added to reach a person is told on the ways that were there before."""

from collections.abc import Sequence

from bot.channels.channel import OutgoingMessage
from bot.channels.traits import SMS, traits_of
from bot.conversation.turn import Turn
from bot.delivery.outbox import Recipient, of_their_crew, plan
from bot.delivery.quiet_hours import quiet_end
from bot.delivery.rules import Purpose
from bot.wording.new_way import another_number, way_added
from scheduling.records.addresses import Address


def tell_of_new_way(turn: Turn, before: Sequence[Address]) -> None:
    """Tell a person, unless they stopped their messages, so that a code in wrong hands is noticed.

    Args:
        turn: the message that came over the new way.
        before: where the person was reached before it.
    """
    new = Address(turn.message.channel, turn.message.address)
    for way in before:
        if way == new or turn.person.stopped:
            continue
        # A number that a new one took the place of hears of it too.
        replaced = way.channel == new.channel and traits_of(way.channel).needs_consent
        told = another_number() if replaced else way_added(new.channel)
        text = of_their_crew(turn.session, turn.person.id, told)
        key = f"way:{new.channel}:{turn.message.id}:{way.channel}:{way.address}"
        to = Recipient(way.channel, way.address, None if replaced else turn.person.id)
        outgoing = OutgoingMessage(way.address, text)
        # It is nobody's by now, and nobody's quiet hours hold its message back.
        quiet = quiet_end(turn.now, SMS.quiet, turn.person.zone) if replaced else None
        plan(turn.session, key, Purpose.NEWS, to, outgoing, turn.now, quiet_until=quiet)
