"""Sentences with what is private marked by hand: "the gate code is {code 4471}", " / " between two breaths."""

from __future__ import annotations

from fieldnotes.private.finding import PrivateWords, find_private
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.vocabulary.load import Vocabulary

Place = tuple[int, int]  # breath and word
Marks = dict[Place, tuple[str, int]]  # the kind of each private word, and the number of its stretch


def read_marked(said: str) -> tuple[Transcript, Marks]:
    """The sentence as a transcript without times, and its private words."""
    marks: Marks = {}
    breaths: list[list[Word]] = [[]]
    kind, stretch = "", 0
    for written in said.split():
        if written == "/":
            breaths.append([])
        elif written.startswith("{"):
            kind, stretch = written[1:], stretch + 1
        else:
            if kind:
                marks[len(breaths) - 1, len(breaths[-1])] = (kind, stretch)
            breaths[-1].append(Word(text=written.replace("}", "")))
            kind = "" if "}" in written else kind
    return Transcript(breaths=tuple(Breath(words=tuple(words)) for words in breaths), recordings=()), marks


def found_places(found: tuple[PrivateWords, ...]) -> dict[Place, str]:
    """The kind of each word that was found."""
    return {(one.breath, word): one.kind for one in found for word in range(one.first, one.last)}


def sample_fault(said: str, vocabulary: Vocabulary) -> str | None:
    """What is found in a marked sentence other than its marks; None where both agree."""
    transcript, marks = read_marked(said)
    found = found_places(find_private(transcript, vocabulary))
    if found == {place: kind for place, (kind, _) in marks.items()}:
        return None
    words = [f"{kind} {transcript.breaths[b].words[w].text}" for (b, w), kind in sorted(found.items())]
    return f"finds {', '.join(words) or 'nothing private'}"
