"""Speech for the tests: one text a visit, `|` between breaths."""

from __future__ import annotations

from fieldnotes.places import data_folder
from fieldnotes.tidy import tidy
from fieldnotes.tidy.text import Quantity, TidyText
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.vocabulary.measures import load_measures

MEASURES = load_measures(data_folder("vocab"))


def transcript(said: str, confidence: float = 1.0) -> Transcript:
    breaths = (
        tuple(Word(text=word, confidence=confidence) for word in breath.split()) for breath in said.split("|")
    )
    return Transcript(breaths=tuple(Breath(words=words) for words in breaths), recordings=())


def tidied(said: str, confidence: float = 1.0) -> TidyText:
    return tidy(transcript(said, confidence), MEASURES)


def written(quantity: Quantity) -> str:
    """`14.5 ohm`, `3 (count)`, `14 ohm (replaced)`."""
    words = [f"{quantity.value:.10g}"] + ([quantity.unit] if quantity.unit else [])
    marks = {"(count)": quantity.ordinal_or_count, "(replaced)": quantity.replaced}
    return " ".join(words + [mark for mark, on in marks.items() if on])


def quantities(said: str, confidence: float = 1.0) -> list[str]:
    return [written(quantity) for quantity in tidied(said, confidence).quantities]
