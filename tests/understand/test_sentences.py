"""Sentences of stretches that end where the visit ends, and capitals inside them."""

from __future__ import annotations

import pytest

from fieldnotes.tidy import tidy
from fieldnotes.understand.sentences import behind_telling, cause_sentence, reported
from fieldnotes.understand.understanding import Understanding
from fieldnotes.understand.words.narration import Narration
from fieldnotes.vocabulary.load import Vocabulary

from .spoken import transcript


@pytest.fixture(scope="module")
def understanding(vocabulary: Vocabulary) -> Understanding:
    return Understanding(vocabulary)


def narration(understanding: Understanding, vocabulary: Vocabulary, said: str) -> Narration:
    return understanding.read(tidy(transcript(said), vocabulary.measures))


def test_words_at_the_very_end_of_a_visit_make_sentences(
    understanding: Understanding, vocabulary: Vocabulary
) -> None:
    told = narration(understanding, vocabulary, "Dryer. | That belt is the cause")
    own = narration(understanding, vocabulary, "Dryer. | She should, I")
    end, last = len(told.words), len(own.words)

    assert cause_sentence(told, "certain", end - 2, end) == "Cause: the cause."
    assert behind_telling(own, last - 1, last) == last - 1


def test_sentence_within_a_line_keeps_its_capital(
    understanding: Understanding, vocabulary: Vocabulary
) -> None:
    told = narration(
        understanding, vocabulary, "My probe had slipped. It's two hundred ohms, and that's high."
    )

    assert reported(told, 0, len(told.words)) == (
        "My probe had slipped. It was two hundred ohms, and that was high"
    )
