"""The status command."""

import json
from datetime import UTC, datetime

import click

from bot.command.call import Call
from bot.command.options import json_option, pass_call
from bot.command.status_words import TextsPaid, for_machine, for_person
from bot.command.whose import nobody_yet
from bot.watch.status import status_of
from bot.watch.zones import zone_release
from scheduling.records.engine import reading
from scheduling.records.migrate import newest_version


@click.command("status", short_help="Show how the running program stands.")
@json_option
@pass_call
def status_command(call: Call, as_json: bool) -> None:
    """Show who is due next, what waits to be sent, and when the program last did what.

    All of it is read from the database, so any worker's machine may be asked.
    """
    engine = call.engine_to_look()
    if engine is None:
        raise nobody_yet()
    with reading(engine) as session:
        status = status_of(session, datetime.now(UTC))
    settings = call.settings
    paid = TextsPaid(settings.sms_segment_price, settings.sms_monthly_segments)
    told = (status, zone_release(), newest_version(), engine.dialect.name, paid)
    if as_json:
        click.echo(json.dumps(for_machine(*told), indent=2, ensure_ascii=False))
    else:
        click.echo("\n".join(for_person(*told)))
