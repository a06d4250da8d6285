"""What the owner sets for the phone."""

from dataclasses import dataclass, field


@dataclass(frozen=True)
class PhoneDevice:
    """An old phone that relays texts, with the SMSGate app in its local mode.

    Attributes:
        url: where the app answers, as http://192.168.1.10:8080.
        login: the name that the app shows.
        password: its password.
        signing_key: the key that the app signs its notices with.
        public_url: where the phone reaches our HTTP side, before the path. The app posts only to
            https, or to the phone's own loopback (http://127.0.0.1:PORT, led to us by a cable).
        region: the land (ISO 3166, "US") whose numbers the phone shows without a +.

    """

    url: str
    login: str
    password: str = field(repr=False)
    signing_key: str = field(repr=False)
    public_url: str
    region: str | None = None
