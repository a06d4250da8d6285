"""A message centre: the server of smpp34, a package of others, in a test's own loop."""

import asyncio
import contextlib
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass, field

import smpp34
from smpp34 import Esme, Server, SubmitSmEvent, Tlv

from deploy.standins.free_port import free_port

SENDER = "+12025550100"


@dataclass(frozen=True)
class Submitted:
    """A submit_sm as the centre read it."""

    to: str
    words: bytes
    coding: int
    esm_class: int
    sender: str
    wants_receipt: int
    types: tuple[int, int, int, int]


@dataclass
class MessageCentre:
    """What was submitted; statuses to refuse the next ones with (0 takes it, -1 says nothing)."""

    port: int
    submitted: list[Submitted] = field(default_factory=list)
    next_statuses: list[int] = field(default_factory=list)
    bound: list[Esme] = field(default_factory=list)
    unbound: int = 0
    _server: Server | None = None
    _silent: list[SubmitSmEvent] = field(default_factory=list)

    async def serve(self) -> None:
        """Take binds and texts in until the task is cancelled."""
        server = self._server = await self._started()
        while True:
            event = await server.next()
            if isinstance(event, Esme):
                self.bound.append(event)
            elif isinstance(event, SubmitSmEvent):
                self._take(event)
            else:
                self.unbound += 1

    async def _started(self) -> Server:
        """Start; one that stopped on that port a moment ago may not have let go of it yet."""
        while True:
            server = Server("127.0.0.1", self.port, system_id="centre")
            try:
                await server.start()
            except smpp34.SmppError:
                await asyncio.sleep(0.02)
            else:
                return server

    def _take(self, event: SubmitSmEvent) -> None:
        self.submitted.append(
            Submitted(
                event.destination_addr, event.short_message, event.data_coding, event.esm_class,
                event.source_addr, event.registered_delivery,
                (event.source_addr_ton, event.source_addr_npi, event.dest_addr_ton,
                 event.dest_addr_npi),
            )
        )  # fmt: skip
        status = self.next_statuses.pop(0) if self.next_statuses else 0
        if status > 0:
            event.reject(status)
        elif status == 0:
            event.accept(f"m{len(self.submitted)}")
        else:
            self._silent.append(event)

    async def stop(self) -> None:
        """Say so to everybody on the line, and stop."""
        for esme in self.bound:
            with contextlib.suppress(smpp34.SmppError):
                await asyncio.wait_for(esme.unbind(), 2)
        if self._server is not None:
            await self._server.stop()

    async def listener(self) -> Esme:
        """Wait for somebody who takes messages."""
        async with asyncio.timeout(10):
            while True:
                for esme in reversed(self.bound):
                    if esme.can_receive:
                        return esme
                await asyncio.sleep(0.01)

    async def deliver(
        self, words: bytes, sender: str = "12025550123", coding: int = 0, esm_class: int = 0,
        tlvs: list[Tlv] | None = None, ton: int = 1,
    ) -> int:  # fmt: skip
        """Deliver a message; gives the status that it was answered with."""
        esme = await self.listener()
        answered = await esme.deliver_sm(
            SENDER.removeprefix("+"), words, source_addr=sender, source_addr_ton=ton,
            source_addr_npi=1, data_coding=coding, esm_class=esm_class, tlvs=tlvs or [],
        )  # fmt: skip
        return answered.command_status

    async def receipt(self, own: str, stat: str) -> int:
        """Deliver a receipt, its text as appendix B of SMPP v3.4 shows it."""
        text = (
            f"id:{own} sub:001 dlvrd:001 submit date:2705121030 done date:2705121031 "
            f"stat:{stat} err:000 text:Open today"
        )
        return await self.deliver(text.encode(), esm_class=0x04)


@asynccontextmanager
async def running_centre(port: int = 0) -> AsyncIterator[MessageCentre]:
    """Run a centre on a port, or on a free one."""
    centre = MessageCentre(port or free_port())
    serving = asyncio.create_task(centre.serve())
    await asyncio.sleep(0.05)
    try:
        yield centre
    finally:
        serving.cancel()
        await asyncio.gather(serving, return_exceptions=True)
        await centre.stop()
