"""Words -> breaths: one breath is what is said between two pauses."""

from __future__ import annotations

from bisect import bisect
from collections.abc import Iterable, Sequence
from itertools import pairwise

from fieldnotes.hear.pieces import Stretch
from fieldnotes.transcript import Breath, Word

# Pauses are those of the voice detector: recognisers stretch their words into pauses, so gaps between word
# times find breaths far less surely (measured on spoken narrations with known lines, clean and in noise).
BREATH_PAUSE_S = 0.45


def breaths_of(words: Iterable[Word], speech: Sequence[Stretch], begin_s: float = 0.0) -> list[Breath]:
    """Words cut into breaths wherever the voice rests for BREATH_PAUSE_S or longer.

    A word belongs to the side of a pause on which its middle lies, and its times are cut off at the pause;
    so are those of words that reach beyond all speech.
    Times of `words` and `speech` are seconds on the same clock, which began at `begin_s` of the recording;
    those of the breaths are seconds of the recording.
    """
    pauses = [Stretch(a.end, b.start) for a, b in pairwise(speech) if b.start - a.end >= BREATH_PAUSE_S]
    middles = [(pause.start + pause.end) / 2 for pause in pauses]
    breaths: dict[int, list[Word]] = {}
    for word in words:
        start, end = word.start or 0.0, word.end or 0.0
        index = bisect(middles, (start + end) / 2)
        after = pauses[index - 1].end if index else speech[0].start
        before = pauses[index].start if index < len(pauses) else speech[-1].end
        breaths.setdefault(index, []).append(_within(word, start, end, after, before))
    return [moved(Breath(words=tuple(breaths[index])), begin_s, 0) for index in sorted(breaths)]


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
