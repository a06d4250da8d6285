"""What to ask about a part of a reply that was not recorded, and what to type instead."""

from collections.abc import Callable

from bot.reading.result import Question, QuestionKind
from bot.wording.plain_letters import to_gsm7

_LONGEST_PART = 40
_MOST_UNITS = 4
_EACH = "Type each unit with its own finding: 4a eggs, 4b no eggs."


def ask(question: Question) -> str:
    """Say what was not recorded and what to type instead, in one short plain sentence or two."""
    return to_gsm7(_ASK[question.kind](question))


def _part(question: Question) -> str:
    part = " ".join(question.part.split())
    short = part if len(part) <= _LONGEST_PART else part[: _LONGEST_PART - 3].rstrip() + "..."
    return f'"{short}"'


def _units(question: Question) -> str:
    shown = " ".join(question.units[:_MOST_UNITS])
    return shown + (" ..." if len(question.units) > _MOST_UNITS else "")


def _one(question: Question) -> str:
    return question.units[0] if question.units else "4b"


def _choices(question: Question, usual: str) -> str:
    """Give the readings with the unit in front, as they would be typed."""
    unit = question.units[0] if question.units else ""
    said = [_with_unit(unit, option) for option in question.options]
    return " or ".join(said) if said else usual


def _with_unit(unit: str, option: str) -> str:
    names_its_own = option[:1].isdigit() and option[1:2] != "/"
    whole = names_its_own or option.startswith(("combined", "plan", "boxes"))
    return option if whole or not unit else f"{unit} {option}"


def _no_such_unit(question: Question) -> str:
    return f"No unit {_units(question)} here. Check the name, or add it: boxes 1-12 of 3."


def _which_yard(question: Question) -> str:
    names = " or ".join(question.options) or "which one"
    example = (
        f"{question.options[0]} {_units(question)}".strip() if question.options else "River 4b"
    )
    return f"{_part(question)}: which yard, {names}? Start with its name: {example} ..."


def _which_meaning(question: Question) -> str:
    if not question.options:
        return f"{_part(question)} can be read two ways. {_EACH}"
    return f"{_part(question)} can be read two ways. Type: {_choices(question, '')}."


def _contradiction(question: Question) -> str:
    both = " and ".join(question.options)
    unit = _one(question)
    return f"{unit}: {both} cannot both be. Not recorded; send {unit} again."


def _no_unit(question: Question) -> str:
    return f"{_part(question)}: which units? Add them: 4a-c {_short(question)}."


def _short(question: Question) -> str:
    words = " ".join(question.part.split())
    return words if len(words) <= _LONGEST_PART // 2 else "eggs"


def _no_finding(question: Question) -> str:
    return f"{_part(question)}: what did you find? Type for example {_one(question)} eggs."


def _which_date(question: Question) -> str:
    usual = _choices(question, f"{_one(question)} eggs 12 May")
    return f"{_part(question)}: which day? Type it out: {usual}."


def _bad_number(question: Question) -> str:
    usual = _choices(question, f"fed {_one(question)} 1 quart")
    return f"{_part(question)}: the number or its unit is not clear. Type for example {usual}."


def _noted_already(question: Question) -> str:
    return f"{_part(question)} is noted already."


def _not_understood(question: Question) -> str:
    if question.units:
        kept = f"nothing kept for {_units(question)}"
        return (
            f"{_part(question)} was not understood; {kept}. Type for example {_one(question)} eggs."
        )
    return f"{_part(question)} was not understood. Type for example 4b eggs, or help."


def _nothing_said(_question: Question) -> str:
    return "Nothing to note. Type due for today, or help."


_ASK: dict[QuestionKind, Callable[[Question], str]] = {
    QuestionKind.NO_SUCH_UNIT: _no_such_unit,
    QuestionKind.WHICH_YARD: _which_yard,
    QuestionKind.WHICH_MEANING: _which_meaning,
    QuestionKind.CONTRADICTION: _contradiction,
    QuestionKind.NO_UNIT: _no_unit,
    QuestionKind.NO_FINDING: _no_finding,
    QuestionKind.WHICH_DATE: _which_date,
    QuestionKind.BAD_NUMBER: _bad_number,
    QuestionKind.NOTED_ALREADY: _noted_already,
    QuestionKind.NOT_UNDERSTOOD: _not_understood,
    QuestionKind.NOTHING_SAID: _nothing_said,
}
