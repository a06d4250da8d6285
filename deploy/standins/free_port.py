"""A port of this machine that nobody listens on."""

import socket


def free_port() -> int:
    """Ask the system for a port, and let go of it."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])
