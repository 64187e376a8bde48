"""What is kept of two hearings of one piece. No recogniser: both hearings are written down here."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from fieldnotes.hear.spelling_pass import (
    AGREED,
    DIFFERENT,
    heard_twice,
    is_spelled,
    spelling_prompt,
)
from fieldnotes.trade_terms import spelling_of
from fieldnotes.transcript import Word
from fieldnotes.vocabulary.load import load_vocabulary

VOCABULARY = load_vocabulary()
SPELLING = spelling_of(VOCABULARY)
STEP_S = 0.4
FIRST = 0.7  # confidence of every word of either hearing


def words(said: str) -> tuple[Word, ...]:
    """One word each STEP_S; `_` is a word's time without a word."""
    listed = enumerate(said.split())
    return tuple(
        Word(text=text, start=n * STEP_S, end=(n + 1) * STEP_S, confidence=FIRST)
        for n, text in listed
        if text != "_"
    )


def kept(first: str, second: str | None) -> list[tuple[str, float]]:
    got = heard_twice(
        words(first),
        lambda prompt: None if second is None else words(second),
        SPELLING,
    )
    return [(word.text, word.confidence) for word in got]


def marked(said: str, confidence: float) -> list[tuple[str, float]]:
    return [(text, confidence) for text in said.split()]


ROWS = [
    (
        "the second hearing's string goes on where the first one's ended: nothing is told twice",
        "Serial is 0619. Then a B-like boy, then 338-1. The pump is loud.",
        "Serial is 0619, B like 3, 3, 8, 1. The pump is loud.",
        [*marked("Serial is 0619, B like 3, 3, 8, 1.", DIFFERENT), *marked("The pump is loud.", FIRST)],
    ),
    (
        "agreed",
        "Okay. Serial mike hotel, 5442. The pump is loud.",
        "Okay. Serial, Mike, Hotel, 5442. The bump is loud.",
        [("Okay.", FIRST), *marked("Serial mike hotel, 5442.", AGREED), *marked("The pump is loud.", FIRST)],
    ),
    (
        "different: the second hearing's string, the first one's other words",
        "Okay. Serial number 5442 The pump is loud.",
        "Okay. Serial number 5,4,4,3,2. The bump is loud.",
        [
            ("Okay.", FIRST),
            *marked("Serial number 5,4,4,3,2.", DIFFERENT),
            *marked("The pump is loud.", FIRST),
        ],
    ),
    (
        "second hearing made no sense",
        "Serial K71, 5442. Fine.",
        None,
        [*marked("Serial K71, 5442.", DIFFERENT), ("Fine.", FIRST)],
    ),
    (
        "only the second heard the announcement",
        "Okay. Terrio my coatel, 5442. Fine.",
        "Okay. Serial mike hotel, 5442. Fine.",
        [("Okay.", FIRST), *marked("Serial mike hotel, 5442.", DIFFERENT), ("Fine.", FIRST)],
    ),
    (
        "the second hearing runs on without a stop",
        "Serial K71, 5442. He thinks they bought it in 2021.",
        "Serial K71, 5442, he thinks they bought it in 2021.",
        [*marked("Serial K71, 5442.", AGREED), *marked("He thinks they bought it in 2021.", FIRST)],
    ),
    ("nothing spelled", "The pump is loud.", "The bump is loud.", marked("The pump is loud.", FIRST)),
]


@pytest.mark.parametrize(
    ("first", "second", "expected"), [row[1:] for row in ROWS], ids=[row[0] for row in ROWS]
)
def test_two_hearings_become_one(
    first: str, second: str | None, expected: Sequence[tuple[str, float]]
) -> None:
    assert kept(first, second) == expected


WORTH = [
    ("model", "Model number is P, X, 504.", True),
    ("serial misheard", "And cereals 19, Romeo, 66.", True),
    ("unannounced", "It says P, X, W, 5, 0.", True),
    ("model of nothing", "It's an older model but it runs.", False),
    ("readings", "Heater reads 14.5 ohms, 120 volts.", False),
]


@pytest.mark.parametrize(("said", "worth"), [row[1:] for row in WORTH], ids=[row[0] for row in WORTH])
def test_only_pieces_with_spelled_strings_are_heard_again(said: str, worth: bool) -> None:
    assert is_spelled(words(said), len(said.split()) * STEP_S, SPELLING) is worth


def test_piece_with_too_few_words_is_heard_again() -> None:
    assert is_spelled(words("It leaks from underneath."), 20.0, SPELLING)


def test_prompt_holds_the_whole_alphabet() -> None:
    prompt = spelling_prompt(VOCABULARY.measures)

    assert all(listed[0] in prompt for listed in VOCABULARY.measures.spelling.code_words.values())
