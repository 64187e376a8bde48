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
ASIDE = 8  # words between "no" and what replaces the string ("no, that's a smudge, eight two zero")
REREAD = 20  # words after a string within which it may be given once more from its start


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
                return self._spelled(i, run)
        return None

    def find(self) -> tuple[Spelled, ...]:
        """All strings of at least `SHORTEST` characters that look spelled."""
        found: list[Spelled] = []
        i = 0
        while i < len(self.texts):
            run = self._run(i, len(self.texts)) if self._may_start(i) else None
            if run and len(run.text) >= SHORTEST and self._looks_spelled(run):
                found.append(self._spelled(i, run))
                i = run.last
            elif run and run.text.isdigit():
                i = max(i + 1, run.last)  # nor does a number said in pairs look spelled from its middle on
            else:
                i += 1
        return tuple(found)

    def _spelled(self, first: int, run: SpelledString) -> Spelled:
        places = range(first, run.last)
        sure = not any(self.tokens[n].guessed or self._rhymes(n) for n in places)
        return Spelled(first, run.last, run.text, run.repaired, sure)

    def _rhymes(self, i: int) -> bool:
        """Whether token `i` is a letter that was heard (not typed) and that no word tells from those that rhyme."""
        token, following = self.tokens[i], self.texts[i + 1 : i + 2]
        signs = [sign for sign in token.heard or token.text if sign.isalpha()]
        written = len(token.text) == 1 or any(map(str.isdigit, token.text)) or "".join(signs).isupper()
        if (
            token.confidence == 1.0
            or not written
            or self.lexicon.spelling.rhyming.isdisjoint(token.text.upper())
        ):
            return False
        told = self.lexicon.as_in.at(self.texts, i + 1) or (
            following and following[0] in self.lexicon.spelling.for_word
        )
        return not told

    def _may_start(self, i: int) -> bool:
        text = self.texts[i]
        if i in self._measured or (text in ("a", "i") and not self._letter_opens(i)):
            return False
        if text == "one" and self._is_a_thing(i):
            return False
        return self.characters.at(i) is not None and not self._is_year(i)

    def _letter_opens(self, i: int) -> bool:
        """Whether "a" or "I" can be a string's first letter: "A for apple", "I, N, D", "I N D"."""
        token, following = self.tokens[i], self.texts[i + 1 : i + 2]
        if self.characters.spelled_out(token.text.upper(), i + 1):
            return True
        if token.text == "a":
            return token.capital
        lone = bool(following) and len(following[0]) == 1 and following[0] not in ("a", "i")
        return token.stop == "," or lone

    def _is_a_thing(self, i: int) -> bool:
        """ "The long one, two zero ...": no digit."""
        numbers, before = self.lexicon.numbers, self.texts[max(0, i - 2) : i]
        return (
            bool(self.tokens[i].stop)
            and before[:1] in (["the"], ["a"], ["this"])
            and before[1] not in numbers.labels
        )

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
        ending = self._last_letter(k, run) or self._letter_on_the_end(k, run)
        if ending is not None:
            return ending, ""
        cue = cue_at(self.texts, self.tokens, k, self.lexicon)
        bare_no = self.texts[k] in self.lexicon.retractions.no and self.characters.at(k + 1, "0")
        if bare_no or (cue and cue[1] != "settles"):
            at = k + (cue[0] if cue else 1)
            goes_on = at if self.characters.at(at, run.sounding) else self._past_aside(at)
            return (goes_on, "repair") if goes_on == at or len(run.text) >= SHORTEST else None
        if self.texts[k] == "again" and self.characters.reader.goes_on(k):
            return k + 1, ""  # "G D, G like George again"
        if more := self.lexicon.once_more.at(self.texts, k):
            return k + more[0], "again"
        if cue and self.lexicon.pauses.at(self.texts, k):
            return k + cue[0], "halt"
        step = self.lexicon.dropped.at(self.texts, k) or self.lexicon.pauses.at(self.texts, k)
        if step:
            return k + step[0], ""
        again = self._given_again(k, run)
        return (again, "again") if again else None

    def _past_aside(self, k: int) -> int:
        """Where the string goes on after "no": at once, or past a few words ("that's a smudge, eight two zero")."""
        for m in range(k, min(k + ASIDE, len(self.texts))):
            if (
                self.tokens[m].breath != self.tokens[k - 1].breath
                or self.texts[m] in self.lexicon.numbers.labels
            ):
                break
            here = self.characters.at(m, "0")
            if (
                here
                and self.texts[m] not in ("a", "i", "o")
                and (len(here.text) > 1 or self.characters.at(here.last, "0"))
            ):
                return m
        return k

    def _given_again(self, k: int, run: SpelledString) -> int | None:
        """Where the same breath gives the string once more from its start: "..., then a letter, so U F two eight"."""
        whole = run.text
        if len(whole) < SHORTEST or whole.isdigit():
            return None
        for m in range(k, min(k + REREAD, len(self.texts))):
            if (
                self.tokens[m].breath != self.tokens[k - 1].breath
                or self.texts[m] in self.lexicon.numbers.labels
            ):
                return None
            if self.characters.at(m) is None:
                continue
            said, n = "", m
            while len(said) < len(whole) and (here := self.characters.at(n, said)):
                said, n = said + here.text, here.last
            if len(said) >= SHORTEST and said[:SHORTEST] == whole[:SHORTEST]:
                return m
        return None

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

    def _letter_on_the_end(self, k: int, run: SpelledString) -> int | None:
        """ "... and a G on the end of it": one more character; the token after it."""
        start = self._skip(
            self._skip(self._skip(k, ("and", "with", "plus")), ("then", "there's")), ("a", "an")
        )
        here = self.characters.at(start, run.sounding) if start > k else None
        if here is None or len(here.text) != 1:
            return None
        if self.texts[here.last : here.last + 3] not in (
            ["on", "the", "end"],
            ["at", "the", "end"],
            ["to", "finish", "it"],
        ):
            return None
        run.add(here, "")
        return here.last + 3

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
