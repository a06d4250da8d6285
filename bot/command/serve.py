"""The serve command: run the channels that are configured."""

import asyncio
from functools import cache

import click

from bot.channel_factory import NothingToServeError, dead_mans_switch_of
from bot.channels.channel import ChannelBroken
from bot.command.call import Call, InputError
from bot.command.machine_clock import own_zone
from bot.command.options import pass_call
from bot.gc_tuning import collect_rarely
from bot.program_log import log_of, log_privately
from bot.serving import app_of, serve
from bot.settings.address import CannotListenError
from bot.settings.load import passed_over, settings_file
from bot.settings.validators import SettingsError

log = log_of(__name__)


@click.command("serve")
@pass_call
def serve_command(call: Call) -> None:
    """Run every configured channel until told to stop (SIGTERM or Ctrl-C)."""
    log_privately(call.settings.log_level, call.settings.log_json)
    log.info("settings read", settings=str(settings_file() or "the environment alone"))
    if passed_over():
        log.warning("the file .env of this folder is not read")
    collect_rarely()
    try:
        app = app_of(call.settings, cache(call.engine), own_zone())
        asyncio.run(serve(app, alive=dead_mans_switch_of(call.settings)))
    except (NothingToServeError, SettingsError, ChannelBroken, CannotListenError) as error:
        raise InputError(str(error)) from None
