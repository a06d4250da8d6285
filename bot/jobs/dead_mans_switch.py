"""A dead man's switch: somebody else's service is told that all is well, and misses that word.

A program that hangs, a machine that is off and a line that is down tell nobody themselves.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import uuid4

import httpx

from bot.channels.channel import Channel, OutgoingMessage, SendResult
from bot.program_log import log_of
from bot.wording.alerts import all_is_well

log = log_of(__name__)

ANSWER_WITHIN_SECONDS = 20.0


@dataclass
class DeadMansSwitch:
    """Tells an address of the web, one of e-mail, or both.

    Attributes:
        every: how often.
        url: the address that is asked for.
        mail: the channel of e-mail.
        mail_to: the address of e-mail.
    """

    every: timedelta
    url: str | None = None
    mail: Channel | None = None
    mail_to: str = ""
    _told_at: datetime | None = None

    def is_due(self, now: datetime) -> bool:
        """Tell whether it is time again; after a clock was set back it is."""
        return self._told_at is None or not timedelta(0) <= now - self._told_at < self.every

    async def tell(self, now: datetime) -> None:
        """Tell that all is well; what could not be told is due at once again."""
        failures = [each for each in (await self._ask(), await self._write()) if each]
        for each in failures:
            log.warning("the dead man's switch could not be told", error=each)
        if not failures:
            self._told_at = now

    async def _ask(self) -> str:
        if self.url is None:
            return ""
        try:
            async with httpx.AsyncClient(timeout=ANSWER_WITHIN_SECONDS) as client:
                answer = await client.get(self.url, follow_redirects=True)
        except httpx.HTTPError as error:
            return type(error).__name__
        return "" if answer.is_success else f"status {answer.status_code}"

    async def _write(self) -> str:
        if self.mail is None:
            return ""
        # Of two e-mails with one key the second would count as the first, come again.
        outgoing = OutgoingMessage(self.mail_to, all_is_well(), key=uuid4().hex)
        outcome = await self.mail.send(outgoing)
        return "" if outcome.result is SendResult.SENT else str(outcome.error or outcome.result)
