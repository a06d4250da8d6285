"""The tell-operator command: a word to whoever runs the machine, when the program itself cannot."""

import asyncio
from collections.abc import Mapping
from uuid import uuid4

import click

from bot.channel_factory import NothingToServeError, operator_channels
from bot.channels.channel import Channel, ChannelBroken, OutgoingMessage, SendOutcome, SendResult
from bot.command.call import Call, InputError
from bot.command.options import pass_call
from bot.settings.validators import SettingsError

_NOBODY_HEARD = 1


@click.command("tell-operator")
@click.argument("text", metavar="TEXT")
@pass_call
def tell_operator_command(call: Call, text: str) -> None:
    """Send TEXT to the operator's chat and address of e-mail, whichever are set.

    The database is not needed. The exit code is 1 if neither carrier took it.
    """
    try:
        outcomes = asyncio.run(_told(operator_channels(call.settings), text))
    except (NothingToServeError, SettingsError, ChannelBroken) as error:
        raise InputError(str(error)) from None
    for channel, outcome in outcomes.items():
        sent = outcome.result is SendResult.SENT
        said = "told over" if sent else f"not told, {outcome.error or outcome.result}, over"
        click.echo(f"{said} {channel}", err=not sent)
    if all(outcome.result is not SendResult.SENT for outcome in outcomes.values()):
        click.get_current_context().exit(_NOBODY_HEARD)


async def _told(channels: Mapping[str, Channel], text: str) -> dict[str, SendOutcome]:
    outcomes: dict[str, SendOutcome] = {}
    # A word said twice is two words; of e-mails with one key the second would be dropped.
    key = uuid4().hex
    for address, channel in channels.items():
        try:
            outcomes[channel.traits.name] = await channel.send(
                OutgoingMessage(address, text, key=key)
            )
        finally:
            await channel.close()
    return outcomes
