"""Tells the service manager that started the program how it is: ready, alive, stopping.

The protocol is systemd's (sd_notify(3)): a datagram to the socket that ``NOTIFY_SOCKET`` names.
"""

import os
import socket
from enum import StrEnum

from bot.program_log import log_of

log = log_of(__name__)


class Life(StrEnum):
    """What the service manager may be told; the values are the protocol's."""

    READY = "READY=1"
    ALIVE = "WATCHDOG=1"
    STOPPING = "STOPPING=1"


def tell_service_manager(life: Life) -> None:
    """Tell it, where there is one that wants to know; it never waits, and no failure matters."""
    named = os.environ.get("NOTIFY_SOCKET")
    if not named:
        return
    # A name that begins with @ is one without a file.
    address = f"\0{named[1:]}" if named.startswith("@") else named
    try:
        with socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM | socket.SOCK_NONBLOCK) as to:
            to.sendto(life.encode(), address)
    except OSError as error:
        log.warning("the service manager could not be told", error=type(error).__name__)
