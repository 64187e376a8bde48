"""Where somebody says that a picture is being taken, and of what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fieldnotes.records import Evidence
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.photos import PhotoCue, PhotoWords
from fieldnotes.vocabulary.phrase_net import PhraseNet
from fieldnotes.words import pieces_of, stop_of

SENTENCE_ENDS = (".", "?", "!", ";")
NEGATED_WITHIN = 3  # words between a negation and what it denies ("didn't really get a photo")
LONGEST_THING = 8  # words
LONGEST_NAME = 3  # words: "the woman downstairs"


@dataclass(frozen=True, slots=True)
class Cue:
    """Words that say that a picture is being taken. `thing` is what it is of, in lower case; empty where they only
    point ("a photo of that"), or name nothing."""

    id: str
    evidence: Evidence
    thing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Piece:
    text: str
    word: Word
    stop: str


def photo_cues(transcript: Transcript, vocabulary: Vocabulary) -> tuple[Cue, ...]:
    """All cues of a visit in spoken order.

    "Taking a picture of the drain hose" gives one with the thing `("drain", "hose")`.
    """
    finder = CueFinder(vocabulary.photos, vocabulary.grammar)
    return tuple(cue for breath in transcript.breaths for cue in finder.find(breath))


class CueFinder:
    """Finds cues by a vocabulary. Built once for a visit."""

    def __init__(self, words: PhotoWords, grammar: Grammar) -> None:
        self._words = words
        self._grammar = grammar
        self._told = words.not_before | grammar.others
        self._phrases = [(cue, phrase) for cue in words.cues for phrase in cue.phrases]
        self._cues = PhraseNet((n, phrase) for n, (_, phrase) in enumerate(self._phrases))
        self._not_after = {
            cue.id: PhraseNet(enumerate((*words.not_after, *cue.not_after))) for cue in words.cues
        }

    def find(self, breath: Breath) -> Iterator[Cue]:
        """The cues in a breath. No cue reaches across the end of a sentence."""
        for sentence in _sentences(breath, self._grammar.fillers):
            if sentence[-1].stop == "?":
                continue
            texts = [piece.text for piece in sentence]
            hits = self._cues.find(texts, {}, frozenset())
            done = 0
            for key, first, last in sorted(hits, key=lambda hit: (hit[1], -hit[2])):
                cue = self._phrases[key][0]
                if first >= done and self._means_it(cue, sentence, first, last):
                    done = last
                    yield self._cue(cue, sentence, first, last)

    def _means_it(self, cue: PhotoCue, sentence: Sequence[_Piece], first: int, last: int) -> bool:
        """Whether the speaker tells of a picture that is being taken, by the words around."""
        texts = [piece.text for piece in sentence]
        if cue.opens and not set(texts[:first]) <= self._grammar.openers:
            return False
        end = next((n for n in range(last, len(texts)) if texts[n] in self._words.goes_on), len(texts))
        behind = self._not_after[cue.id].find(texts[last:], {}, frozenset())
        if any(last + hit[1] <= end for hit in behind):
            return False
        comma = next((n + 1 for n in range(first - 1, -1, -1) if sentence[n].stop == ","), 0)
        if self._grammar.negators & set(texts[max(comma, first - NEGATED_WITHIN) : first]):
            return False
        if self._by_another(cue, texts[comma:first]):
            return False
        ahead = texts[comma if cue.form == "now" else 0 : first]
        return not self._of_others(ahead, texts[first])

    def _by_another(self, cue: PhotoCue, ahead: Sequence[str]) -> bool:
        """Whether the words right ahead are the verb or the name of somebody who is not the speaker."""
        if ahead and ahead[-1] in self._words.not_right_before:
            return True
        begin = max((n + 1 for n, word in enumerate(ahead) if word in self._words.goes_on), default=0)
        while begin < len(ahead) and ahead[begin] in self._grammar.openers:
            begin += 1
        named = begin < len(ahead) and ahead[begin] in self._words.who_opens
        return cue.form == "done" and named and 1 < len(ahead) - begin <= LONGEST_NAME

    def _of_others(self, ahead: Sequence[str], opening: str) -> bool:
        """Whether somebody else does it, or it is asked for, put off or long past: the nearest who is named counts.

        "If you like" says nothing of "I'm taking a photo" behind it, "if" right before "I" does.
        """
        for n, word in reversed(list(enumerate((*ahead, opening)))):
            if word in self._words.own:
                return n > 0 and ahead[n - 1] in self._words.not_before
            if word in self._told:
                return True
        return False

    def _cue(self, cue: PhotoCue, sentence: Sequence[_Piece], first: int, last: int) -> Cue:
        begin = last
        if cue.object == "of":
            begin = last + 1 if last < len(sentence) and sentence[last].text == "of" else len(sentence)
        end = begin
        while end < min(len(sentence), begin + LONGEST_THING) and (
            end == begin or (sentence[end].text not in self._words.thing_ends and not sentence[end - 1].stop)
        ):
            end += 1
        thing = [piece.text for piece in sentence[begin:end]]
        unsaid = self._grammar.determiners | self._grammar.pronouns
        while thing and (thing[0] in unsaid or thing[0] in self._words.thing_ends):
            thing.pop(0)
        return Cue(
            cue.id, _evidence([piece.word for piece in sentence[first : max(last, end)]]), tuple(thing)
        )


def _sentences(breath: Breath, fillers: frozenset[str]) -> Iterator[list[_Piece]]:
    sentence: list[_Piece] = []
    for word in breath.words:
        stop = stop_of(word.text)
        texts = [text for text, _ in pieces_of(word.text) if text not in fillers]
        sentence += [_Piece(text, word, stop if n == len(texts) - 1 else "") for n, text in enumerate(texts)]
        if stop in SENTENCE_ENDS and sentence:
            yield sentence
            sentence = []
    if sentence:
        yield sentence


def _evidence(words: Sequence[Word]) -> Evidence:
    """The words as heard, each once, with their times and the mean of their probabilities."""
    heard = [word for n, word in enumerate(words) if n == 0 or word is not words[n - 1]]
    starts = [word.start for word in heard if word.start is not None]
    ends = [word.end for word in heard if word.end is not None]
    return Evidence(
        start=min(starts, default=None),
        end=max(ends, default=None),
        quote=" ".join(word.text for word in heard).strip(" ,;:"),
        confidence=round(sum(word.confidence for word in heard) / len(heard), 3),
    )
