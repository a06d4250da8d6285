"""The channel of e-mail."""

import asyncio
from datetime import timedelta

from bot.channels.channel import ChannelBroken, OutgoingMessage, Receive, SendOutcome
from bot.channels.clock import Clock, present
from bot.channels.mail.lmtp_server import open_door
from bot.channels.mail.mail_account import MailAccount, is_address
from bot.channels.mail.mail_incoming import read_mail
from bot.channels.mail.mail_message import compose_mail, own_name
from bot.channels.mail.mail_traits import MAIL
from bot.channels.mail.sending import hand_over
from bot.channels.outcome import failed
from bot.channels.reports import DeliveryReport, Report, unheard
from bot.channels.send_error import SendError

SHORTEST_KEY = 16
"""Letters of the secret that answers are known by."""


class MailChannel:
    """E-mail through the owner's mail server; answers are handed in over LMTP.

    Args:
        account: what the owner set.
        report: takes notices of messages that failed.
        clock: gives the present instant.
        answer_within: how long the mail server may take for each answer.

    Raises:
        ChannelBroken: the settings cannot be right.

    """

    traits = MAIL

    def __init__(
        self,
        account: MailAccount,
        report: Report = unheard,
        clock: Clock = present,
        answer_within: timedelta = timedelta(seconds=7),
    ) -> None:
        if not is_address(account.sender):
            raise ChannelBroken(f"{account.sender!r} is no address that e-mail can come from")
        if len(account.key) < SHORTEST_KEY:
            raise ChannelBroken(f"the key of e-mail needs {SHORTEST_KEY} letters or more")
        self._account = account
        self._report = report
        self._clock = clock
        self._answer_within = answer_within
        self._receive: Receive | None = None
        self.port: int | None = None

    async def listen(self, receive: Receive) -> None:
        """Hand every answer in to ``receive`` until cancelled.

        The mail server is told to forget an e-mail only after ``receive`` returned.

        Raises:
            ChannelBroken: the address to listen on is taken or not ours.

        """
        if self._account.listen is None:
            await asyncio.get_running_loop().create_future()
            return
        self._receive = receive
        host, port = self._account.listen
        try:
            server = await open_door(host, port, self._account.sender, self._take)
        except OSError as error:
            raise ChannelBroken(
                f"e-mail cannot be taken in at {host}:{port}: {error.strerror}"
            ) from None
        self.port = int(server.sockets[0].getsockname()[1])
        async with server:
            await server.serve_forever()

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Hand one letter to the mail server."""
        if not outgoing.text.strip():
            return failed(SendError.BLANK)
        if not is_address(outgoing.address):
            return failed(SendError.NO_ADDRESS, f"{outgoing.address!r} is not an e-mail address")
        mail = compose_mail(outgoing, self._account, self._clock())
        seconds = self._answer_within.total_seconds()
        return await asyncio.to_thread(hand_over, mail, self._account, own_name(outgoing), seconds)

    async def close(self) -> None:
        """Nothing to let go of: each letter has a line of its own."""

    async def _take(self, octets: bytes) -> None:
        read = await asyncio.to_thread(read_mail, octets, self._account.key, self._clock())
        if isinstance(read, DeliveryReport):
            await self._report(read)
        elif read is not None and self._receive is not None:
            await self._receive(read)
