"""Words that say that a picture is being taken. Sentences are invented here; none is a sample of the vocabulary."""

from __future__ import annotations

import pytest

from fieldnotes.photos.cues import Cue, photo_cues
from fieldnotes.records import Evidence
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.vocabulary.load import load_vocabulary


def heard(*sentences: str, pace_s: float = 0.5) -> Transcript:
    """Each a breath; the words follow each other evenly, with two seconds between two breaths."""
    breaths, at = [], 0.0
    for sentence in sentences:
        words = []
        for text in sentence.split():
            words.append(Word(text=text, start=at, end=at + pace_s, confidence=0.8))
            at += pace_s
        breaths.append(Breath(words=tuple(words)))
        at += 2.0
    return Transcript(breaths=tuple(breaths), recordings=())


def things(sentence: str) -> list[str]:
    return [" ".join(cue.thing) for cue in photo_cues(heard(sentence), load_vocabulary())]


@pytest.mark.parametrize(
    ("said", "pictured"),
    [
        ("Photo now.", ""),
        ("okay so photo now", ""),
        ("Taking a picture of the inlet valve.", "inlet valve"),
        ("I'm taking a photo of the burnt connector on the board", "burnt connector"),
        ("I'm just gonna take a quick picture of the rating plate before I pull it out.", "rating plate"),
        ("Got a photo of that.", ""),
        ("Right, got a picture of the lint duct now.", "lint duct"),
        ("Snap a shot of the plate.", "plate"),
        ("Let me grab a pic of this heater.", "heater"),
        ("And I'll take a couple of pictures of the scorch marks.", "scorch marks"),
        ("I've taken a photo of the door seal, it's torn.", "door seal"),
        ("um taking a, uh, taking a photo of the drum spider", "drum spider"),
        ("Drain pump is blocked solid, taking a picture of it.", ""),
        ("The hose has a hole in it so I took a picture of that", ""),
        ("picture of the impeller", "impeller"),
        ("Another photo of the wiring loom.", "wiring loom"),
        ("I am photographing the bearing.", "bearing"),
        ("let me just get a photo of the serial number", "serial number"),
        ("I took two photos of the control board", "control board"),
        ("Cleaned the trap and took a photo of the muck", "muck"),
        ("checked the belt got a photo of the crack", "crack"),
        ("I pulled the belt, got a picture of the wear.", "wear"),
        ("It was all melted, took a picture of the plug.", "plug"),
        ("Customer wants it documented. Taking a photo of the dent.", "dent"),
    ],
    ids=lambda text: text[:40] or "-",
)
def test_picture_being_taken_is_heard_with_its_thing(said: str, pictured: str) -> None:
    assert things(said) == [pictured]


@pytest.mark.parametrize(
    "said",
    [
        "I'll send you a picture.",
        "He took a picture last week.",
        "The customer took a picture of the error.",
        "She has a photo of the leak on her phone.",
        "Could you take a photo of the display next time?",
        "If it happens again take a picture of the display.",
        "Did you take a photo of it?",
        "I didn't take a picture of that.",
        "No photo of that one.",
        "My colleague got a photo of it in January.",
        "They should have taken a photo before they moved it.",
        "I took a picture of the same fault at another house last month.",
        "You get the picture.",
        "The picture on the box shows two hoses.",
        "Please take a picture of the puddle and send it to the office.",
        "I'd take a photo but my phone is flat.",
        "I forgot to take a picture of the plate.",
        "I was going to take a picture but the light is gone.",
        "I gave it a shot of silicone.",
        "The relay took a shot of water.",
        "I can't get a picture of it, it's too tight in there.",
        "The installer says he'll take a photo of the vent.",
        "There's a photo of her dog on the fridge.",
        "I'll take a photo of it tomorrow.",
        "You can take a picture of the filter every month.",
        "Without taking a picture I can't claim it.",
        "Her son took some pictures of the flood.",
        "The apprentice is taking a photo of the cabinet.",
        "A woman downstairs took a picture of the ceiling.",
        "She came down and her boy took a photo of it.",
        "My mate's taken a photo of it already.",
        "We were going to get a photo of the old one.",
        "I'll get a picture of the gasket later.",
    ],
    ids=lambda text: text[:40],
)
def test_picture_that_is_not_being_taken_is_no_cue(said: str) -> None:
    assert things(said) == []


def test_cue_carries_its_words_their_times_and_confidence() -> None:
    transcript = heard("Belt is fine.", "Okay, taking a picture of the drain hose.")

    assert photo_cues(transcript, load_vocabulary()) == (
        Cue(
            id="taking",
            evidence=Evidence(
                start=4.0, end=7.5, quote="taking a picture of the drain hose.", confidence=0.8
            ),
            thing=("drain", "hose"),
        ),
    )


def test_words_without_times_give_a_cue_without_times() -> None:
    breath = Breath(words=tuple(Word(text=word) for word in ("taking", "a", "photo", "of", "the", "belt")))

    (cue,) = photo_cues(Transcript(breaths=(breath,), recordings=()), load_vocabulary())

    assert (cue.evidence.start, cue.evidence.end, cue.thing) == (None, None, ("belt",))


def test_two_pictures_in_one_breath_are_two_cues() -> None:
    said = "Taking a photo of the belt. And taking a photo of the motor."

    assert things(said) == ["belt", "motor"]


def test_no_cue_reaches_across_two_breaths() -> None:
    transcript = heard("I'm taking a", "picture of health she is")

    assert photo_cues(transcript, load_vocabulary()) == ()


def test_every_cue_finds_its_samples_and_no_near_miss() -> None:
    words = load_vocabulary().photos
    found = {
        (cue.id, said): cue.id in [hit.id for hit in photo_cues(heard(said), load_vocabulary())]
        for cue in words.cues
        for said in cue.finds
    }
    missed = {said: photo_cues(heard(said), load_vocabulary()) for cue in words.cues for said in cue.misses}

    assert [key for key, is_found in found.items() if not is_found] == []
    assert {said: hits for said, hits in missed.items() if hits} == {}
