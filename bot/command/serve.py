"""The serve command: run the channels that are configured."""

import asyncio
from functools import cache

import click

from bot.channels.channel import ChannelBroken
from bot.command.call import Call
from bot.command.errors import InputError
from bot.command.machine_clock import own_zone
from bot.command.options import pass_call
from bot.gc_tuning import collect_rarely
from bot.log_formatter import log_privately
from bot.serving import NothingToServeError, channels_of, serve, sms_budget_of
from bot.settings.address import CannotListenError
from bot.settings.error import SettingsError
from bot.weather.choice import weather_of


@click.command("serve")
@pass_call
def serve_command(call: Call) -> None:
    """Run every configured channel until told to stop (SIGTERM or Ctrl-C)."""
    log_privately(call.settings.log_level, call.settings.log_json)
    collect_rarely()
    try:
        engine = cache(call.engine)
        channels = channels_of(call.settings, engine)
        weather, http = weather_of(call.settings), call.settings.http_address
        region = call.settings.sms.region
        sms_budget = sms_budget_of(call.settings)
        asyncio.run(
            serve(
                engine(),
                channels,
                own_zone(),
                weather=weather,
                http=http,
                region=region,
                sms_budget=sms_budget,
            )
        )
    except (NothingToServeError, SettingsError, ChannelBroken, CannotListenError) as error:
        raise InputError(str(error)) from None
