"""What the owner sets for this carrier."""

from dataclasses import dataclass, field

TWILIO_API = "https://api.twilio.com"
"""Twilio's own server."""


@dataclass(frozen=True)
class TwilioAccount:
    """An account, and where its notices reach us.

    Attributes:
        sid: the account's name at the carrier, "AC" and 32 hexadecimal digits.
        token: the account's secret: it opens the API and signs notices.
        sender: our number in the form +12025550100, or a messaging service's name ("MG...").
        public_url: the address of our HTTP side as the carrier reaches it, before the path: behind
            a proxy it is the proxy's.
        shared_key: the secret of signatures with SHA-256, if the account was switched to them.
        url: the API's server.
    """

    sid: str
    token: str = field(repr=False)
    sender: str
    public_url: str
    shared_key: str = field(default="", repr=False)
    url: str = TWILIO_API

    @property
    def messages_url(self) -> str:
        """Where messages are posted; the path as in the carrier's own package, twilio 9.13."""
        return f"{self.url.rstrip('/')}/2010-04-01/Accounts/{self.sid}/Messages.json"
