"""Words -> breaths: one breath is what is said between two pauses."""

from __future__ import annotations

from bisect import bisect
from collections.abc import Sequence
from itertools import pairwise

from fieldnotes.hear.pieces import Stretch
from fieldnotes.hear.stops import SENTENCE_ENDS, stopped
from fieldnotes.transcript import Breath, Word

# Pauses are those of the voice detector: recognisers stretch their words into pauses, so gaps between word
# times find breaths far less surely (measured on spoken narrations with known lines, clean and in noise).
BREATH_PAUSE_S = 0.45
# A speaker who has finished a sentence rests shorter; the recogniser's full stop tells it from a mere hesitation.
SENTENCE_PAUSE_S = 0.2
# Nor does a breath go past a full stop once it is this long: who talks on and on makes no pause between findings.
LONG_BREATH = 20  # words


def breaths_of(words: Sequence[Word], speech: Sequence[Stretch], begin_s: float = 0.0) -> list[Breath]:
    """Words cut into breaths wherever the voice rests for BREATH_PAUSE_S, or SENTENCE_PAUSE_S behind a full stop;
    and at full stops where a breath grows longer than LONG_BREATH.

    A word belongs to the side of a pause on which its middle lies, and its times are cut off at the pause;
    so are those of words that reach beyond all speech.
    Times of `words` and `speech` are seconds on the same clock, which began at `begin_s` of the recording;
    those of the breaths are seconds of the recording.
    """
    words = stopped(words, _rested_after(words, speech))
    rests = [Stretch(a.end, b.start) for a, b in pairwise(speech) if b.start - a.end >= SENTENCE_PAUSE_S]
    pauses = [rest for rest in rests if rest.seconds >= BREATH_PAUSE_S or _ends_sentence(words, rest)]
    middles = [_middle(pause.start, pause.end) for pause in pauses]
    breaths: dict[int, list[Word]] = {}
    for word in words:
        start, end = word.start or 0.0, word.end or 0.0
        index = bisect(middles, _middle(start, end))
        after = pauses[index - 1].end if index else speech[0].start
        before = pauses[index].start if index < len(pauses) else speech[-1].end
        breaths.setdefault(index, []).append(_within(word, start, end, after, before))
    return [
        moved(Breath(words=tuple(part)), begin_s, 0)
        for index in sorted(breaths)
        for part in _parts(breaths[index])
    ]


def _rested_after(words: Sequence[Word], speech: Sequence[Stretch]) -> dict[int, float]:
    """The words after which the voice rests for BREATH_PAUSE_S, and for how many seconds."""
    rests = [Stretch(a.end, b.start) for a, b in pairwise(speech) if b.start - a.end >= BREATH_PAUSE_S]
    places = [_middle(word.start or 0.0, word.end or 0.0) for word in words]
    behind = [(bisect(places, _middle(rest.start, rest.end)), rest.seconds) for rest in rests]
    return {at - 1: seconds for at, seconds in behind if 0 < at < len(words)}


def _parts(words: list[Word]) -> list[list[Word]]:
    """A breath as it is, or cut at the full stops behind which it has become long."""
    parts: list[list[Word]] = [[]]
    for word in words:
        if len(parts[-1]) >= LONG_BREATH and parts[-1][-1].text.endswith(SENTENCE_ENDS):
            parts.append([])
        parts[-1].append(word)
    return parts


def _ends_sentence(words: Sequence[Word], rest: Stretch) -> bool:
    """Whether the last word before a rest has a full stop."""
    at = bisect(words, _middle(rest.start, rest.end), key=lambda w: _middle(w.start or 0.0, w.end or 0.0))
    return at > 0 and words[at - 1].text.endswith(SENTENCE_ENDS)


def _middle(start: float, end: float) -> float:
    return (start + end) / 2


def _within(word: Word, start: float, end: float, after: float, before: float) -> Word:
    """The word without what reaches into the pauses around it; one wholly in a pause keeps its times."""
    a, b = max(start, after), min(end, before)
    return word if a >= b else word.model_copy(update={"start": round(a, 2), "end": round(b, 2)})


def moved(breath: Breath, by_s: float, part: int) -> Breath:
    """The same breath on a clock that began `by_s` seconds earlier, as part of recording number `part`."""
    words = tuple(
        word
        if word.start is None or word.end is None
        else word.model_copy(update={"start": round(word.start + by_s, 3), "end": round(word.end + by_s, 3)})
        for word in breath.words
    )
    return Breath(words=words, part=part)
