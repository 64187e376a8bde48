"""One spelled string from its first character to its last, with what people say between: asides, repairs, endings."""

from __future__ import annotations

from collections.abc import Iterator, Set

from fieldnotes.tidy.characters import CharacterReader, Characters
from fieldnotes.tidy.repairs import SHORTEST, SpelledString
from fieldnotes.tidy.retractions import cue_at

ASIDE = 8  # words between "no" and what replaces the string ("no, that's a smudge, eight two zero")
NUMBERS_OF_A_PLATE = ("serial", "model")
REREAD = 20  # words after a string within which it may be given once more from its start


class RunReader:
    """Reads the string at a given token. `measured`: tokens of measurements, which end it."""

    def __init__(self, characters: CharacterReader, measured: Set[int]) -> None:
        self.characters, self._measured = characters, measured
        self.tokens, self.texts, self.lexicon = characters.tokens, characters.texts, characters.lexicon
        self._goes_on = characters.reader.goes_on

    def at(self, i: int, limit: int) -> SpelledString | None:
        """The string that begins at token `i`, up to token `limit`; None where none does."""
        start = self.characters.at(i)
        if start is None or (start.last - i == 1 and self.texts[i] in self.lexicon.sound_alikes):
            return None
        run = SpelledString()
        k, marker = i, ""
        while k < limit and k not in self._measured:
            here = self.characters.at(k, run.sounding)
            if here is not None:
                if run.text and self._opens_breath(k) and self._is_named_behind(k):
                    break
                if self._counts_things(k, here, run) or self._heads_date(here, run):
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

    def _opens_breath(self, k: int) -> bool:
        return k > 0 and self.tokens[k].breath != self.tokens[k - 1].breath

    def _is_named_behind(self, k: int) -> bool:
        """Whether a breath that opens with a string says behind it which it is: "nine oh four C, that's the serial"."""
        breath = self.tokens[k].breath
        end = next((m for m in range(k, len(self.texts)) if self.tokens[m].breath != breath), len(self.texts))
        named = next((m for m in range(k, end) if self.texts[m] in NUMBERS_OF_A_PLATE), None)
        return named is not None and not any(
            here and here.text.isdigit()
            for here in (self.characters.at(m, "0") for m in range(named + 1, end))
        )

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
        if self._ends_niner(k, run):
            return k + 1, ""
        if self.texts[k] in self.lexicon.spelling.repeats and self._goes_on(k):
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

    def _ends_niner(self, k: int, run: SpelledString) -> bool:
        """Whether "or" behind a nine is the end of "niner" ("5, 5, 9, or tango"); "559 or 558" gives a choice."""
        heard = self.tokens[k].confidence < 1.0 and self.texts[k] in self.lexicon.spelling.niner_ends
        behind = self.characters.at(k + 1, run.sounding) if heard and run.text.endswith("9") else None
        return behind is not None and behind.text[0] != run.text[-3:][0]

    def _past_aside(self, k: int) -> int:
        """Where the string goes on after "no": at once, or past a few words ("that's a smudge, eight two zero")."""
        for m in self._ahead(k, ASIDE):
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
        for m in self._ahead(k, REREAD):
            if self.characters.at(m) is None:
                continue
            said, n = "", m
            while len(said) < len(whole) and (here := self.characters.at(n, said)):
                said, n = said + here.text, here.last
            if len(said) >= SHORTEST and said[:SHORTEST] == whole[:SHORTEST]:
                return m
        return None

    def _ahead(self, k: int, most: int) -> Iterator[int]:
        """Tokens from `k` on, so many at most, up to the end of the breath before it or a word such as "serial"."""
        for m in range(k, min(k + most, len(self.texts))):
            other_breath = self.tokens[m].breath != self.tokens[k - 1].breath
            if other_breath or self.texts[m] in self.lexicon.numbers.labels:
                return
            yield m

    def _last_letter(self, k: int, run: SpelledString) -> int | None:
        """ "... and that last letter's a Z, not a two": puts the last character right; the token after it."""
        named = self.lexicon.last_letter.at(self.texts, k)
        right = self._single(k + named[0], run.sounding) if named else None
        if right is None:
            return None
        wrong = None
        if denied := self.lexicon.not_that.at(self.texts, right.last):
            wrong = self._single(right.last + denied[0], right.text)
        last = wrong.last if wrong else right.last
        run.end_with(right.text, wrong.text if wrong else "", last)
        return last

    def _letter_on_the_end(self, k: int, run: SpelledString) -> int | None:
        """ "... and a G on the end of it": one more character; the token after it."""
        more = self.lexicon.one_more.at(self.texts, k)
        here = self._single(k + more[0], run.sounding) if more else None
        end = self.lexicon.on_the_end.at(self.texts, here.last) if here else None
        if here is None or end is None:
            return None
        run.add(here, "")
        return here.last + end[0]

    def _single(self, k: int, before: str) -> Characters | None:
        """One character at token `k`."""
        here = self.characters.at(k, before)
        return here if here and len(here.text) == 1 else None

    def _counts_things(self, k: int, here: Characters, run: SpelledString) -> bool:
        """ "F nine, one count": a lone number after a stop, before a thing, is no part of the string."""
        if not run.text or run.open or not here.text.isdigit() or not self._goes_on(here.last):
            return False
        following = self.texts[here.last]
        inside = self.characters.at(here.last, here.text) or self._between_words(here.last)
        return not inside and following not in self.lexicon.numbers.reading_goes_on

    def _heads_date(self, here: Characters, run: SpelledString) -> bool:
        """ "..., six six one. B, spring 2018": what is left of "bought" is no character of the string before it."""
        lone = bool(run.text) and len(here.text) == 1 and here.text.isalpha() and here.last < len(self.texts)
        dated = lone and self.texts[here.last] in self.lexicon.numbers.months
        return dated and self.characters.at(here.last, here.text) is None  # November is a code word, too

    def _between_words(self, k: int) -> bool:
        return bool(self.lexicon.dropped.at(self.texts, k) or self.lexicon.pauses.at(self.texts, k))
