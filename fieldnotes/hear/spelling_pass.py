"""A second hearing of what was spelled aloud: model and serial numbers, with a prompt that expects letters and digits.

The recogniser writes what its prompt leads it to: after terms of the trade "double seven" becomes 0.77, "mike hotel" a
mic in a hotel. A piece in which "model" or "serial" was announced is therefore decoded once more, from the same encoded
sound, after the spelling alphabet, the letters and the digits; of that second hearing only the strings are taken.
What both hearings agree on is all but certain, so agreement becomes the words' confidence (see `AGREED`, `DIFFERENT`).

Measured on random strings by six voices (tests/benchmarks/hearing_identities.py, 72 strings a condition), the second
hearing taken whole: right as a whole 33 of 72 before, 45 with the rules for misheard characters alone, 57 with both;
in washing noise of 10 dB 11, 17 and 30. A third hearing to vote between the two brought at most one more.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import dropwhile

from fieldnotes.transcript import Word
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.words import split_words

AGREED, DIFFERENT = 0.9, 0.4  # confidence of the words of a string that both hearings gave alike, or not
SHORTEST = 5  # characters of a string whose agreement says something
ENOUGH = 3  # words in a row that look spelled, where nothing announces them
NEAR_S = 2.0  # between the two hearings' times of one announcement
MOST = 40  # words of a string at most
SPARSE = 1.3  # words a second of packed speech; people say 2 to 3, and fewer mean that lines were left out
GAP = 5  # words without a character end a string ("... six six, he thinks they bought it in 2021")
TAIL = 4  # words from the last character to a sentence's end that may belong to it ("N as in Nancy.")
_STOPS = (".", "?", "!")


@dataclass(frozen=True, slots=True)
class Reading:
    """The string that some words spell. `sure`: nothing of it had to be guessed."""

    text: str = ""
    sure: bool = False


Decode = Callable[[str], Sequence[Word] | None]  # the piece's words after a prompt; None: they make no sense
IsCharacter = Callable[[str], bool]  # whether a written word by itself can be one character or more
Read = Callable[[Sequence[Word]], Reading]  # what the words behind "model" or "serial" spell


@dataclass(frozen=True)
class Spelling:
    """What a second hearing needs to know: the words of spelling, and two questions that tidying can answer."""

    measures: Measures
    read: Read
    is_character: IsCharacter


@dataclass(frozen=True, slots=True)
class _Span:
    """Words [first, last) of one hearing: an announcement and the string behind it. Times are seconds."""

    name: str
    first: int
    last: int
    start: float
    end: float


def spelling_prompt(measures: Measures) -> str:
    """What the second hearing is told: the code words, all letters and digits, and "B as in boy" in its forms.

    No sample of a whole number stands in it: such samples came back as inventions in noise.
    """
    words = " ".join(listed[0] for listed in measures.spelling.code_words.values())
    letters = ", ".join(measures.spelling.code_words)
    return (
        f"{words}. Model number is {letters}. Serial number is 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, double 3, double 4,"
        " B as in boy, T for Tom, M like Mike, Z for zebra, N like Nancy. Okay."
    )


def is_spelled(words: Sequence[Word], seconds: float, spelling: Spelling) -> bool:
    """Whether a piece of so many seconds of speech is worth a second hearing.

    A number is announced in it, or characters stand in a row, or there are so few words that lines must be missing:
    the recogniser likes to leave out those that spell.
    """
    if len(words) < SPARSE * seconds or _spans(words, spelling):
        return True
    in_row = 0
    for word in words:
        in_row = in_row + 1 if spelling.is_character(word.text) else 0
        if in_row >= ENOUGH and len(word.text.strip(".,")) == 1:
            return True
    return False


def heard_twice(words: Sequence[Word], decode: Decode, spelling: Spelling) -> tuple[Word, ...]:
    """The words of a piece with its strings as the better of two hearings has them, and how sure they are."""
    again = tuple(decode(spelling_prompt(spelling.measures)) or ())
    mine, theirs = _spans(words, spelling), _spans(again, spelling)
    out: list[Word] = list(words)
    for first in reversed(_joined(mine, theirs)):
        out = _settled(out, again, *first, spelling.read)
    return tuple(out)


def _joined(mine: list[_Span], theirs: list[_Span]) -> list[tuple[_Span | None, _Span | None]]:
    """The strings of both hearings in pairs of one time, in order; None where one hearing has no such string."""
    left = list(theirs)
    pairs: list[tuple[_Span | None, _Span | None]] = []
    for span in mine:
        same = next((other for other in left if abs(other.start - span.start) <= NEAR_S), None)
        if same:
            left.remove(same)
        pairs.append((span, same))
    apart = [other for other in left if all(other.end <= s.start or s.end <= other.start for s in mine)]
    pairs += [(None, other) for other in apart]
    return sorted(pairs, key=lambda pair: (pair[0] or pair[1] or _NOWHERE).start)


_NOWHERE = _Span("", 0, 0, 0.0, 0.0)


def _settled(
    words: list[Word], again: Sequence[Word], mine: _Span | None, theirs: _Span | None, read: Read
) -> list[Word]:
    """The words of the piece with one string decided."""
    heard = words[mine.first : mine.last] if mine else []
    other = list(again[theirs.first : theirs.last]) if theirs else []
    one, two = read(heard), read(other)
    agreed = one.text == two.text and len(one.text) >= SHORTEST
    if agreed:
        chosen = heard if one.sure or not two.sure else other
    elif len(two.text) < SHORTEST <= len(one.text) or not other:
        chosen = heard
    else:
        chosen = other
    marked = [_marked(word, agreed) for word in chosen]
    if mine:
        behind = words[mine.last :]
        if chosen is other and theirs:  # the other hearing may have taken more of it for the string
            behind = list(dropwhile(lambda word: _middle(word) < theirs.end, behind))
        return words[: mine.first] + marked + behind
    if not two.text or theirs is None:
        return words
    before = [w for w in words if _middle(w) < theirs.start]
    return before + marked + [w for w in words if _middle(w) >= theirs.end]


def _marked(word: Word, agreed: bool) -> Word:
    sure = max(word.confidence, AGREED) if agreed else min(word.confidence, DIFFERENT)
    return word.model_copy(update={"confidence": sure})


def _middle(word: Word) -> float:
    return ((word.start or 0.0) + (word.end or 0.0)) / 2


def _spans(words: Sequence[Word], spelling: Spelling) -> list[_Span]:
    """Each announcement that has characters behind it, up to the last of them."""
    found = _announcements(words, spelling.measures)
    ends = [first for first, _, _ in found[1:]] + [len(words)]
    spans = []
    for (first, behind, name), limit in zip(found, ends, strict=False):  # none found: no spans
        last = _end(words, behind, min(limit, behind + MOST), spelling)
        if last > behind:
            start, end = words[first].start or 0.0, words[last - 1].end or 0.0
            spans.append(_Span(name, first, last, start, end))
    return spans


def _announcements(words: Sequence[Word], measures: Measures) -> list[tuple[int, int, str]]:
    """First word, word behind it, and name of each announcement."""
    pieces = [(piece, n) for n, word in enumerate(words) for piece in split_words(word.text)]
    texts = [piece for piece, _ in pieces]
    phrases = [
        (split_words(phrase), name)
        for name, listed in measures.spelling.announced.items()
        for phrase in listed
    ]
    phrases.sort(key=lambda phrase: -len(phrase[0]))
    found: list[tuple[int, int, str]] = []
    at = 0
    while at < len(texts):
        hit = next(((p, name) for p, name in phrases if texts[at : at + len(p)] == p), None)
        if hit is None:
            at += 1
            continue
        last = at + len(hit[0])
        found.append((pieces[at][1], pieces[last - 1][1] + 1, hit[1]))
        at = last
    return found


def _end(words: Sequence[Word], behind: int, limit: int, spelling: Spelling) -> int:
    """The word after the string that follows; `behind` where no character follows within its sentence."""
    last = behind
    for n in range(behind, limit):
        if n - last >= GAP:
            break
        if spelling.is_character(words[n].text):
            last = n + 1
        if words[n].text.endswith(_STOPS) and not (
            n + 1 < limit and spelling.is_character(words[n + 1].text)
        ):
            return _with_tail(words, last, n + 1, spelling.measures) if last > behind else last
    return _with_tail(words, last, limit, spelling.measures) if last > behind else last


def _with_tail(words: Sequence[Word], last: int, end: int, measures: Measures) -> int:
    """`end` where a few words of a letter as in a word lie between ("N | as in Nancy."), else `last`."""
    tail = [word.text.lower() for word in words[last:end]]
    joints = {phrase.split()[0] for phrase in (*measures.spelling.as_in, *measures.spelling.for_word)}
    return end if tail and len(tail) <= TAIL and tail[0] in joints else last
