"""Parts joined to clauses across commas: "4a, 4b and 4c eggs", "fed 2a, 2b", "4b eggs, saw her"."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from bot.reading.clauses.clause import (
    DETAILS,
    Clause,
    denies_nothing,
    has_role,
    is_all,
    is_bare,
    is_detail,
    is_note,
    is_remark,
    takes_details,
)
from bot.reading.lexicon.sense import PhraseRole
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import Break, BreakStrength, Element, Phrase, UnclearPart


def joined_clauses(parts: Sequence[Clause]) -> list[Clause]:
    """Give clauses: every part has units and something said, or speaks of a yard or a day."""
    joiner = _Joiner()
    rest = [part for part in parts if part.units or part.said or part.excluded]
    for at, part in enumerate(rest):
        joiner.take(part, rest[at + 1] if at + 1 < len(rest) else None)
    joiner.finish()
    return joiner.clauses


def _merge(first: Clause, second: Clause) -> Clause:
    whens = [part.when for part in (first, second) if part.when]
    both_dated = len(whens) > 1 and whens[0].spoken != whens[1].spoken
    clash = (UnclearPart(first.start, second.end, QuestionKind.WHICH_DATE),) if both_dated else ()
    return replace(
        first,
        units=(*first.units, *second.units),
        excluded=(*first.excluded, *second.excluded),
        said=(*first.said, *_parted(first, second), *second.said, *clash),
        yard=second.yard or first.yard,
        when=whens[0] if whens else None,
        leading=first.leading,
        yard_leads=first.yard_leads or (second.yard_leads and not first.said),
        start=min(first.start, second.start),
        end=max(first.end, second.end),
    )


def _parted(first: Clause, second: Clause) -> tuple[Element, ...]:
    """Keep a negation in one part from reaching into the next."""
    if not first.said or not second.said:
        return ()
    return (Break(first.end, second.start, second.parted),)


def _merged(parts: Iterable[Clause]) -> Clause:
    first, *rest = parts
    for part in rest:
        first = _merge(first, part)
    return first


class _Joiner:
    """Clauses so far, units that wait for what is said, and words that wait for units."""

    def __init__(self) -> None:
        self.clauses: list[Clause] = []
        self.waiting: list[Clause] = []
        self.words: list[Clause] = []

    def take(self, part: Clause, following: Clause | None) -> None:
        part = self._in_its_place(part)
        if part.of_yard:
            self.clauses.append(part)
        elif is_note(part) and not part.units:
            self._take_note(part)
        elif part.excluded and not part.units and self._last() is not None and not part.said:
            self._replace_last(part)
        elif part.units and part.said:
            self._take_full(part)
        elif part.units:
            self._take_units(part)
        else:
            self._take_words(part, following)

    def _in_its_place(self, part: Clause) -> Clause:
        """Read "all" after units as those units, and a detail after units with its verb."""
        if is_all(part) and (self.waiting or self._last() is not None):
            if self.waiting or self._only_remarked():
                return replace(part, units=())
            asked = (part.unclear(QuestionKind.NO_UNIT),)
            return part if part.yard else replace(part, units=(), said=asked)
        if not part.units and not self.waiting and not self.clauses and denies_nothing(part):
            return replace(part, said=(part.unclear(QuestionKind.NOT_UNDERSTOOD),))
        return part

    def _only_remarked(self) -> bool:
        """Say whether the last units were only "checked": what follows is said of them."""
        last = self._last()
        said = last.said if last else ()
        return bool(said) and all(has_role(element, PhraseRole.REMARK) for element in said)

    def finish(self) -> None:
        if self.words:
            self.clauses.append(_merged([*self.words, *self.waiting]))
            return
        self._settle_backward()

    def _last(self) -> Clause | None:
        last = self.clauses[-1] if self.clauses else None
        return None if last is None or last.of_yard or not last.units else last

    def _replace_last(self, part: Clause) -> None:
        self.clauses[-1] = _merge(self.clauses[-1], part)

    def _take_note(self, part: Clause) -> None:
        self._settle_backward()
        told = [clause for clause in self.clauses if not clause.of_yard]
        if len(told) == 1 and self._last() is not None and part.parted is not BreakStrength.STOP:
            self._replace_last(part)
        elif told:
            self.clauses.append(replace(part, said=(part.unclear(QuestionKind.NO_UNIT),)))
        else:
            self.clauses.append(part)

    def _take_full(self, part: Clause) -> None:
        if self.words:
            lead = self.words
            self.words = []
            if self.waiting or (not part.units_first and len(lead) > 1):
                self.clauses.append(self._unclear([*lead, *self.waiting, part]))
                self.waiting = []
                return
            part = replace(_merged([*lead, part]), units_first=part.units_first)
        if self._join_verb(part):
            return
        if self.waiting and part.units_first:
            self._join_forward(part)
        else:
            self._settle_backward()
            self.clauses.append(part)

    def _join_forward(self, part: Clause) -> None:
        last = self._last()
        if last is None or last.units_first or is_remark(last):
            self.clauses.append(_merged(self._take_waiting(part)))
        elif self.waiting[-1].parted < part.parted:
            self._settle_backward()
            self.clauses.append(part)
        elif self.waiting[0].parted is BreakStrength.STOP:
            self.clauses.append(_merged(self._take_waiting(part)))
        else:
            self.clauses.append(self._unclear(self._take_waiting(part)))

    def _take_waiting(self, part: Clause) -> list[Clause]:
        whole = [*self.waiting, part]
        self.waiting = []
        return whole

    def _join_verb(self, part: Clause) -> bool:
        """Give "8b 2 shakes" the verb of "made up 8a": both units if it had no number yet."""
        last = self._last()
        if last is None or not is_detail(part) or not takes_details(last):
            return False
        if not any(isinstance(element, DETAILS) for element in last.said) and not last.units_first:
            self._settle_backward()
            self._replace_last(part)
            return True
        verb = tuple(element for element in last.said if isinstance(element, Phrase))
        part = replace(part, said=(*verb, *part.said))
        if self.waiting:
            self._join_forward(part)
        else:
            self.clauses.append(replace(part, units_first=last.units_first))
        return True

    def _unclear(self, parts: list[Clause]) -> Clause:
        whole = _merged(parts)
        return replace(whole, said=(whole.unclear(QuestionKind.WHICH_MEANING),))

    def _take_units(self, part: Clause) -> None:
        if self.words:
            self.clauses.append(replace(_merged([*self.words, part]), units_first=False))
            self.words = []
        else:
            self.waiting.append(part)

    def _take_words(self, part: Clause, following: Clause | None) -> None:
        last = self._last()
        if self.waiting:
            self._words_after_units(part, last)
        elif last is None or (not last.units_first and is_bare(following) and not is_detail(part)):
            self.words.append(part)
        else:
            self._replace_last(part)

    def _words_after_units(self, part: Clause, last: Clause | None) -> None:
        stop = self.waiting[0].parted is BreakStrength.STOP
        back = last is not None and not last.units_first and not is_remark(last) and not stop
        if back and is_detail(part):
            self._settle_backward()
            self._replace_last(part)
            return
        whole = self._take_waiting(part)
        self.clauses.append(self._unclear(whole) if back else _merged(whole))

    def _settle_backward(self) -> None:
        """Give waiting units to the verb before them, or leave them without a finding."""
        last = self._last()
        for part in self.waiting:
            if last is not None and not last.units_first:
                self._replace_last(part)
            else:
                self.clauses.append(part)
        self.waiting = []
