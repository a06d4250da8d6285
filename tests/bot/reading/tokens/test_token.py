"""What a keeper types becomes tokens: normalised first, then cut."""

import pytest

from bot.reading.tokens.token import TokenForm, normalise, text_at, tokenise


def texts(text: str) -> list[str]:
    return [token.text for token in tokenise(text)]


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("4b can't see her", "4b can not see her"),
        ("she's laying", "she is laying"),
        ("4b w/ eggs", "4b with eggs"),
        ("½ frame", "half frame"),
        ("box for dead sell", "box four dead cell"),
        ("none of 4b have eggs", "4b no eggs"),
        ("about 12 beetles", "12 beetles"),
    ],
)
def test_short_forms_signs_and_what_dictation_hears_are_written_out(typed: str, plain: str) -> None:
    assert normalise(typed).split() == plain.split()


@pytest.mark.parametrize(
    ("text", "forms"),
    [
        ("4b eggs", [TokenForm.GLUED, TokenForm.WORD]),
        ("5/10", [TokenForm.SLASH]),
        ("2027-05-12", [TokenForm.ISO]),
        ("1:1 syrup", [TokenForm.RATIO, TokenForm.WORD]),
        ("the 10th", [TokenForm.WORD, TokenForm.ORDINAL]),
        ("1.5 quarts\n", [TokenForm.NUMBER, TokenForm.WORD, TokenForm.LINE]),
    ],
)
def test_a_token_knows_what_it_looks_like(text: str, forms: list[TokenForm]) -> None:
    assert [token.form for token in tokenise(text)] == forms


def test_only_letters_in_order_are_compartments_of_the_box_before_them() -> None:
    assert texts("5abc fed") == ["5abc", "fed"]
    assert texts("5fed") == ["5", "fed"]


def test_a_full_stop_without_a_space_begins_no_number() -> None:
    assert texts("4a eggs.4b none") == ["4a", "eggs", ".", "4b", "none"]


def test_a_token_tells_where_it_stands_in_the_text() -> None:
    text = "4b EGGS, 4c none"
    assert [text[token.start : token.end].lower() for token in tokenise(text)] == texts(text)


def test_beyond_either_end_of_a_text_stands_nothing() -> None:
    tokens = tokenise("4b eggs")
    assert (text_at(tokens, -1), text_at(tokens, 2)) == ("", "")
