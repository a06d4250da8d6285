"""The status command."""

import importlib
import json
import zoneinfo
from datetime import UTC, datetime
from pathlib import Path

import click

from bot.command.call import Call
from bot.command.options import json_option, pass_call
from bot.command.status_words import TextsPaid, for_machine, for_person
from bot.command.whose import nobody_yet
from bot.web.program_status import status_of
from scheduling.records.engine import reading
from scheduling.records.migrate import newest_version


@click.command("status")
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
    paid = TextsPaid(settings.sms.segment_price, settings.sms.monthly_segments)
    told = (status, zone_release(), newest_version(), engine.dialect.name, paid)
    if as_json:
        click.echo(json.dumps(for_machine(*told), indent=2, ensure_ascii=False))
    else:
        click.echo("\n".join(for_person(*told)))


_UNKNOWN = "unknown release"


def zone_release() -> str:
    """Name the release and where it is: ``2026a in /usr/share/zoneinfo``.

    The system's own goes before the package ``tzdata``, however old it is.
    """
    for folder in map(Path, zoneinfo.TZPATH):
        if (folder / "UTC").is_file():
            return f"{_release_in(folder)} in {folder}"
    return f"{importlib.import_module('tzdata').IANA_VERSION} in the package tzdata"


def _release_in(folder: Path) -> str:
    """Read the release from the files that say it, where a system has them."""
    compact, plain = folder / "tzdata.zi", folder / "+VERSION"
    if compact.is_file():
        with compact.open(encoding="utf-8") as lines:
            return lines.readline().removeprefix("# version ").strip()
    return plain.read_text(encoding="utf-8").strip() if plain.is_file() else _UNKNOWN
