"""Strings that were spelled aloud: "P X W, five oh four two, W" -> PXW5042W, with the speaker's repairs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from fieldnotes.tidy.characters import CharacterReader, Characters
from fieldnotes.tidy.lexicon import Lexicon, lexicon_of
from fieldnotes.tidy.repairs import SpelledString
from fieldnotes.tidy.retractions import cue_at
from fieldnotes.tidy.text import Quantity, Spelled, Token
from fieldnotes.vocabulary.measures import Measures

SHORTEST = 3  # characters of a string that no word like "model" announces


def spell(
    tokens: Sequence[Token], first: int, last: int, measures: Measures, quantities: Iterable[Quantity] = ()
) -> Spelled | None:
    """The first spelled string of two or more characters in tokens `first` to `last`, e.g. after "model".

    `quantities`, where given, keep measurements ("120 volts") out of it.
    """
    return Speller(tokens, lexicon_of(measures), quantities).spell(first, last)


def find_spelled(
    tokens: Sequence[Token], measures: Measures, quantities: Iterable[Quantity] = ()
) -> tuple[Spelled, ...]:
    """All strings that look spelled: letters with digits, three or more letters, four or more digits."""
    return Speller(tokens, lexicon_of(measures), quantities).find()


class Speller:
    """Reads spelled strings in one text."""

    def __init__(
        self, tokens: Sequence[Token], lexicon: Lexicon, quantities: Iterable[Quantity] = ()
    ) -> None:
        self.tokens, self.lexicon = tokens, lexicon
        self.characters = CharacterReader(tokens, lexicon)
        self.texts = self.characters.texts
        self._measured = {
            n
            for q in quantities
            if (q.unit or q.value % 1) and not self._is_inside(q)
            for n in range(q.first, q.last)
        }

    def _is_inside(self, quantity: Quantity) -> bool:
        """Whether what looks like a measurement stands inside a spelled string ("x-ray zero kilo", "I-0-F-0"): its
        unit is a character too, and a letter comes right before it."""
        before, unit = quantity.first - 1, quantity.last - 1
        if before < 0 or self.characters.at(unit) is None:
            return False
        ends = [self.characters.at(k) for k in range(max(0, before - 1), before + 1)]
        spelled_before = any(found and found.last == quantity.first for found in ends)
        return spelled_before and self.tokens[before].breath == self.tokens[unit].breath

    def spell(self, first: int, last: int) -> Spelled | None:
        """The first spelled string of two or more characters that begins in `first` to `last`."""
        last = min(last, len(self.texts))
        for i in range(first, last):
            if i in self._measured or self._is_year(i):
                continue
            run = self._run(i, last)
            if run and len(run.text) >= 2 and (any(c.isdigit() for c in run.text) or run.one_by_one):
                return Spelled(i, run.last, run.text, run.repaired)
        return None

    def find(self) -> tuple[Spelled, ...]:
        """All strings of at least `SHORTEST` characters that look spelled."""
        found: list[Spelled] = []
        i = 0
        while i < len(self.texts):
            run = self._run(i, len(self.texts)) if self._may_start(i) else None
            if run and len(run.text) >= SHORTEST and self._looks_spelled(run):
                found.append(Spelled(i, run.last, run.text, run.repaired))
                i = run.last
            else:
                i += 1
        return tuple(found)

    def _may_start(self, i: int) -> bool:
        text = self.texts[i]
        if i in self._measured or (text in ("a", "i") and not self.tokens[i].capital):
            return False
        if text == "i" and self.tokens[i].stop != ",":
            return False
        return self.characters.at(i) is not None and not self._is_year(i)

    def _looks_spelled(self, run: SpelledString) -> bool:
        digits = sum(sign.isdigit() for sign in run.text)
        if digits == len(run.text):
            return digits > SHORTEST and run.one_by_one
        return digits > 0 or run.one_by_one

    def _is_year(self, i: int) -> bool:
        numbers = self.lexicon.numbers
        if i == 0 or self.texts[i - 1] not in numbers.year_after | numbers.months | {"in"}:
            return False
        number = self.characters.reader.at(i)
        return number is not None and (number.form == "year" or 1950 <= number.value <= 2049)

    def _run(self, i: int, limit: int) -> SpelledString | None:
        """The string that begins at token `i`."""
        start = self.characters.at(i)
        if start is None or (start.last - i == 1 and self.texts[i] in self.lexicon.sound_alikes):
            return None
        run = SpelledString()
        k, marker = i, ""
        while k < limit and k not in self._measured:
            here = self.characters.at(k, run.sounding)
            if here is not None:
                if self._counts_things(k, here, run):
                    break
                run.add(here, marker)
                k, marker = here.last, ""
                if self.tokens[k - 1].stop or (
                    k < limit and self.tokens[k].breath != self.tokens[k - 1].breath
                ):
                    run.close()
                continue
            step = self._between(k, run)
            if step is None:
                break
            k, mark = step
            marker = mark or marker
            if mark:
                run.close()
        run.finish()
        return run if run.text else None

    def _between(self, k: int, run: SpelledString) -> tuple[int, str] | None:
        """Past words that may stand inside a string, and what they mean: "repair", "again" or nothing."""
        ending = self._last_letter(k, run)
        if ending is not None:
            return ending, ""
        cue = cue_at(self.texts, self.tokens, k, self.lexicon)
        bare_no = self.texts[k] in self.lexicon.retractions.no and self.characters.at(k + 1, "0")
        if bare_no or (cue and cue[1] != "settles"):
            return k + (cue[0] if cue else 1), "repair"
        if more := self.lexicon.once_more.at(self.texts, k):
            return k + more[0], "again"
        step = self.lexicon.dropped.at(self.texts, k) or self.lexicon.pauses.at(self.texts, k)
        return (k + step[0], "") if step else None

    def _last_letter(self, k: int, run: SpelledString) -> int | None:
        """ "... and that last letter's a Z, not a two": puts the last character right; the token after it."""
        k = self._skip(k, ("and", "with", "then"))
        k = self._skip(k, ("that", "the", "its", "this"))
        named = self.lexicon.last_letter.at(self.texts, k)
        if named is None:
            return None
        k = self._skip(self._skip(k + named[0], ("'s", "is", "was")), ("a", "an"))
        right = self.characters.at(k, run.sounding)
        if right is None or len(right.text) != 1:
            return None
        k, wrong = right.last, ""
        if self.texts[k : k + 1] == ["not"]:
            other = self.characters.at(self._skip(k + 1, ("a", "an")), right.text)
            if other and len(other.text) == 1:
                k, wrong = other.last, other.text
        run.end_with(right.text, wrong, k)
        return k

    def _skip(self, k: int, words: tuple[str, ...]) -> int:
        return k + 1 if k < len(self.texts) and self.texts[k] in words else k

    def _counts_things(self, k: int, here: Characters, run: SpelledString) -> bool:
        """ "F nine, one count": a lone number after a stop, before a thing, is no part of the string."""
        if (
            not run.text
            or run.open
            or not here.text.isdigit()
            or not self.characters.reader.goes_on(here.last)
        ):
            return False
        following = self.texts[here.last]
        inside = self.characters.at(here.last, here.text) or self._between_words(here.last)
        return not inside and following not in self.lexicon.numbers.reading_goes_on

    def _between_words(self, k: int) -> bool:
        return bool(self.lexicon.dropped.at(self.texts, k) or self.lexicon.pauses.at(self.texts, k))
