"""Where the program listens for HTTP."""

from dataclasses import dataclass

LOOPBACK = "127.0.0.1"
_PORTS = range(65536)


class CannotListenError(Exception):
    """The address cannot be listened on; the message is one line that names it."""


@dataclass(frozen=True)
class HttpAddress:
    """A host and a port; port 0 takes a free one."""

    host: str
    port: int

    def __str__(self) -> str:
        """Write it as it is set."""
        return f"[{self.host}]:{self.port}" if ":" in self.host else f"{self.host}:{self.port}"


def parse_address(written: str) -> HttpAddress:
    """Read ``8080``, ``127.0.0.1:8080`` or ``[::1]:8080``; without a host it is this machine only.

    Raises:
        ValueError: it is something else.
    """
    host, _, port = written.strip().rpartition(":")
    if not (port.isascii() and port.isdigit() and int(port) in _PORTS):
        raise ValueError("write it as HOST:PORT, for example 127.0.0.1:8080")
    bare = host.removeprefix("[").removesuffix("]")
    if ":" in bare and host == bare:
        raise ValueError("write an address of IPv6 in brackets, for example [::1]:8080")
    return HttpAddress(bare or LOOPBACK, int(port))
