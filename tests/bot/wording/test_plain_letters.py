import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.sms.segments import BASIC, EXTENSION, is_gsm7
from bot.wording.plain_letters import to_gsm7


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("didn\N{RIGHT SINGLE QUOTATION MARK}t see her", "didn't see her"),
        (
            "\N{LEFT DOUBLE QUOTATION MARK}hot\N{RIGHT DOUBLE QUOTATION MARK} unit",
            '"hot" unit',
        ),
        ("4a\N{EN DASH}c eggs \N{EM DASH} good", "4a-c eggs - good"),
        ("later\N{HORIZONTAL ELLIPSIS}", "later..."),
        ("4a\N{NO-BREAK SPACE}eggs\tgood", "4a eggs good"),
        ("\N{VULGAR FRACTION ONE HALF} frame", "1/2 frame"),
        ("2\N{VULGAR FRACTION ONE HALF} quarts", "2 1/2 quarts"),
        ("2 \N{VULGAR FRACTION ONE QUARTER}", "2 1/4"),
        ("30°C in the shade", "30 C in the shade"),
        ("30 °C in the shade", "30 C in the shade"),
        ("30\N{MASCULINE ORDINAL INDICATOR}C", "30 C"),
        ("86\N{DEGREE FAHRENHEIT}, 30 \N{DEGREE CELSIUS}", "86 F, 30 C"),
        ("20 °", "20 deg"),
        ("weighs 1\N{MIDDLE DOT}5 kg", "weighs 1.5 kg"),
        ("10\N{SUPERSCRIPT TWO}", "10^2"),
        ("5\N{MULTIPLICATION SIGN}3, 6\N{DIVISION SIGN}2", "5x3, 6/2"),
        (
            "\N{NOT EQUAL TO} 4, \N{LESS-THAN OR EQUAL TO} 5, \N{PLUS-MINUS SIGN}1",
            "not = 4, <= 5, +/-1",
        ),
        ("4a \N{RIGHTWARDS ARROW} 4b", "4a -> 4b"),
        ("3 \N{MICRO SIGN}g, 40\N{CENT SIGN}", "3 ug, 40c"),
        ("lid at 30°", "lid at 30 deg"),
        ("Señor Peña, José, Ávila, Łódź", "Señor Peña, José, Avila, Lodz"),
        ("Façade yard", "Facade yard"),
        ("Kärnten", "Kärnten"),
        ("Ka\N{COMBINING DIAERESIS}rnten", "Kärnten"),
        ("Большой двор", "Большой двор"),
        ("good \N{HONEYBEE}", "good \N{HONEYBEE}"),
    ],
)
def test_typed_letters_are_made_plain(typed: str, plain: str) -> None:
    assert to_gsm7(typed) == plain


@given(st.text(st.sampled_from(sorted(BASIC | EXTENSION))))
def test_letters_of_the_alphabet_are_kept(text: str) -> None:
    kept = to_gsm7(text)
    assert is_gsm7(kept)
    assert kept == text


@given(st.text())
def test_making_plain_twice_changes_nothing_more(text: str) -> None:
    assert to_gsm7(to_gsm7(text)) == to_gsm7(text)
