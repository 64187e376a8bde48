"""Striking, all the way from words to record: quotes that are cut, short codes, and laws on made-up visits."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.private.striking import strike
from fieldnotes.private.tokens import MARK, breath_of, tokens_of
from fieldnotes.records import Evidence, Item, MadeWith, Visit
from fieldnotes.transcript import Breath, Recording, Transcript, Word
from fieldnotes.visit import Order, visit_of
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.write.schema import visit_json

VOCABULARY = load_vocabulary()
MADE_WITH = MadeWith(program="fieldnotes 0.1.0", vocabulary="1")


def heard(said: str) -> Transcript:
    """Breaths parted by " / ", 0.4 s a word, a second between breaths, and a recording that ends with the last word."""
    breaths: list[Breath] = []
    clock = 0.0
    for text in said.split(" / "):
        words = []
        for word in text.split():
            words.append(Word(text=word, start=round(clock, 2), end=round(clock + 0.4, 2), confidence=0.9))
            clock += 0.4
        breaths.append(Breath(words=tuple(words)))
        clock += 1
    recording = Recording(file="visit.flac", sha256="0" * 64, seconds=round(clock - 1, 2))
    return Transcript(breaths=tuple(breaths), recordings=(recording,))


def texts(transcript: Transcript) -> list[str]:
    return [" ".join(word.text for word in breath.words) for breath in transcript.breaths]


@pytest.mark.parametrize(
    ("first", "last", "quote"),
    [
        (0, None, "on [telephone struck out]"),
        (1, 4, "[telephone struck out]"),
        (3, 5, "[telephone struck out]"),
        (0, 1, "on"),
    ],
    ids=["whole", "begins in it", "its end", "before it"],
)
def test_quote_that_holds_only_part_of_a_number_is_struck(first: int, last: int | None, quote: str) -> None:
    transcript = heard("her number's / on 415 555 01 26")
    words = transcript.breaths[1].words[first:last]
    said = " ".join(word.text for word in words)
    evidence = Evidence(start=words[0].start, end=words[-1].end, quote=said, confidence=0.9)
    visit = Visit(follow_ups=(Item(about="", text="Ring her.", evidence=evidence),), made_with=MADE_WITH)

    struck = strike(visit, transcript, VOCABULARY)

    assert struck.visit.follow_ups[0].evidence == evidence.model_copy(update={"quote": quote})


def test_short_code_stays_where_it_is_a_reading_or_on_the_plate() -> None:
    transcript = heard("Gate code is 1400. / Spins at 1400 rpm. / Model is GT 1400. / it was 1400 again")

    struck = strike(Visit(made_with=MADE_WITH), transcript, VOCABULARY)

    assert texts(struck.transcript) == [
        "Gate code is [code struck out].",
        "Spins at 1400 rpm.",
        "Model is GT 1400.",
        "it was [code struck out] again",
    ]


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("It's Mrs. Penhallow's washer.", "It's [name struck out]'s washer."),
        ("Ask the Penhallows', then go, Mrs. Penhallow.", "Ask the [name struck out]', then go, [name struck out]."),
        ("Gate code is 66184, call her on 415 555 0126.",
         "Gate code is [code struck out], call her on [telephone struck out]."),
    ],
    ids=["possessive", "of a family", "comma and full stop"],
)  # fmt: skip
def test_what_is_written_around_private_words_stays(said: str, left: str) -> None:
    assert texts(strike(Visit(made_with=MADE_WITH), heard(said), VOCABULARY).transcript) == [left]


def test_silence_ends_with_the_recording() -> None:
    transcript = heard("Gate code is 6618")

    struck = strike(Visit(made_with=MADE_WITH), transcript, VOCABULARY)

    assert [silence.end_s for silence in struck.silences] == [transcript.recordings[0].seconds]


def test_words_in_which_a_limit_was_stated_are_struck_too() -> None:
    said = "Washer. / The drain pump reads forty ohms. / Mrs. Penhallow's book says fifteen to thirty ohms"
    transcript = heard(said)
    visit = visit_of(transcript, VOCABULARY, Order(number="7", date="2026-03-02"))
    (limit,) = (reading.limit for reading in visit.readings)
    (struck,) = (reading.limit for reading in strike(visit, transcript, VOCABULARY).visit.readings)

    assert limit is not None
    assert "Penhallow" in limit.source
    assert struck == limit.model_copy(
        update={"source": "[name struck out]'s book says fifteen to thirty ohms"}
    )


# ---- laws, for visits that are understood from sentences with private words planted in them

GIVEN = ["Thisbe", "Leopold", "Ottoline", "Peregrine", "Caspian"]
FAMILY = ["Penhallow", "Oakhanger", "Ravensworth", "Harkaway", "Quennell-Roe"]
STREET = ["Wrenfield", "Bellweather", "Tollgate", "Dunmallet"]
TRADE = [
    "Drain pump reads 14 ohms, good.", "The lid lock pulls in, holds.", "Belt's worn, replaced the belt.",
    "Customer says it leaks on spin.", "Model is KDV 42 A, serial 4 0 7 1 8 8 2.", "Fault code F21, cleared it.",
    "Supply is 121 volts.", "Ran a full cycle, passed.", "Keep the filter clean, once a month.",
]  # fmt: skip
ONES = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
KINDS = ["name", "titled", "telephone", "code", "address", "e-mail", "card"]
CARDS = ["4242424242424242", "5555555555554444", "4111111111111111"]  # well-known test numbers
Row = tuple[str, str]  # a sentence, and what is private in it


def spoken_digits(digits: str) -> st.SearchStrategy[str]:
    return st.sampled_from([digits, " ".join(ONES[int(digit)] for digit in digits), " ".join(digits)])


@st.composite
def planted(draw: st.DrawFn) -> Row:
    given_name, family = draw(st.sampled_from(GIVEN)), draw(st.sampled_from(FAMILY))
    kind = draw(st.sampled_from(KINDS))
    if kind == "name":
        return f"Spoke to {given_name} {family} at the door.", f"{given_name} {family}"
    if kind == "titled":
        return f"Mrs. {family} showed me the washer.", family
    if kind == "telephone":
        digits = f"415555{draw(st.integers(100, 199)):04d}"
        return f"Her number's {draw(spoken_digits(digits))}, after six.", digits
    if kind == "code":
        digits = f"{draw(st.integers(300_000, 999_999))}"
        return f"Gate code is {draw(spoken_digits(digits))} and push.", digits
    if kind == "address":
        street = f"{draw(st.integers(2, 999))} {draw(st.sampled_from(STREET))} Avenue"
        return f"I'm at {street}, kitchen.", street
    if kind == "e-mail":
        said = f"{given_name.lower()} dot {family.lower()} at post dot example"
        return f"Email is {said}.", said
    digits = draw(st.sampled_from(CARDS))
    return f"Card is {draw(spoken_digits(digits))}.", digits


VISITS = st.lists(
    st.one_of(st.sampled_from([(text, "") for text in TRADE]), planted()), min_size=1, max_size=8
)


def understood(rows: list[Row]) -> tuple[Visit, Transcript]:
    transcript = heard(" / ".join(text for text, _ in rows))
    return visit_of(transcript, VOCABULARY, Order(number="7", date="2026-03-02")), transcript


def strings_in(plain: object) -> Iterator[str]:
    if isinstance(plain, str):
        yield plain
    elif isinstance(plain, dict):
        for value in plain.values():
            yield from strings_in(value)
    elif isinstance(plain, list):
        for value in plain:
            yield from strings_in(value)


def as_one(text: str) -> str:
    """The words of a text between spaces, digit words as digits, and digits that follow each other as one."""
    found: list[str] = []
    number = False
    for token in tokens_of(Transcript(breaths=(breath_of(text),), recordings=())):
        word = str(ONES.index(token.text)) if token.text in ONES else token.text
        if word.isdigit() and number:
            found[-1] += word
        else:
            found.append(word)
        number = word.isdigit()
    return f" {' '.join(found)} "


@settings(max_examples=60, deadline=None)
@given(VISITS)
def test_no_private_word_is_left_in_record_or_transcript(rows: list[Row]) -> None:
    struck = strike(*understood(rows), VOCABULARY)

    kept = [*strings_in(json.loads(visit_json(struck.visit))), *texts(struck.transcript)]
    left = [
        (private, text) for _, private in rows if private for text in kept if as_one(private) in as_one(text)
    ]
    assert left == []


@settings(max_examples=40, deadline=None)
@given(VISITS)
def test_striking_twice_is_striking_once(rows: list[Row]) -> None:
    once = strike(*understood(rows), VOCABULARY)

    twice = strike(once.visit, once.transcript, VOCABULARY)

    assert (twice.visit, twice.transcript, twice.silences) == (once.visit, once.transcript, ())


@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from([(text, "") for text in TRADE]), min_size=1, max_size=9))
def test_visit_without_private_words_is_unchanged(rows: list[Row]) -> None:
    visit, transcript = understood(rows)

    struck = strike(visit, transcript, VOCABULARY)

    assert (struck.visit, struck.transcript, struck.silences) == (visit, transcript, ())


@settings(max_examples=40, deadline=None)
@given(VISITS)
def test_breaths_keep_their_times_and_every_mark_is_silent(rows: list[Row]) -> None:
    visit, transcript = understood(rows)

    struck = strike(visit, transcript, VOCABULARY)

    marks = [word for breath in struck.transcript.breaths for word in breath.words if MARK.search(word.text)]
    assert len(marks) >= sum(private != "" for _, private in rows)
    for breath, after in zip(transcript.breaths, struck.transcript.breaths, strict=True):
        assert (breath.words[0].start, breath.words[-1].end) == (after.words[0].start, after.words[-1].end)
    for word in marks:
        begin, end = word.start or 0.0, word.end or 0.0
        assert any(quiet.start_s <= begin < end <= quiet.end_s for quiet in struck.silences)
