"""Misheard characters behind "model" and "serial". What was heard is as a recogniser wrote it; the expected strings
are what a clerk who knows the spelling alphabet would take down, and whether he would ask back."""

from __future__ import annotations

import pytest

from fieldnotes.tidy import tidy
from fieldnotes.tidy.code_words import CodeWords
from fieldnotes.transcript import Breath, Transcript, Word
from tests.tidy.speech import MEASURES

HEARD = 0.9  # confidence of words that were heard and not typed

GUESSED = [
    ("as in, its letter an ordinary word", "The model's of T as in Texas H, 4050, and as in Nancy, G.", "TH4050NG"),
    ("is in", "Model numbers J is in Juliet, C is in Chicago, and as in North, 0191.", "JCN0191"),
    ("as an", "Serial number is R as in Romeo, 85, X as an X-ray, 8080.", "R85X8080"),
    ("letter rhymes with another", "Model is P as in bravo, 3, 5, 1, 3.", "B3513"),
    ("word written as a figure", "Plate says model Z like 0, 964, L like lemon, J like John.", "Z964LJ"),
    ("as drawn to its letter", "Model PS in pop, 3, 5, 1, 3.", "P3513"),
    ("word written as a figure, behind the letter's name", "Serial 8, 4, 0, zed like 0, 7.", "840Z7"),
    ("be for victor", "Model F for fox, 2610, be for victor.", "F2610V"),
    ("code word misheard", "Serial mic hotel, 544, 325.", "MH544325"),
    ("two code words misheard", "Serial number my climb, 404, 486.", "ML404486"),
    ("code word that only its listed mishearing tells", "Serial Dolph Mike, 544, 325.", "GM544325"),
    ("code words run together", "Serial three four, victorciera, two three eight three.", "34VS2383"),
    ("figures with a point", "Model is R as in red, 8.51, L as in London.", "R851L"),
    ("four as for", "Serial number 1414, P, for 6, 2.", "1414P462"),
    ("you be", "The model numbers you be 5607.", "UB5607"),
    ("nought as not", "Serial number's double four, not six, triple two, kilo.", "4406222K"),
    ("oh as all", "Serial number two, all seven, double eight one.", "207881"),
    ("serial as cereals", "The model is GH0940 Y, cereals 19, my tango, 66.", "19MT66"),
]  # fmt: skip

SURE = [
    ("nothing misheard", "Model number is F as in Frank, K as in kilo, 9, 7, 4.", "FK974"),
    (
        "is in, behind asides",
        "Serial's on the door edge, hold on, glasses, Q18, L is in lemon, six.",
        "Q18L6",
    ),
    ("a letter that is left of bought", "Serial, 1938, alpha, 661. B, spring 2018.", "1938A661"),
    ("code words", "Serial number is hotel mike, 8, double 4, 2.", "HM8442"),
    ("oh written as the letter", "Serial R, L, 1, 3, O, 9, 6, O.", "RL130960"),
    ("double, then a comma", "Serial number hotel 9, double, 3, 0.", "H9330"),
]

DOUBTFUL = [
    ("bare letters that rhyme", "Serial number is T S, 813, 432.", "TS813432"),
    ("more that could not be read", "Serial X-ray, 965, for weary 37.", "X965"),
    ("strange words before it", "Serial, Amazon trick, 441920.", "441920"),
]

UNTOUCHED = [
    "The model is fine for now, I'll be back to see it.",
    "Serial plate is behind the kick panel, two screws.",
    "The model looks like one to free for you.",
    "The model is a big one, not four, but six drawers.",
]


def strings(said: str, confidence: float) -> list[tuple[str, bool]]:
    words = tuple(Word(text=word, confidence=confidence) for word in said.split())
    text = tidy(Transcript(breaths=(Breath(words=words),), recordings=()), MEASURES)
    return [(run.text, run.sure) for run in text.spelled]


@pytest.mark.parametrize(("said", "text"), [row[1:] for row in GUESSED], ids=[row[0] for row in GUESSED])
def test_misheard_characters_are_guessed_and_marked(said: str, text: str) -> None:
    assert (text, False) in strings(said, HEARD)


@pytest.mark.parametrize(("said", "text"), [row[1:] for row in SURE], ids=[row[0] for row in SURE])
def test_what_was_heard_plainly_is_sure(said: str, text: str) -> None:
    assert strings(said, HEARD) == [(text, True)]


@pytest.mark.parametrize(("said", "text"), [row[1:] for row in DOUBTFUL], ids=[row[0] for row in DOUBTFUL])
def test_string_that_may_be_wrong_is_not_sure(said: str, text: str) -> None:
    assert strings(said, HEARD) == [(text, False)]


def test_typed_letters_that_rhyme_are_sure() -> None:
    assert strings("Serial number is T S, 813, 432.", 1.0) == [("TS813432", True)]


@pytest.mark.parametrize("said", UNTOUCHED)
def test_ordinary_words_behind_model_and_serial_stay(said: str) -> None:
    words = tuple(Word(text=word, confidence=HEARD) for word in said.split())
    text = tidy(Transcript(breaths=(Breath(words=words),), recordings=()), MEASURES)

    assert not any(token.guessed for token in text.tokens)
    assert text.spelled == ()


ALIKE = [
    ("mic", "M"),
    ("victorciera", "VS"),
    ("popu", "P"),
    ("my climb", "ML"),
    ("quibbeck", "Q"),
    ("tangle", "T"),
]
UNLIKE = ["today", "problem", "pillow", "heater", "rim", "sitting", "calibration", "dirty"]


@pytest.mark.parametrize(("heard", "letters"), ALIKE)
def test_code_words_are_known_by_their_sound(heard: str, letters: str) -> None:
    near = CodeWords(MEASURES.spelling).nearest(heard)

    assert near is not None
    assert near[1] == letters


@pytest.mark.parametrize("heard", UNLIKE)
def test_ordinary_words_sound_like_no_code_word(heard: str) -> None:
    assert CodeWords(MEASURES.spelling).nearest(heard) is None
