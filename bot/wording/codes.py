"""Words about codes: those that are open, those that are not good, and who may found a crew."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from bot.settings.founding import Founding
from bot.wording.days_and_numbers import full_day
from bot.wording.plain_letters import to_gsm7


@dataclass(frozen=True)
class OpenCode:
    """A code that still lets somebody in; ``own`` if it is for a way of its maker's."""

    code: str
    until: date
    own: bool


def open_codes(codes: Sequence[OpenCode]) -> str:
    """List the open codes, and say how one is withdrawn."""
    if not codes:
        return "No code is open. invite makes one for a partner, add chat one for yourself."
    lines = [_open_code(each) for each in codes]
    return "\n".join([*lines, f"To end one: withdraw {codes[0].code}"])


def _open_code(code: OpenCode) -> str:
    whose = "a way of your own" if code.own else "a partner"
    return f"{code.code} for {whose}, to {full_day(code.until)}"


def withdrawn(code: str) -> str:
    """Confirm that a code lets nobody in any more."""
    return f"Withdrawn: {code} lets nobody in any more."


def no_such_code(code: str) -> str:
    """Refuse to withdraw what is no open code of theirs."""
    return to_gsm7(f"{code} is no open code of yours. Type codes to see them.")


def code_refused() -> str:
    """Refuse a code that is unknown, used, withdrawn or too old, without saying which."""
    return "That code is not good (any more). Ask whoever gave it to you for a new one."


def too_often() -> str:
    """Say that no code is looked up for now."""
    return "Too many wrong codes came. Send yours again in an hour; till then I look at none."


def many_wrong(count: int) -> str:
    """Tell an owner with an open code that somebody may be guessing."""
    return (
        f"{count} wrong codes were tried here within a day. Nobody came in by them. Type codes "
        "to see yours that are open, and withdraw those that nobody waits for."
    )


def founding_refused(founding: Founding) -> str:
    """Refuse to found a crew for somebody who has no code for it, and say why."""
    if founding is Founding.NOBODY:
        return "No new crews are taken here. With a partner's code: join ABC234"
    return (
        "A new crew needs a code here. Ask who runs this bot for one, then type begin and the "
        "code. With a partner's code: join ABC234"
    )


def how_to_begin(founding: Founding) -> str:
    """Say how somebody who is not known comes in."""
    if founding is Founding.ANYBODY:
        return "Type begin for a crew of your own, or join and your code, as in: join ABC234"
    if founding is Founding.INVITED:
        return (
            "Type join and your partner's code, as in: join ABC234. For a crew of your own ask "
            "who runs this bot for a code, then: begin and the code"
        )
    return "Type join and your partner's code, as in: join ABC234"
