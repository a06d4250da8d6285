"""Whether a notice is the phone's.

"Payload Signing", docs.sms-gate.app (github.com/android-sms-gateway/docs-web,
docs/features/webhooks.md): an HMAC with SHA-256 of the body and the time of sending, in
hexadecimal.
"""

import hashlib
import hmac
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta

FRESH = timedelta(days=3)
"""How old a notice may be: the app tries again for about two days (the same page). What is replayed
within them is known by its id and changes nothing."""

AHEAD = timedelta(minutes=5)


def is_signed(body: bytes, headers: Mapping[str, str], key: str, now: datetime) -> bool:
    """Tell whether the phone signed this body, and lately."""
    at = headers.get("x-timestamp", "")
    if not key or not (at.isascii() and at.isdecimal() and len(at) <= 11):
        return False
    right = hmac.new(key.encode(), body + at.encode(), hashlib.sha256).hexdigest()
    signed = hmac.compare_digest(headers.get("x-signature", "").encode(), right.encode())
    return signed and -AHEAD <= now - datetime.fromtimestamp(int(at), UTC) <= FRESH
