"""The serve command: run the channels that are configured."""

import asyncio
import logging

import click

from bot.channels.channel import ChannelBroken
from bot.command.call import Call
from bot.command.clock import own_zone
from bot.command.errors import InputError
from bot.command.options import pass_call
from bot.serving import NothingToServeError, channels_of, serve


@click.command("serve", short_help="Run every configured channel until told to stop.")
@pass_call
def serve_command(call: Call) -> None:
    """Run every configured channel until told to stop (SIGTERM or Ctrl-C)."""
    logging.basicConfig(
        level=call.settings.log_level, format="%(asctime)s %(levelname)s %(name)s: %(message)s"
    )
    # The scheduler tells of every tick, and the web library of every fetch.
    for chatty in ("apscheduler", "httpx"):
        logging.getLogger(chatty).setLevel(logging.WARNING)
    try:
        channels = channels_of(call.settings)
        asyncio.run(serve(call.engine(), channels, own_zone()))
    except (NothingToServeError, ChannelBroken, ValueError) as error:
        raise InputError(str(error)) from None
