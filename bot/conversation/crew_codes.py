"""The codes of a crew that still let somebody in: to see them, and to withdraw one."""

from bot.conversation.permissions import Act, may_do
from bot.conversation.turn import Turn
from bot.reading.result import Command
from bot.wording import codes as words
from bot.wording.message import Message
from scheduling.records.invites import Invite
from scheduling.wall_time import local_day


def codes(turn: Turn, _command: Command) -> Message:
    """List the open codes: to the owner those of the crew, to others their own."""
    shown = [
        words.OpenCode(each.code, local_day(each.expires_at, turn.person.zone), each.own)
        for each in _open(turn)
    ]
    return Message.of(words.open_codes(shown))


def withdraw_code(turn: Turn, command: Command) -> Message:
    """Let an open code let nobody in any more."""
    code = (command.word or "").upper()
    if code not in {each.code for each in _open(turn)}:
        return Message.of(words.no_such_code(code))
    turn.records.withdraw_invite(code, turn.now)
    return Message.of(words.withdrawn(code))


def _open(turn: Turn) -> tuple[Invite, ...]:
    everybodys = may_do(turn.person, Act.SETTLE)
    return turn.records.open_invites(None if everybodys else turn.person.id, turn.now)
