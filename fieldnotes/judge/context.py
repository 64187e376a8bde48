"""What surrounds a reading: the words of its breath, the kind of appliance, and whose English is spoken."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from fieldnotes.judge.kinds import Packs, kinds_said
from fieldnotes.judge.words import quotes_of, says
from fieldnotes.records import Evidence, Reading, Visit
from fieldnotes.transcript import Breath, Transcript
from fieldnotes.vocabulary.limits import LimitsFile
from fieldnotes.vocabulary.quantities import QUANTITY_OF, SpeechHeard

GOES_ON_S = 1.0  # a breath that begins this soon after goes on with the same thought


@dataclass(frozen=True)
class Surroundings:
    """What the whole visit tells about each of its readings."""

    kinds: tuple[str, ...]
    speech: SpeechHeard
    heard: str  # all quotes


@dataclass(frozen=True)
class NearWords:
    """The words near one reading. A quote or breath that holds several readings of one quantity tells nothing
    of any one of them, so `own` is empty there."""

    about: str
    own: str  # its quote and its breath
    all: str  # the same, shared or not: for what speaks against a judgement


def surroundings_of(
    visit: Visit, limits: LimitsFile, packs: Packs, transcript: Transcript | None
) -> Surroundings:
    """Whose English it is, is told by all that was said, or by the quotes where there is no transcript."""
    quotes = tuple(quotes_of(visit))
    spoken = tuple(text_of(breath) for breath in transcript.breaths) if transcript else quotes
    return Surroundings(
        kinds=kinds_said(visit.appliance, packs), speech=_speech(spoken, limits), heard=" / ".join(quotes)
    )


def near_words(readings: tuple[Reading, ...], transcript: Transcript | None) -> list[NearWords]:
    """The words near each reading, in the same order."""
    breaths = [said_around(reading.evidence, transcript) for reading in readings]
    quotes = [reading.evidence.quote for reading in readings]
    sorts = [QUANTITY_OF.get(reading.unit) for reading in readings]
    times = Counter(zip(quotes, sorts, strict=True)), Counter(zip(breaths, sorts, strict=True))
    near: list[NearWords] = []
    for reading, quote, breath, sort in zip(readings, quotes, breaths, sorts, strict=True):
        own = [text for text, count in zip((quote, breath), times, strict=True) if count[text, sort] == 1]
        all_ = f"{reading.about} / {quote} / {breath}"
        near.append(NearWords(about=reading.about, own=" / ".join(dict.fromkeys(own)), all=all_))
    return near


def said_around(evidence: Evidence, transcript: Transcript | None) -> str:
    """The whole breaths that the evidence lies in, and one that goes right on; at least its own quote.

    Without times a breath is found by the words of the quote.
    """
    breaths = [b for b in (transcript.breaths if transcript else ()) if holds(b, evidence)]
    return " / ".join(text_of(breath) for breath in breaths) or evidence.quote


def text_of(breath: Breath) -> str:
    """The words of a breath as heard."""
    return " ".join(word.text for word in breath.words)


def holds(breath: Breath, evidence: Evidence) -> bool:
    """Whether the evidence lies in the breath, or the breath goes right on from it."""
    first = next((w.start for w in breath.words if w.start is not None), None)
    last = next((w.end for w in reversed(breath.words) if w.end is not None), None)
    if evidence.start is None or evidence.end is None or first is None or last is None:
        return bool(evidence.quote) and evidence.quote in text_of(breath)
    return first <= evidence.end + GOES_ON_S and last >= evidence.start


def _speech(spoken: tuple[str, ...], limits: LimitsFile) -> SpeechHeard:
    """Whose English it is, by which side's words occur in more breaths; unknown where that is even."""
    votes = {side: sum(says(text, words) for text in spoken) for side, words in limits.speech.items()}
    highest = max(votes.values(), default=0)
    winners = [side for side, count in votes.items() if count == highest and count > 0]
    return winners[0] if len(winners) == 1 else "unknown"
