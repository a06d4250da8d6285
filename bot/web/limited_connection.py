"""Connections in, with limits: how many are open, and how long a request's head may take.

Whoever opens more connections than a process may have files open, and says nothing over them, would
otherwise keep the program from its database and its carriers.
"""

import asyncio
from typing import cast

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

MOST_OPEN = 100
"""Connections at a time; a tenth of the files that a process may usually have open."""

AT_ONCE = 32
"""How many are accepted before the first of them is looked at; they come on top for a moment."""

HEAD_SECONDS = 5.0
"""How long a request's head may take, from the connection's beginning or the last answer on."""

_NOT_WHOLE = (h11.IDLE, h11.SEND_BODY)
"""What the other side is in the middle of while we have no whole request to answer."""


class LimitedConnection(H11Protocol):
    """One connection of the server; where there are too many the oldest that waits is dropped.

    The oldest and not the newest: who means it sends the whole request at once.
    """

    _head_timer: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Wait for a head; drop the oldest that waits if there are too many."""
        super().connection_made(transport)
        self._opened_at = self.loop.time()
        self._wait_for_head()
        if len(self.connections) > MOST_OPEN:
            self._oldest_that_waits()._drop()

    def data_received(self, data: bytes) -> None:
        """Take what came; a whole head ends the wait for it."""
        super().data_received(data)
        if self.conn.their_state is not h11.IDLE:
            self._wait_no_more()

    def on_response_complete(self) -> None:
        """Wait for the next request's head."""
        super().on_response_complete()
        self._wait_for_head()

    def connection_lost(self, exc: Exception | None) -> None:
        """Wait for nothing any more."""
        self._wait_no_more()
        super().connection_lost(exc)

    def _oldest_that_waits(self) -> "LimitedConnection":
        open_now = [cast("LimitedConnection", each) for each in self.connections]
        waiting = [each for each in open_now if each.conn.their_state in _NOT_WHOLE]
        return min(waiting, key=lambda each: each._opened_at, default=self)

    def _drop(self) -> None:
        # Counted out at once: the loop closes it a moment later.
        self.connections.discard(self)
        self.transport.abort()

    def _wait_for_head(self) -> None:
        self._wait_no_more()
        if not self.transport.is_closing():
            self._head_timer = self.loop.call_later(HEAD_SECONDS, self._drop)

    def _wait_no_more(self) -> None:
        if self._head_timer is not None:
            self._head_timer.cancel()
            self._head_timer = None
