"""Which stretches of speech are in another language than the one that is heard, so that they can be left out.

The engine says for each piece how likely it is English. Where that is not clear, or a neighbour is foreign,
the piece is looked at closer: in windows of some seconds, then stretch by stretch where languages meet.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from fieldnotes.hear.engine import LANGUAGE
from fieldnotes.hear.language_names import NAMES
from fieldnotes.hear.pieces import Piece, Stretch
from fieldnotes.transcript import Plain

# Measured with the base weights on 12 English voices (accents among them) and 6 other languages, clean and in
# the noise of machines: see tests/benchmarks/hearing_languages.py.
CLEAR = 0.97  # a piece that is so likely English holds no foreign turn of 8 s
WINDOW_S = 5.0  # as much speech tells a language; less does not
ALIEN = 0.03  # a window less likely English than this is foreign; English voices stay above 0.1
ONE_LANGUAGE = 0.5  # so likely one foreign language must be: noise is no language at all
BESIDE_FOREIGN = 0.2  # a single stretch less likely English than this belongs to foreign ones beside it
SHORT_S = 1.0  # a stretch shorter than that says nothing by itself

Asked = tuple[Piece, float | None]  # a piece, and how likely it is English; None: the engine cannot tell
Likely = Callable[[Piece], Mapping[str, float]]  # how likely each language is for some stretches


class Foreign(Plain):
    """A turn in another language; `language` is its code, e.g. `"es"`. Times are seconds."""

    start: float
    end: float
    language: str

    def later(self, by_s: float) -> Foreign:
        """The same turn on a clock that began `by_s` seconds earlier."""
        return self.model_copy(update={"start": self.start + by_s, "end": self.end + by_s})


def foreign_turns(pieces: Sequence[Asked], likely: Likely) -> list[Foreign]:
    """The foreign turns in the pieces of a passage.

    Every turn begins and ends with a stretch of the pieces.
    """
    return [turn for area in _unclear(pieces) for turn in _turns(area, likely)]


def without(piece: Piece, turns: Sequence[Foreign]) -> Piece:
    """The stretches of a piece that lie in no foreign turn."""
    return tuple(s for s in piece if not any(t.start <= s.start and s.end <= t.end for t in turns))


def told(turns: Sequence[Foreign]) -> list[str]:
    """A sentence for each language: `from 62 s to 91 s the speech seems to be Spanish; it was left out`."""
    times: dict[str, list[str]] = {}
    for turn in _joined(turns):
        times.setdefault(turn.language, []).append(f"from {turn.start:.0f} s to {turn.end:.0f} s")
    return [
        f"{' and '.join(spans)} the speech seems to be {NAMES[code]}; it was left out"
        for code, spans in times.items()
    ]


def _joined(turns: Sequence[Foreign], pause_s: float = 10.0) -> list[Foreign]:
    """Turns in one language with nothing but a short pause between them are one."""
    joined: list[Foreign] = []
    for turn in turns:
        last = joined[-1] if joined else None
        if last and last.language == turn.language and turn.start - last.end <= pause_s:
            joined[-1] = last.model_copy(update={"end": turn.end})
        else:
            joined.append(turn)
    return joined


def _unclear(pieces: Sequence[Asked]) -> list[list[Asked]]:
    """Runs of pieces that may hold foreign turns, and one more on each side: a turn may reach into it."""
    doubted = {n for n, (_, english) in enumerate(pieces) if english is not None and english < CLEAR}
    looked_at = sorted({m for n in doubted for m in (n - 1, n, n + 1) if 0 <= m < len(pieces)})
    areas: list[list[Asked]] = []
    for n in looked_at:
        if n - 1 not in looked_at:
            areas.append([])
        areas[-1].append(pieces[n])
    return areas


def _windows(pieces: Sequence[Asked]) -> list[range]:
    """Runs of stretches, counted through all pieces, that are long enough to tell a language.

    A piece that is foreign as a whole is one; others are parted, what is left over at the end joining the last.
    None goes from one piece into the next: those meet in long pauses, where speakers take turns.
    """
    windows: list[range] = []
    at = 0  # the stretch at which a piece begins
    for piece, english in pieces:
        whole = english is not None and english < ALIEN
        first, seconds, parts = at, 0.0, 0
        for n, stretch in enumerate(piece, at):
            seconds += stretch.seconds
            if seconds >= WINDOW_S and not (whole and n + 1 < at + len(piece)):
                windows.append(range(first, n + 1))
                first, seconds, parts = n + 1, 0.0, parts + 1
        at += len(piece)
        if parts:
            windows[-1] = range(windows[-1].start, at)
    return windows


def _turns(pieces: Sequence[Asked], likely: Likely) -> list[Foreign]:
    """The foreign turns among pieces that follow each other."""
    stretches = [stretch for piece, _ in pieces for stretch in piece]
    windows = _windows(pieces)
    found = [likely(tuple(stretches[n] for n in window)) for window in windows]
    single = _Single(stretches, likely)
    turns: list[Foreign] = []
    for run, code in _runs(found):
        first, last = single.trimmed(windows[run.start].start, windows[run.stop - 1].stop - 1)
        first, last = single.grown(first, last)
        turns.append(Foreign(start=stretches[first].start, end=stretches[last].end, language=code))
    return turns


def _runs(found: Sequence[Mapping[str, float]]) -> list[tuple[range, str]]:
    """Runs of windows in one foreign language: one at least is surely so, the others rather than English."""
    runs: list[tuple[range, str]] = []
    for n, likely in enumerate(found):
        code = _strongest(likely)
        taken = bool(runs) and n < runs[-1][0].stop
        if taken or likely.get(LANGUAGE, 0.0) >= ALIEN or likely.get(code, 0.0) < ONE_LANGUAGE:
            continue
        first, last = n, n
        while first > (runs[-1][0].stop if runs else 0) and _rather(found[first - 1], code):
            first -= 1
        while last + 1 < len(found) and _rather(found[last + 1], code):
            last += 1
        runs.append((range(first, last + 1), code))
    return runs


def _rather(likely: Mapping[str, float], code: str) -> bool:
    """Whether speech beside foreign speech is more like that than English."""
    return likely.get(code, 0.0) > likely.get(LANGUAGE, 0.0)


def _strongest(found: Mapping[str, float]) -> str:
    """The likeliest foreign language that somebody may speak in a home."""
    return max(
        (code for code in found if code in NAMES and code != LANGUAGE), key=found.__getitem__, default=""
    )


class _Single:
    """Stretches looked at one by one, at the ends of a foreign run only."""

    def __init__(self, stretches: Sequence[Stretch], likely: Likely) -> None:
        self._stretches = stretches
        self._likely = likely

    def trimmed(self, first: int, last: int) -> tuple[int, int]:
        """The run without the English at its ends, which shared a window with foreign speech."""
        while first < last and self._english(first) > 1 - BESIDE_FOREIGN:
            first += 1
        while first < last and self._english(last) > 1 - BESIDE_FOREIGN:
            last -= 1
        return first, last

    def grown(self, first: int, last: int) -> tuple[int, int]:
        """The run with the foreign stretches beside it, which shared a window with English."""
        while (n := self._telling(first, -1)) is not None and self._english(n) < BESIDE_FOREIGN:
            first = n
        while (n := self._telling(last, 1)) is not None and self._english(n) < BESIDE_FOREIGN:
            last = n
        return first, last

    def _telling(self, beside: int, step: int) -> int | None:
        """The nearest stretch beside another that is long enough to tell its language."""
        beside += step
        while 0 <= beside < len(self._stretches):
            if self._stretches[beside].seconds >= SHORT_S:
                return beside
            beside += step
        return None

    def _english(self, n: int) -> float:
        """How likely a stretch is English; a half where it is too short to tell."""
        stretch = self._stretches[n]
        return self._likely((stretch,)).get(LANGUAGE, 0.0) if stretch.seconds >= SHORT_S else 0.5
