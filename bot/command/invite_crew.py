"""The invite-crew command: codes with which somebody may found a crew on this machine."""

from datetime import UTC, datetime

import click

from bot.command.call import Call, InputError
from bot.command.options import pass_call
from bot.settings.founding import Founding
from scheduling.records.engine import reading, writing
from scheduling.records.founding_codes import (
    make_founding_code,
    open_founding_codes,
    withdraw_founding_code,
)
from scheduling.records.invites import Invite


@click.command("invite-crew")
@click.option("--list", "listed", is_flag=True, help="Show the codes that are open.")
@click.option("--withdraw", "withdrawn", metavar="CODE", help="Let CODE found nothing any more.")
@pass_call
def invite_crew_command(call: Call, listed: bool, withdrawn: str | None) -> None:
    """Make a code with which somebody founds a crew, once and within 14 days."""
    now = datetime.now(UTC)
    if listed:
        _list(call, now)
    elif withdrawn is not None:
        _withdraw(call, withdrawn, now)
    else:
        _make(call, now)


def _make(call: Call, now: datetime) -> None:
    with writing(call.engine()) as session:
        made = make_founding_code(session, now)
    click.echo(f"{_shown(made)}\nA new crew begins with the message: begin {made.code}")
    founding = call.settings.crews.founded_by
    if founding is not Founding.INVITED:
        said = f"here YARDBELL_CREWS_FOUNDED_BY is {founding}: codes count where it is invited"
        click.echo(f"yardbell: {said}", err=True)


def _list(call: Call, now: datetime) -> None:
    engine = call.engine_to_look()
    if engine is None:
        codes: tuple[Invite, ...] = ()
    else:
        with reading(engine) as session:
            codes = open_founding_codes(session, now)
    click.echo("\n".join(map(_shown, codes)) or "no code is open")


def _withdraw(call: Call, code: str, now: datetime) -> None:
    with writing(call.engine()) as session:
        ended = withdraw_founding_code(session, code, now)
    if not ended:
        raise InputError(f"{code.upper()} is no open code; see: yardbell invite-crew --list")
    click.echo(f"{code.upper()} founds nothing any more")


def _shown(code: Invite) -> str:
    return f"{code.code} good once, to {code.expires_at:%Y-%m-%d %H:%M} UTC"
