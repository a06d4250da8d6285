"""What the owner sets for this carrier."""

from dataclasses import dataclass, field


@dataclass(frozen=True)
class SmppAccount:
    """A contract with a message centre.

    Attributes:
        host: its name or address.
        port: as a rule 2775, or 3550 with TLS.
        login: what it calls system_id.
        password: of at most eight letters, as the protocol has it.
        sender: our number (+12025550100) or short code.
        tls: whether the line is encrypted; without it, only over a line of one's own.
        region: the land (ISO 3166, "US") whose numbers come without a +; None where all are whole.
    """

    host: str
    port: int
    login: str
    password: str = field(repr=False)
    sender: str
    tls: bool = True
    region: str | None = None
