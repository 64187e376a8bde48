"""Makes of the shop's own list: known by their sound where the unit is named, and only there."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pydantic import ValidationError

from fieldnotes.records import Appliance
from fieldnotes.tidy import tidy
from fieldnotes.understand.understanding import Understanding
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.makes import MakesFile

from .spoken import transcript

MAKES = ("Pellworth", "Kestrin", "Venmoor", "Castle Beat", "Ostwick")
HEARD = 0.6  # confidence of a word that a recogniser wrote


@pytest.fixture(scope="module")
def understanding(vocabulary: Vocabulary) -> Understanding:
    return Understanding(replace(vocabulary, makes=MAKES))


def told(understanding: Understanding, vocabulary: Vocabulary, said: str, confidence: float) -> Appliance:
    plain = transcript(said)
    breaths = (
        b.model_copy(
            update={"words": tuple(w.model_copy(update={"confidence": confidence}) for w in b.words)}
        )
        for b in plain.breaths
    )
    spoken = plain.model_copy(update={"breaths": tuple(breaths)})
    return understanding.findings(tidy(spoken, vocabulary.measures)).appliance


@pytest.mark.parametrize(
    ("said", "make"),
    [
        ("Washer. | It's a pelworth, model P X, 5042.", "Pellworth"),
        ("Washer. | Let me get the plate, it's up under the lid, hell worth, and the model looks like PX 5042.",
         "Pellworth"),
        ("Castrain, model K T L 110. | It's a washer.", "Kestrin"),
        ("It's a Venmoore. Via's Invictor F-8, double 1. | A washer.", "Venmoor"),
        ("Dishwasher. | The make is castle beet, model C B 41.", "Castle Beat"),
        ("Dishwasher. | The make is castlebeat, model C B 41.", "Castle Beat"),
        ("Dishwasher. | Make, ostwig. Model, O D, 7, 7, 1.", "Ostwick"),
    ],
)  # fmt: skip
def test_misheard_make_of_the_list_is_known_by_its_sound(
    understanding: Understanding, vocabulary: Vocabulary, said: str, make: str
) -> None:
    assert told(understanding, vocabulary, said, HEARD).make == make


@pytest.mark.parametrize(
    ("said", "make"),
    [
        ("Washer. | It's a Brunnings, model P X, 5042.", "Brunnings"),  # none of the list
        ("Washer. | The gasket is worn and the kettle is on. | Model P X, 5042.", None),
        ("Washer, 27 inch. | The castor is loose. | Model P X, 5042.", None),
    ],
)
def test_what_sounds_like_no_make_of_the_list_stays_as_heard(
    understanding: Understanding, vocabulary: Vocabulary, said: str, make: str | None
) -> None:
    assert told(understanding, vocabulary, said, HEARD).make == make


def test_written_make_is_not_changed_to_one_that_sounds_like_it(
    understanding: Understanding, vocabulary: Vocabulary
) -> None:
    assert (
        told(understanding, vocabulary, "Washer. | It's a Pellwath, model P X, 5042.", 1.0).make == "Pellwath"
    )
    assert (
        told(understanding, vocabulary, "Washer. | It's a pellworth, model P X, 5042.", 1.0).make
        == "Pellworth"
    )


def test_make_that_two_of_the_list_sound_like_stays_as_heard(vocabulary: Vocabulary) -> None:
    alike = Understanding(replace(vocabulary, makes=("Tarnwell", "Tarnwall")))
    assert told(alike, vocabulary, "Washer. | It's a Tarnwill, model P X, 5042.", HEARD).make == "Tarnwill"


def test_guessed_make_is_to_be_checked_and_quoted_as_heard(
    understanding: Understanding, vocabulary: Vocabulary
) -> None:
    """The quote shows what was heard; a make that is nearly spelt so keeps its confidence."""
    unsure = told(understanding, vocabulary, "Castrain, model K T L 110. | It's a washer.", 0.9)
    assert unsure.evidence["make"].quote == "Castrain"
    assert unsure.evidence["make"].confidence <= 0.5

    sure = told(understanding, vocabulary, "It's a Pelworth, model K T L 110. | It's a washer.", 0.9)
    assert sure.evidence["make"].confidence == 0.9


@pytest.mark.parametrize("makes", [["Pellworth", "pellworth"], [""], ["X 41"], ["one two three four"]])
def test_list_with_a_mistake_is_refused(makes: list[str]) -> None:
    with pytest.raises(ValidationError):
        MakesFile(makes=tuple(makes))
