"""What was found is in neither record nor transcript; laws over visits with private words planted in them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.private.finding import find_private
from fieldnotes.private.striking import Silence, strike
from fieldnotes.records import Evidence, Item, Job, MadeWith, Reading, StruckCount, Visit
from fieldnotes.transcript import Breath, Recording, Transcript, Word
from fieldnotes.vocabulary.load import load_vocabulary

MADE = MadeWith(program="fieldnotes 0", vocabulary="0")
PLAIN = [
    "Drain pump 14.5 ohm, good.",
    "Replaced the door gasket.",
    "Serial 4471 2580 99.",
    "the filter is blocked",
]
# sentence, and the words of it that may not be left anywhere
PLANTED = [
    ("Spoke to Mrs. Tansley about it.", "Tansley"),
    ("His name is Odalric Venn, he rents it.", "Odalric Venn"),
    ("Call her on 202-555-0142 later.", "202-555-0142"),
    ("her number's two oh two five five five oh one four two", "two oh two five five five"),
    ("Gate code is 4471, push hard.", "4471,"),
    ("She lives at 14 Larkspur Lane.", "14 Larkspur"),
    ("email is pru dot venn at mail dot example", "pru dot venn at mail"),
    ("Card 4242 4242 4242 4242 was taken.", "4242"),
]
AGAIN = [("", ""), ("Back to Tansley tomorrow.", "Tansley"), ("Told Venn it is done.", "Venn")]


def transcript_of(sentences: list[str]) -> Transcript:
    breaths = []
    for n, sentence in enumerate(sentences):
        words = sentence.split()
        breaths.append(
            Breath(
                words=tuple(
                    Word(text=w, start=10 * n + k / 2, end=10 * n + k / 2 + 0.4) for k, w in enumerate(words)
                )
            )
        )
    return Transcript(breaths=tuple(breaths), recordings=(Recording(file="a.wav", sha256="0" * 64),))


def visit_of(sentences: list[str], customer: str | None = None) -> Visit:
    items = tuple(
        Item(about="drain pump", text=s, note=s, evidence=Evidence(start=0, end=1, quote=s, confidence=1))
        for s in sentences
    )
    return Visit(job=Job(customer=customer, technician="Tansley"), complaints=items, made_with=MADE)


def strings_of(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for below in value.values():
            yield from strings_of(below)
    elif isinstance(value, list):
        for below in value:
            yield from strings_of(below)


def holds(text: str, words: str) -> bool:
    bare = [word.strip(".,").lower() for word in text.split()]
    run = [word.strip(".,").lower() for word in words.split()]
    return any(bare[n : n + len(run)] == run for n in range(len(bare)))


MIXES = st.lists(
    st.one_of(st.sampled_from(PLAIN).map(lambda s: (s, "")), st.sampled_from(PLANTED)), max_size=6
)


@settings(max_examples=60, deadline=None)
@given(MIXES)
def test_no_planted_word_is_left_and_striking_twice_is_striking_once(mix: list[tuple[str, str]]) -> None:
    vocabulary = load_vocabulary()
    sentences, words = [s for s, _ in mix], [w for _, w in mix if w]

    struck = strike(visit_of(sentences), transcript_of(sentences), vocabulary)

    left = [*strings_of(struck.visit.model_dump(mode="json", exclude={"job"}))]
    left += [" ".join(word.text for word in breath.words) for breath in struck.transcript.breaths]
    spoken = [text for text in left if not text.startswith("Serial")]
    assert [(word, text) for word in words for text in spoken if holds(text, word)] == []
    kept = [item.text for item in struck.visit.complaints if item.text.startswith("Serial")]
    assert kept == [said for said in sentences if said.startswith("Serial")]  # also beside a code within it
    again = strike(struck.visit, struck.transcript, vocabulary)
    assert (again.visit, again.transcript, again.silences) == (struck.visit, struck.transcript, ())
    assert find_private(struck.transcript, vocabulary) == ()


@settings(max_examples=30, deadline=None)
@given(st.lists(st.sampled_from(PLAIN), max_size=5))
def test_visit_without_private_words_is_unchanged(sentences: list[str]) -> None:
    visit, transcript = visit_of(sentences), transcript_of(sentences)

    struck = strike(visit, transcript, load_vocabulary())

    assert (struck.visit, struck.transcript, struck.silences) == (visit, transcript, ())


def test_every_trace_is_struck_counted_and_timed() -> None:
    said = [
        "Spoke to Mrs. Tansley, her number's two oh two five five five",
        "oh one four two.",
        "Told Tansley it drains.",
    ]
    quote = Evidence(start=0, end=1, quote=said[2], confidence=1)
    tidied = Item(about="drain pump", text="Call 2025550142, then Tansley.", evidence=quote, also=(quote,))
    reading = Reading(about="heater", text="Heater 14.5 ohm.", evidence=quote, value=14.5, unit="ohm")
    visit = Visit(job=Job(customer="Ida Tansley"), complaints=(tidied,), readings=(reading,), made_with=MADE)

    struck = strike(visit, transcript_of(said), load_vocabulary())

    clean = quote.model_copy(update={"quote": "Told [name struck out] it drains."})
    assert struck.visit == visit.model_copy(
        update={
            "job": Job(customer="[name struck out]"),
            "complaints": (
                tidied.model_copy(
                    update={
                        "text": "Call [telephone struck out], then [name struck out].",
                        "evidence": clean,
                        "also": (clean,),
                    }
                ),
            ),
            "readings": (reading.model_copy(update={"evidence": clean}),),
            "struck": (StruckCount(kind="name", count=3), StruckCount(kind="telephone", count=2)),
        }
    )
    assert [" ".join(word.text for word in breath.words) for breath in struck.transcript.breaths] == [
        "Spoke to [name struck out], her number's [telephone struck out]",
        "[telephone struck out].",
        "Told [name struck out] it drains.",
    ]
    assert struck.silences == (
        Silence(recording=0, start_s=0.92, end_s=1.98),
        Silence(recording=0, start_s=2.92, end_s=5.98),
        Silence(recording=0, start_s=9.92, end_s=11.98),
        Silence(recording=0, start_s=20.42, end_s=20.98),
    )
