"""The serve command: run the channels that are configured."""

import asyncio
from functools import cache

import click

from bot.channel_factory import NothingToServeError
from bot.channels.channel import ChannelBroken
from bot.command.call import Call, InputError
from bot.command.machine_clock import own_zone
from bot.command.options import pass_call
from bot.gc_tuning import collect_rarely
from bot.program_log import log_privately
from bot.serving import app_of, serve
from bot.settings.address import CannotListenError
from bot.settings.validators import SettingsError


@click.command("serve")
@pass_call
def serve_command(call: Call) -> None:
    """Run every configured channel until told to stop (SIGTERM or Ctrl-C)."""
    log_privately(call.settings.log_level, call.settings.log_json)
    collect_rarely()
    try:
        asyncio.run(serve(app_of(call.settings, cache(call.engine), own_zone())))
    except (NothingToServeError, SettingsError, ChannelBroken, CannotListenError) as error:
        raise InputError(str(error)) from None
