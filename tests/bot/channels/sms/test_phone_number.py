"""Numbers as people and carriers write them, kept in E.164."""

import pytest

from bot.channels.sms.phone_number import international, is_number


# Numbers of ranges set aside for fiction: 555-01xx in North America, 020 7946 0xxx in Britain, and
# invented ones; forms from ITU-T E.123 (from memory).
@pytest.mark.parametrize(
    ("written", "region", "kept"),
    [
        ("+12025550123", None, "+12025550123"),
        ("+1 (202) 555-0123", None, "+12025550123"),
        ("2025550123", "US", "+12025550123"),
        ("(202) 555 0123", "US", "+12025550123"),
        ("020 7946 0123", "GB", "+442079460123"),
        ("0044 20 7946 0123", "GB", "+442079460123"),
        ("2025550123", None, None),
        ("88022", "US", None),
        ("YARDS", "US", None),
        ("", "US", None),
        ("+", None, None),
    ],
)
def test_a_number_is_kept_in_full(written: str, region: str | None, kept: str | None) -> None:
    assert international(written, region) == kept


@pytest.mark.parametrize("address", ["+1202555", "+123456789012345"])
def test_what_is_a_number(address: str) -> None:
    assert is_number(address)


@pytest.mark.parametrize(
    "address",
    ["12025550123", "+0202555012", "+1 202", "+120255\n", "+1234567890123456", "", "ada@x"],
)
def test_what_is_none(address: str) -> None:
    assert not is_number(address)
