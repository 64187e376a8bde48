"""Private words struck out of a visit's record and its transcript; what they were is counted, not kept."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any, TypeVar

from pydantic import BaseModel

from fieldnotes.private.finding import ORDER, PrivateWords, find_private
from fieldnotes.private.same_words import Said, pieces_of_tokens, said_again
from fieldnotes.private.tokens import MARK, breath_of, tokens_of
from fieldnotes.records import STATED, Limit, PrivateKind, StruckCount, Visit
from fieldnotes.transcript import Breath, Plain, Transcript, Word
from fieldnotes.vocabulary.load import Vocabulary

PAD_S = 0.08  # a recogniser's word times are off by about so much; more would eat the neighbours
# Fields of the record that hold spoken words, beside the source of a limit that was stated; all others are the
# vocabulary's, or numbers that the claim rests on.
SPOKEN = {"about", "text", "note", "quote", "what", "notices"}
_TAIL = re.compile(
    r"((?:(?<=\w)['’]s|(?<=s)['’])?[.,;:?!]?)[\"'”’)\]]*$", re.IGNORECASE
)  # "Tilling's," keeps "'s,"
Model = TypeVar("Model", bound=BaseModel)


class Silence(Plain):
    """[start_s, end_s) on the clock of the visit's recording number `recording`."""

    recording: int
    start_s: float
    end_s: float


class Struck(Plain):
    """A visit without private words, and where they were spoken."""

    visit: Visit
    transcript: Transcript
    silences: tuple[Silence, ...]


def strike(visit: Visit, transcript: Transcript, vocabulary: Vocabulary, region: str = "US") -> Struck:
    """The visit and its transcript with "[name struck out]" and the like in place of private words.

    `visit.struck` counts the stretches that were struck out of the transcript, and the customer's name; of a
    kind that stood in the record alone, those of the record. The technician's name stays, and so do the names of
    the recording files.
    """
    spoken: list[PrivateWords] = []
    while True:  # what is struck may lay bare more: it is done when nothing is left to strike
        known = (visit.job.customer,) if visit.job.customer and not MARK.search(visit.job.customer) else ()
        makes = (visit.appliance.make,) if visit.appliance.make else ()
        found = find_private(transcript, vocabulary, known, region, makes)
        said = _said(transcript, found, vocabulary)

        find = partial(_in_string, said=said, known=known, vocabulary=vocabulary, region=region, makes=makes)
        cleaned, in_record = _struck_record(visit, find)
        found = (*found, *_more(transcript, said, found, vocabulary))
        if not found and not in_record:
            return Struck(visit=visit, transcript=transcript, silences=_silences(transcript, spoken))
        spoken += found
        counts: Counter[PrivateKind] = Counter({one.kind: one.count for one in visit.struck})
        names: Counter[PrivateKind] = Counter({"name": len(known)})
        now = Counter(one.kind for one in found) + names
        counts += now + Counter({kind: n for kind, n in in_record.items() if kind not in now})
        struck = tuple(StruckCount(kind=kind, count=counts[kind]) for kind in sorted(ORDER) if counts[kind])
        visit, transcript = (
            cleaned.model_copy(update={"struck": struck}),
            _struck_transcript(transcript, found),
        )


def _said(transcript: Transcript, found: Sequence[PrivateWords], vocabulary: Vocabulary) -> list[Said]:
    """What was found, as pieces to look for; halves that lie in two breaths are also looked for as one."""
    said: list[Said] = []
    for n, one in enumerate(found):
        words = list(transcript.breaths[one.breath].words[one.first : one.last])
        said.append(Said(one.kind, _pieces(words, vocabulary)))
        before = found[n - 1] if n else None
        if before and before.kind == one.kind and before.breath == one.breath - 1 and one.first == 0:
            half = transcript.breaths[before.breath].words[before.first : before.last]
            said.append(Said(one.kind, _pieces([*half, *words], vocabulary)))
    return [one for one in dict.fromkeys(said) if one.pieces and not _too_plain(one)]


def _too_plain(said: Said) -> bool:
    """Two digits or a single letter alone would strike readings and letters everywhere."""
    return len(said.pieces) == 1 and len(said.pieces[0]) < 3


def _pieces(words: Sequence[Word], vocabulary: Vocabulary) -> tuple[str, ...]:
    tokens = tokens_of(Transcript(breaths=(Breath(words=tuple(words)),), recordings=()))
    return tuple(piece.text for piece in pieces_of_tokens(tokens, vocabulary) if piece.text not in ("", "'s"))


def _more(
    transcript: Transcript, said: Sequence[Said], found: Sequence[PrivateWords], vocabulary: Vocabulary
) -> list[PrivateWords]:
    """Other places of the transcript where the same words stand without what gave them away."""
    taken = {(one.breath, word) for one in found for word in range(one.first, one.last)}
    more: list[PrivateWords] = []
    for index, breath in enumerate(transcript.breaths):
        for one in _words_again(breath, said, vocabulary):
            places = {(index, word) for word in range(one.first, one.last)}
            if not places & taken:
                taken |= places
                more.append(one.model_copy(update={"breath": index}))
    return more


