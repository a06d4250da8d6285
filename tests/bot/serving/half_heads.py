"""A flood: connections that send half the head of a request and then nothing."""

import selectors
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field

HALF = b"POST /telegram/updates HTTP/1.1\r\nHost: a\r\nX-a: "
"""What the review of trust sent."""


@dataclass
class Flood:
    """So many connections to one address, each opened anew when it is closed on the other side.

    Attributes:
        host: where they go.
        port: where they go.
        most: how many are open at a time.
        opened: how many were opened in all.
    """

    host: str
    port: int
    most: int
    opened: int = 0
    _selector: selectors.BaseSelector = field(default_factory=selectors.DefaultSelector)
    _stop: threading.Event = field(default_factory=threading.Event)

    def run(self) -> None:
        """Keep them open until told to stop."""
        for _ in range(self.most):
            self._open()
        while not self._stop.is_set():
            for key, events in self._selector.select(0.1):
                assert isinstance(key.fileobj, socket.socket)
                self._serve(key.fileobj, events)

    def stop(self) -> None:
        """Close them all."""
        self._stop.set()

    def close(self) -> None:
        """Let go of every connection."""
        for key in list(self._selector.get_map().values()):
            assert isinstance(key.fileobj, socket.socket)
            key.fileobj.close()
        self._selector.close()

    def _open(self) -> None:
        each = socket.socket()
        each.setblocking(False)
        each.connect_ex((self.host, self.port))
        self._selector.register(each, selectors.EVENT_WRITE)
        self.opened += 1

    def _serve(self, each: socket.socket, events: int) -> None:
        """Send the half head once; when the other side closes, begin anew."""
        try:
            if events & selectors.EVENT_WRITE:
                each.send(HALF)
                self._selector.modify(each, selectors.EVENT_READ)
            elif each.recv(4096):
                return
            else:
                self._again(each)
        except OSError:
            self._again(each)

    def _again(self, each: socket.socket) -> None:
        self._selector.unregister(each)
        with suppress(OSError):
            each.close()
        # Not faster than a machine far away could.
        self._stop.wait(0.001)
        self._open()


@contextmanager
def flooded(host: str, port: int, most: int) -> Iterator[Flood]:
    """Keep so many half heads open at an address meanwhile."""
    flood = Flood(host, port, most)
    thread = threading.Thread(target=flood.run)
    thread.start()
    try:
        yield flood
    finally:
        flood.stop()
        thread.join()
        flood.close()
