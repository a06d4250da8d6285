"""Signatures, held against the carrier's published example and its own package."""

import base64
import hashlib
import hmac
import json
from pathlib import Path
from typing import Any

import pytest

from bot.channels.twilio.twilio_notices import is_signed_by_twilio

# "Validate Incoming Requests", the carrier's documents of its PHP library:
# docs/usage/validation.rst, as at twilio-php-atbaker.readthedocs.io/en/latest/usage/validation.html
# and
# docs.huihoo.com/phpdoc/phabricator/xref/externals/twilio-php/docs/usage/validation.rst.source.txt.
TOKEN = "12345"  # noqa: S105 - published
URL = "https://mycompany.com/myapp.php?foo=1&bar=2"
FIELDS = [
    ("CallSid", "CA1234567890ABCDE"),
    ("Caller", "+14158675309"),
    ("Digits", "1234"),
    ("From", "+14158675309"),
    ("To", "+18005551212"),
]
SIGNATURE = "RSOYDt4T1cUTdK1PDd93/VVr8B8="

SETTINGS = {"x-twilio-webhooks-signature-settings": "key=k1,algorithm=HMAC_SHA256"}

# Made by the carrier's own package; the file says of what and how.
CASES: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "signatures.json").read_text(encoding="utf-8")
)["cases"]


def signed(signature: str = SIGNATURE) -> dict[str, str]:
    return {"x-twilio-signature": signature}


def test_the_published_example_is_the_carrier_s() -> None:
    assert is_signed_by_twilio(URL, FIELDS, signed(), TOKEN)
    assert is_signed_by_twilio(URL, FIELDS[::-1], signed(), TOKEN)
    assert is_signed_by_twilio(URL.replace(".com/", ".com:443/"), FIELDS, signed(), TOKEN)
    # The carrier leaves out any port at times, and so its own package does too.
    assert is_signed_by_twilio(URL.replace(".com/", ".com:8443/"), FIELDS, signed(), TOKEN)


@pytest.mark.parametrize(
    ("url", "fields", "signature", "token"),
    [
        (URL.replace("https", "http"), FIELDS, SIGNATURE, TOKEN),
        (URL.replace("bar=2", "bar=3"), FIELDS, SIGNATURE, TOKEN),
        (URL.replace("mycompany", "my-company"), FIELDS, SIGNATURE, TOKEN),
        (URL, FIELDS[:-1], SIGNATURE, TOKEN),
        (URL, [*FIELDS, ("Body", "4b eggs")], SIGNATURE, TOKEN),
        (URL, [*FIELDS[:-1], ("To", "+18005551213")], SIGNATURE, TOKEN),
        (URL, FIELDS, SIGNATURE.lower(), TOKEN),
        (URL, FIELDS, SIGNATURE[:-1], TOKEN),
        (URL, FIELDS, "", TOKEN),
        (URL, FIELDS, "r\u00e9", TOKEN),
        (URL, FIELDS, SIGNATURE, "12346"),
        (URL, FIELDS, SIGNATURE, ""),
    ],
)
def test_whatever_differs_from_the_example_is_forged(
    url: str, fields: list[tuple[str, str]], signature: str, token: str
) -> None:
    assert not is_signed_by_twilio(url, fields, signed(signature), token)


def headers_of(case: dict[str, Any]) -> dict[str, str]:
    settings = SETTINGS if case["algorithm"] == "HMAC_SHA256" else {}
    return signed(case["signature"]) | settings


@pytest.mark.parametrize("case", CASES, ids=map(str, range(len(CASES))))
def test_what_the_carrier_s_own_package_signs_is_the_carrier_s(case: dict[str, Any]) -> None:
    fields = [(name, value) for name, value in case["fields"]]
    newer = case["algorithm"] == "HMAC_SHA256"
    token, shared = ("another", case["token"]) if newer else (case["token"], "")
    assert is_signed_by_twilio(case["url"], fields, headers_of(case), token, shared)
    assert not is_signed_by_twilio(
        case["url"], [*fields, ("More", "x")], headers_of(case), token, shared
    )


def test_both_kinds_of_signature_are_among_the_cases() -> None:
    assert {case["algorithm"] for case in CASES} == {"HMAC_SHA1", "HMAC_SHA256"}


def test_without_a_shared_key_the_newer_signature_is_nobody_s() -> None:
    assert not is_signed_by_twilio(URL, FIELDS, signed() | SETTINGS, TOKEN)


@pytest.mark.parametrize(
    "settings",
    ["key=k1,algorithm=HMAC_SHA1", "key=k1,algorithm=NONE", "key=k1", "algorithm", ",,,=",
     "algorithm=HMAC_SHA256,algorithm=HMAC_SHA1"],
)  # fmt: skip
def test_a_header_cannot_choose_a_weaker_way(settings: str) -> None:
    by_sha1 = hmac.new(b"shared", (URL + "ab").encode(), hashlib.sha1).digest()
    headers = signed(base64.b64encode(by_sha1).decode()) | {
        "x-twilio-webhooks-signature-settings": settings
    }
    assert not is_signed_by_twilio(URL, [("a", "b")], headers, "shared", "shared")


def by_sha256(key: str) -> str:
    digest = hmac.new(key.encode(), (URL + "ab").encode(), hashlib.sha256).digest()
    return base64.b64encode(digest).decode()


def test_nobody_can_sign_with_the_key_that_was_not_set() -> None:
    """Whoever sends the settings' header asks for a key that is empty, and knows it."""
    forged = signed(by_sha256("")) | SETTINGS
    assert not is_signed_by_twilio(URL, [("a", "b")], forged, TOKEN)
    by_sha1 = hmac.new(b"", (URL + "ab").encode(), hashlib.sha1).digest()
    bare = signed(base64.b64encode(by_sha1).decode())
    assert not is_signed_by_twilio(URL, [("a", "b")], bare, "")


@pytest.mark.parametrize("named", ["HMAC_SHA1", "NONE", ""])
def test_the_newer_signature_is_nobody_s_under_another_name(named: str) -> None:
    settings = {"x-twilio-webhooks-signature-settings": f"key=k1,algorithm={named}"}
    headers = signed(by_sha256("shared")) | settings
    assert not is_signed_by_twilio(URL, [("a", "b")], headers, TOKEN, "shared")
    right = signed(by_sha256("shared")) | SETTINGS
    assert is_signed_by_twilio(URL, [("a", "b")], right, TOKEN, "shared")
