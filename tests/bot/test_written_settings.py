"""What a setting may say, where it is written, and that a wrong one is never repeated."""

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

import pytest

from bot.secret import Secret
from bot.settings import load_settings
from bot.surroundings import SettingsError
from bot.written_settings import (
    amount,
    matching,
    number_between,
    on_or_off,
    one_of,
    setting,
    values_of,
)


@dataclass(frozen=True, kw_only=True)
class Lamp:
    """Invented settings."""

    bright: bool = setting(on_or_off, default=False)
    watts: int = setting(number_between(1, 100), 40)
    colour: str = setting(one_of("red", "white"), "white")
    key: Secret | None = setting(Secret)
    price: Decimal | None = setting(amount)


@pytest.fixture(autouse=True)
def _in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_what_is_not_set_is_as_usual() -> None:
    assert Lamp(**values_of(Lamp, {"colour": "", "shade": "green"})) == Lamp()


def test_each_setting_is_read_by_its_own_reader() -> None:
    told = {"bright": "Yes", "watts": " 60 ", "colour": "red", "key": "k", "price": "0.0079"}
    assert values_of(Lamp, told) == {
        "bright": True,
        "watts": 60,
        "colour": "red",
        "key": Secret("k"),
        "price": Decimal("0.0079"),
    }


@pytest.mark.parametrize("off", ["0", "off", "FALSE", "no"])
def test_a_switch_is_switched_off(off: str) -> None:
    assert values_of(Lamp, {"bright": off}) == {"bright": False}


@pytest.mark.parametrize(
    ("name", "text", "right"),
    [
        ("bright", "perhaps", "1 for on, or 0 for off"),
        ("watts", "101", "from 1 to 100"),
        ("watts", "-5", "from 1 to 100"),
        ("watts", "\u0665", "from 1 to 100"),
        ("price", "-0.01", "an amount"),
        ("price", "NaN", "an amount"),
        ("price", "7 cents", "an amount"),
        ("colour", "redwhite", "'red' or 'white'"),
    ],
)
def test_a_wrong_one_is_told_what_would_be_right_and_not_repeated(
    name: str, text: str, right: str
) -> None:
    with pytest.raises(SettingsError, match=f"^YARDBELL_{name.upper()} is not usable: ") as refused:
        values_of(Lamp, {name: text})
    assert right in str(refused.value)
    assert text not in str(refused.value)


def test_the_whole_text_must_be_of_the_form() -> None:
    with pytest.raises(ValueError, match="two capitals"):
        matching("[A-Z]{2}", "two capitals")("US\n")


def test_the_environment_goes_before_the_file(monkeypatch: pytest.MonkeyPatch) -> None:
    Path(".env").write_text("YARDBELL_SMPP_PORT=2776\nYARDBELL_SMS_REGION='CA' # a land\nOTHER=1\n")
    monkeypatch.setenv("YARDBELL_SMPP_PORT", "2777")
    monkeypatch.setenv("YARDBELL_SMS_REGION", "")
    settings = load_settings()
    assert (settings.smpp_port, settings.sms_region) == (2777, "CA")


def test_small_letters_do_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("yardbell_smpp_port", "2778")
    assert load_settings().smpp_port == 2778


def test_a_secret_is_not_shown() -> None:
    secret = Secret("an-invented-key")
    assert secret.reveal() == "an-invented-key"
    assert "invented" not in f"{secret!r} {secret} {[secret]}"
    assert secret == Secret("an-invented-key") != Secret("another")
    assert len({secret, Secret("an-invented-key")}) == 1
