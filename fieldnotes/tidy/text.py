"""What tidying hands on: tokens with their times, and the numbers and spelled-out strings found among them.

Token ranges are half-open: `first` is the first token, `last` the one after the end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

SENTENCE_ENDS = (".", "?", "!", ";")  # of a token's `stop`


@dataclass(frozen=True, slots=True)
class Token:
    """One word as the rules see it: lower case, no punctuation, contractions split (`it's` -> `it`, `'s`).

    `heard` is the word as it came ("ohms,"), on the first token of a split word only; `stop` the punctuation
    that follows it (`,` `.` `?` `!` `;` `:` or empty); `capital` whether it was written with a capital;
    `guessed` whether it was heard otherwise and only taken for this ("mic" for mike, in a serial number).
    """

    text: str
    heard: str
    breath: int
    stop: str = ""
    capital: bool = False
    start: float | None = None
    end: float | None = None
    confidence: float = 1.0
    guessed: bool = False


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number that was said, with its unit where one was said. `unit` is one of the record's unit names."""

    first: int
    last: int
    value: float
    unit: str | None = None
    ordinal_or_count: bool = False  # "three nineties", "first", "two buckets": no measurement
    replaced: bool = False  # taken back by a later number ("fourteen, sorry, forty")


@dataclass(frozen=True, slots=True)
class Spelled:
    """A run of letters and digits said one by one: `text` is as on the plate, e.g. "PXW5042W"."""

    first: int
    last: int
    text: str
    repaired: bool = False  # the speaker corrected himself within it
    sure: bool = True  # False: some of it was guessed from what sounds like it, or may be missing


@dataclass(frozen=True, slots=True)
class TidyText:
    tokens: tuple[Token, ...]
    breaths: tuple[tuple[int, int], ...]  # token range of each breath
    quantities: tuple[Quantity, ...] = ()
    spelled: tuple[Spelled, ...] = ()
    parts: tuple[int, ...] = field(default=())  # for each breath, the recording it belongs to
    degrees: str = "degF"  # the scale of temperatures said without one

    def with_tokens(self, tokens: Sequence[Token], place: Sequence[int]) -> TidyText:
        """The same text in other tokens. `place`: for each token of this text, and for its end, where it now stands."""
        return replace(
            self,
            tokens=tuple(tokens),
            breaths=tuple((place[a], place[b]) for a, b in self.breaths),
            quantities=tuple(replace(q, first=place[q.first], last=place[q.last]) for q in self.quantities),
            spelled=tuple(replace(s, first=place[s.first], last=place[s.last]) for s in self.spelled),
        )
