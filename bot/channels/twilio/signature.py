"""Whether a notice is the carrier's: its signature.

The address as the carrier called it, then each field's name and value, fields in the order of their
names; an HMAC under the account's token, in base64. With SHA-1; or, if a header says so, with
SHA-256 under a shared key. Sources: "Secure webhooks",
www.twilio.com/docs/usage/webhooks/webhooks-security; "Validating webhook signatures",
github.com/twilio/twilio-node, examples/WebhookSignatureValidation.md.
"""

import base64
import hashlib
import hmac
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any
from urllib.parse import urlsplit, urlunsplit

Fields = Sequence[tuple[str, str]]
"""Names and values as they were posted."""

SIGNATURE = "x-twilio-signature"
SETTINGS = "x-twilio-webhooks-signature-settings"

_DEFAULT_PORTS = {"https": 443, "http": 80}


def is_signed_by_twilio(
    url: str, fields: Fields, headers: Mapping[str, str], token: str, shared_key: str = ""
) -> bool:
    """Tell whether the carrier signed these fields for this address.

    Args:
        url: the address as the carrier called it, with its query.
        fields: what was posted.
        headers: the request's, by names in small letters.
        token: the account's secret.
        shared_key: the secret of signatures with SHA-256; without it there are none.
    """
    settings = headers.get(SETTINGS, "")
    key, digest = (shared_key, hashlib.sha256) if settings else (token, hashlib.sha1)
    if not key or (settings and _algorithm(settings) != "HMAC_SHA256"):
        return False
    said = headers.get(SIGNATURE, "").encode()
    right = [_signature(one, fields, key, digest) for one in _with_and_without_port(url)]
    return any(hmac.compare_digest(said, one) for one in right)


def _algorithm(settings: str) -> str:
    """Read "key=...,algorithm=HMAC_SHA256"."""
    parts = (part.partition("=") for part in settings.split(","))
    found = [value.strip().upper() for name, _, value in parts if name.strip() == "algorithm"]
    return found[0] if len(found) == 1 else ""


def _signature(url: str, fields: Fields, key: str, digest: Callable[[], Any]) -> bytes:
    signed = url + "".join(name + value for name, value in _in_order(fields))
    return base64.b64encode(hmac.new(key.encode(), signed.encode(), digest).digest())


def _in_order(fields: Fields) -> Iterable[tuple[str, str]]:
    """Give each field once, by name and value, as the carrier's own package does."""
    return sorted(set(fields))


def _with_and_without_port(url: str) -> set[str]:
    """Give both spellings of an address: the carrier has signed either."""
    parts = urlsplit(url)
    port = parts.port or _DEFAULT_PORTS[parts.scheme]
    bare = parts.netloc.removesuffix(f":{port}")
    hosts = (bare, f"{bare}:{port}")
    return {urlunsplit(parts._replace(netloc=host)) for host in hosts}
