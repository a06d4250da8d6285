"""Message ids that only we can make: an answer that names one comes from whom we wrote to.

A sender's address can be forged by anybody. The id of each letter of ours holds a signature of the
letter and its recipient, mail programs repeat it in their answers (RFC 5322, 3.6.4: In-Reply-To and
References), and nobody else has seen it.
"""

import hashlib
import hmac
import re
from collections.abc import Iterable

_OURS = re.compile(r"<([0-9a-f]{24})\.([0-9a-f]{32})@[^<>\s]+>")


def make_message_id(own: str, recipient: str, sender: str, key: str) -> str:
    """Make the id of a letter.

    Args:
        own: our name of the letter, 24 hexadecimal digits.
        recipient: the address it goes to.
        sender: our address.
        key: the secret.

    """
    return f"<{own}.{_signature(own, recipient, key)}@{sender.rpartition('@')[2]}>"


def own_names(written: Iterable[str], recipient: str, key: str) -> list[str]:
    """Give our names of the letters to this address whose ids stand in the words."""
    found = [pair for words in written for pair in _OURS.findall(words)]
    return [
        own for own, said in found if hmac.compare_digest(said, _signature(own, recipient, key))
    ]


def _signature(own: str, recipient: str, key: str) -> str:
    what = f"{own}\0{recipient.lower()}".encode()
    return hmac.new(key.encode(), what, hashlib.sha256).hexdigest()[:32]
