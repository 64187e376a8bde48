"""What was heard against what was said: words, terms, numbers, identities, inventions, times.

Words are compared after the English text normaliser published with the Whisper recogniser, as packaged in
whisper-normalizer: numbers in figures, contractions written out, fillers and punctuation gone; and with figures
joined, as "0, 6, 1, double 9" and "06199" are the same words. Numbers and identities are read out of both texts by the
tidy stage, so that only hearing makes a difference.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

import jiwer
from whisper_normalizer.english import EnglishTextNormalizer

from fieldnotes.tidy import tidy
from fieldnotes.tidy.text import TidyText
from fieldnotes.transcript import Breath, Recording, Transcript, Word
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.vocabulary.phrases import wordings
from tests.benchmarks.hearing_sounds import Line

TOUCH_S = 0.5  # words so near to a line are not called invented

_normalised = EnglishTextNormalizer()
_ONE = re.compile(r"(?<=\d )one\b|\bone(?= (?:\d|one\b.*?\d))")  # what the normaliser makes of a lone "1"
_TIMES = re.compile(r"\b(double|triple) (\d|one)\b")
_BETWEEN_DIGITS = re.compile(r"(?<=\d) (?=\d)")


def normal(text: str) -> str:
    """The text as it is compared."""
    figures = _TIMES.sub(_repeated, _normalised(text))
    return _BETWEEN_DIGITS.sub("", _ONE.sub("1", _ONE.sub("1", figures)))


def _repeated(found: re.Match[str]) -> str:
    """ "double 3" as 33."""
    return found[2].replace("one", "1") * (2 if found[1] == "double" else 3)


@dataclass
class Found:
    """Of things that were said, how many were heard, and how many were heard in all."""

    said: int = 0
    heard: int = 0
    right: int = 0

    def add(self, said: Counter[str], heard: Counter[str]) -> None:
        self.said += said.total()
        self.heard += heard.total()
        self.right += (said & heard).total()

    def __str__(self) -> str:
        recall = f"{self.right / self.said:.1%}" if self.said else "-"
        precision = f"{self.right / self.heard:.1%}" if self.heard else "-"
        return f"{recall} / {precision}"


@dataclass
class Figures:
    """Sums over recordings. `starts`: by how many seconds the start of each line's first word is off."""

    words: int = 0
    wrong: int = 0
    terms: Found = field(default_factory=Found)
    numbers: Found = field(default_factory=Found)
    identities: int = 0
    whole: int = 0
    silent_s: float = 0.0
    invented: int = 0
    starts: list[float] = field(default_factory=list)

    def add(
        self, heard: Transcript, lines: Sequence[Line], kind: str, identities: Iterable[str], seconds: float
    ) -> None:
        said = written(lines)
        texts = normal(text_of(said)), normal(text_of(heard))
        told = jiwer.process_words(*texts)
        self.words += told.hits + told.substitutions + told.deletions
        self.wrong += told.substitutions + told.deletions + told.insertions
        self.terms.add(*(_terms(text, kind) for text in texts))
        tidied = tidy_of(heard)
        self.numbers.add(_numbers(tidy_of(said)), _numbers(tidied))
        spelled = {each.text for each in tidied.spelled}
        self.identities += len(list(identities))
        self.whole += sum(each in spelled for each in identities)
        self.silent_s += max(0.0, seconds - sum(line.end - line.start + 2 * TOUCH_S for line in lines))
        self.invented += sum(len(b.words) for b in heard.breaths if not _touches(b, lines))
        self.starts += _starts(heard, lines)

    def row(self) -> list[str]:
        starts = sorted(self.starts)
        middle, late = (f"{starts[int(len(starts) * share)]:.2f}" if starts else "-" for share in (0.5, 0.95))
        return [
            f"{self.wrong / self.words:.1%}",
            str(self.terms),
            str(self.numbers),
            f"{self.whole}/{self.identities}",
            f"{self.invented / (self.silent_s / 60):.1f}" if self.silent_s else "-",
            f"{middle} / {late}",
        ]


