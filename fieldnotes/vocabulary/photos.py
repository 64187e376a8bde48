"""Shape of vocab/photos.yaml: words that say that a picture is being taken, and of what."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from fieldnotes.vocabulary.grammar import Words
from fieldnotes.vocabulary.packs import Entry, Phrases
from fieldnotes.vocabulary.phrases import SLOTS


class PhotoCue(Entry):
    """One way of saying it, sentences in which it must be found, and near misses.

    `object`: what is pictured stands behind "of" ("a photo | of the plate"), or right `behind` the phrase.
    `form`: `now`, or `done`: somebody else's deed is told in such words too, and the teller then stands further
    ahead than the last comma ("he came back, took a picture").
    `opens`: it counts only where it opens a sentence or breath. `not_after`: what is no cue before these words.
    """

    id: str
    phrases: Phrases = Field(min_length=1)
    object: Literal["of", "behind"] = "of"
    form: Literal["now", "done"] = "now"
    opens: bool = False
    not_after: Phrases = ()
    finds: tuple[str, ...] = Field(min_length=1)
    misses: tuple[str, ...] = Field(min_length=1)


class PhotoWords(Entry):
    """All cues, and what the words around them say; the comments in the file tell what each is for."""

    cues: tuple[PhotoCue, ...]
    own: Words
    not_before: Words
    not_right_before: Words
    who_opens: Words
    not_after: Phrases
    goes_on: Words
    thing_ends: Words
    plate: Phrases

    @model_validator(mode="after")
    def _sound(self) -> Self:
        ids = [cue.id for cue in self.cues]
        if twice := sorted({name for name in ids if ids.count(name) > 1}):
            raise ValueError(f'id "{twice[0]}" stands in two cues; give one of them another')
        for cue in self.cues:
            for phrase in (*cue.phrases, *cue.not_after):
                if any(slot in phrase for slot in SLOTS):
                    raise ValueError(f'phrase "{phrase}" of cue "{cue.id}": slots are for rules')
        return self