def _words_again(breath: Breath, said: Sequence[Said], vocabulary: Vocabulary) -> list[PrivateWords]:
    """`said` in one breath, as words of breath 0."""
    if not said:
        return []
    tokens = tokens_of(Transcript(breaths=(breath,), recordings=()))
    found: list[PrivateWords] = []
    for kind, first, last in said_again(tokens, said, vocabulary):
        begin, end = tokens[first].word, tokens[last - 1].word + 1
        start, stop = breath.words[begin].start, breath.words[end - 1].end
        found.append(PrivateWords(kind=kind, breath=0, first=begin, last=end, start=start, end=stop))
    return found


def _in_string(
    text: str,
    *,
    said: Sequence[Said],
    known: Sequence[str],
    vocabulary: Vocabulary,
    region: str,
    makes: Sequence[str],
) -> Sequence[PrivateWords]:
    """Private words of a string: those that were spoken, and what the finder sees in the string itself."""
    breath = breath_of(text)
    names = [" ".join(one.pieces) for one in said if one.kind == "name"]
    alone = Transcript(breaths=(breath,), recordings=())
    seen = find_private(alone, vocabulary, [*known, *names], region, makes)
    return [*_words_again(breath, said, vocabulary), *seen]


# the record


def _struck_record(
    visit: Visit, find: Callable[[str], Sequence[PrivateWords]]
) -> tuple[Visit, Counter[PrivateKind]]:
    """The visit with every field of spoken words cleaned, and what was struck there."""
    counts: Counter[PrivateKind] = Counter()

    def clean(text: str) -> str:
        found = find(text)
        counts.update({one.kind for one in found})
        return _mark_words(breath_of(text).words, found) if found else text

    cleaned = _cleaned(visit, clean)
    customer = visit.job.customer
    if customer and not MARK.search(customer):
        cleaned = cleaned.model_copy(
            update={"job": cleaned.job.model_copy(update={"customer": _mark("name")})}
        )
        counts["name"] += 1
    return cleaned, counts


def _cleaned(model: Model, clean: Callable[[str], str]) -> Model:
    changed: dict[str, Any] = {}
    stated = isinstance(model, Limit) and model.status == STATED
    for name in type(model).model_fields:
        value = getattr(model, name)
        new = _cleaned_value(value, clean, spoken=name in SPOKEN or (stated and name == "source"))
        if new != value:
            changed[name] = new
    return model.model_copy(update=changed) if changed else model


def _cleaned_value(value: Any, clean: Callable[[str], str], *, spoken: bool) -> Any:
    if isinstance(value, str):
        return clean(value) if spoken else value
    if isinstance(value, BaseModel):
        return _cleaned(value, clean)
    if isinstance(value, tuple):
        return tuple(_cleaned_value(one, clean, spoken=spoken) for one in value)
    if isinstance(value, dict):
        return {key: _cleaned_value(one, clean, spoken=False) for key, one in value.items()}
    return value


# marks


def _mark(kind: str) -> str:
    return f"[{kind} struck out]"


def _marked(words: Sequence[Word], found: Sequence[PrivateWords]) -> list[Word]:
    """The words, each private run as one word that keeps the run's times and the stop behind it."""
    kinds: dict[int, PrivateKind] = {}
    for one in sorted(found, key=lambda one: (ORDER.index(one.kind), one.first)):
        for place in range(one.first, one.last):
            kinds.setdefault(place, one.kind)
    marked: list[Word] = []
    for place, word in enumerate(words):
        kind = kinds.get(place)
        if kind is None or MARK.search(word.text):
            marked.append(word)
            continue
        text = _mark(kind) + _TAIL.findall(word.text)[0]
        run = kinds.get(place - 1) == kind and MARK.match(marked[-1].text) is not None
        start = marked.pop().start if run else word.start
        marked.append(word.model_copy(update={"text": text, "start": start}))
    return marked


def _mark_words(words: Sequence[Word], found: Sequence[PrivateWords]) -> str:
    return " ".join(word.text for word in _marked(words, found))


def _struck_transcript(transcript: Transcript, found: Sequence[PrivateWords]) -> Transcript:
    breaths = []
    for index, breath in enumerate(transcript.breaths):
        here = [one for one in found if one.breath == index]
        breaths.append(
            breath.model_copy(update={"words": tuple(_marked(breath.words, here))}) if here else breath
        )
    return transcript.model_copy(update={"breaths": tuple(breaths)})


def _silences(transcript: Transcript, spoken: Sequence[PrivateWords]) -> tuple[Silence, ...]:
    """The stretches on each recording's own clock, padded, and merged where they touch."""
    merged: list[Silence] = []
    for index, recording in enumerate(transcript.recordings):
        longest = float("inf") if recording.seconds is None else recording.seconds
        stretches = sorted(
            (
                max(0.0, one.start - recording.starts_at - PAD_S),
                min(longest, one.end - recording.starts_at + PAD_S),
            )
            for one in spoken
            if one.start is not None and one.end is not None and transcript.breaths[one.breath].part == index
        )
        for start_s, end_s in stretches:
            last = merged[-1] if merged and merged[-1].recording == index else None
            if last is not None and start_s <= last.end_s:
                merged[-1] = last.model_copy(update={"end_s": round(max(end_s, last.end_s), 3)})
            else:
                merged.append(Silence(recording=index, start_s=round(start_s, 3), end_s=round(end_s, 3)))
    return tuple(merged)