HEAD = [
    "WER",
    "terms recall / precision",
    "numbers with units",
    "identities whole",
    "invented words/min",
    "starts off, s (median / 95 %)",
]


def written(lines: Iterable[Line]) -> Transcript:
    """What was said, as if it had been heard perfectly."""
    breaths = (
        Breath(words=tuple(Word(text=w, start=n.start, end=n.end) for w in n.say.split())) for n in lines
    )
    return Transcript(breaths=tuple(breaths), recordings=(Recording(file="said", sha256=""),))


def text_of(transcript: Transcript) -> str:
    return " ".join(word.text for breath in transcript.breaths for word in breath.words)


def tidy_of(transcript: Transcript) -> TidyText:
    return tidy(transcript, load_vocabulary().measures)


def _numbers(text: TidyText) -> Counter[str]:
    return Counter(f"{q.value:g} {q.unit}" for q in text.quantities if q.unit and not q.replaced)


@lru_cache(maxsize=32)
def _pattern(kind: str) -> re.Pattern[str]:
    """The wordings of all parts of a kind of appliance, the longest first."""
    vocabulary = load_vocabulary()
    packs, next_kind = [], vocabulary.packs.get(kind)
    while next_kind:
        packs.append(next_kind)
        next_kind = vocabulary.packs.get(next_kind.wider or "")
    parts = [part for pack in packs for part in pack.parts] + list(vocabulary.parts.parts)
    forms = {
        " ".join(form) for part in parts for phrase in (part.name, *part.spoken) for form in wordings(phrase)
    }
    forms |= {term for pack in packs for term in pack.hotwords}
    longest = sorted({normal(form) for form in forms if len(form) > 2}, key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, longest))})\b")


def _terms(text: str, kind: str) -> Counter[str]:
    return Counter(_pattern(kind).findall(text))


def _touches(breath: Breath, lines: Iterable[Line]) -> bool:
    start, end = breath.words[0].start or 0.0, breath.words[-1].end or 0.0
    return any(start < line.end + TOUCH_S and end > line.start - TOUCH_S for line in lines)


def right_words(heard: Transcript, lines: Iterable[Line]) -> Iterator[tuple[Word, bool]]:
    """Each word heard, and whether it was said there; joined or split words count as right."""
    said = normal(" ".join(line.say for line in lines)).split()
    words = [(w, piece) for b in heard.breaths for w in b.words for piece in normal(w.text).split()]
    told = jiwer.process_words(" ".join(said), " ".join(piece for _, piece in words))
    for chunk in told.alignments[0]:
        mine = words[chunk.hyp_start_idx : chunk.hyp_end_idx]
        theirs = said[chunk.ref_start_idx : chunk.ref_end_idx]
        right = chunk.type == "equal" or "".join(p for _, p in mine) == "".join(theirs)
        for word, _ in mine:
            yield word, right


def _starts(heard: Transcript, lines: Sequence[Line]) -> list[float]:
    """For each line whose first word was heard: seconds from the line's start to the word's, without sign."""
    said = [(line.start if n == 0 else None, w) for line in lines for n, w in enumerate(_plain(line.say))]
    words = [(w.start or 0.0, piece) for b in heard.breaths for w in b.words for piece in _plain(w.text)]
    if not words:
        return []
    told = jiwer.process_words(" ".join(w for _, w in said), " ".join(w for _, w in words))
    off = []
    for chunk in told.alignments[0]:
        if chunk.type == "equal":
            for n in range(chunk.ref_end_idx - chunk.ref_start_idx):
                start = said[chunk.ref_start_idx + n][0]
                if start is not None:
                    off.append(abs(words[chunk.hyp_start_idx + n][0] - start))
    return off


def _plain(text: str) -> list[str]:
    return re.findall(r"[a-z0-9.]*[a-z0-9]", text.lower().replace("'", ""))
