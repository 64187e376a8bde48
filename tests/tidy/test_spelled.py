"""Model, serial and part numbers and fault codes. Expected values are written from the sentences."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.tidy.characters import is_character
from fieldnotes.tidy.lexicon import lexicon_of
from fieldnotes.tidy.spelled import find_spelled, spell
from fieldnotes.tidy.text import Spelled
from tests.tidy.speech import MEASURES, tidied

# ICAO Annex 10, Volume II, 5.2.1.3 (from memory); digits as in its radiotelephony table.
ICAO = [
    "alfa", "bravo", "charlie", "delta", "echo", "foxtrot", "golf", "hotel", "india", "juliett", "kilo",
    "lima", "mike", "november", "oscar", "papa", "quebec", "romeo", "sierra", "tango", "uniform", "victor",
    "whiskey", "x-ray", "yankee", "zulu",
]  # fmt: skip
DIGITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]


def spelled(said: str) -> Spelled | None:
    text = tidied(said)
    return spell(text.tokens, 0, len(text.tokens), MEASURES, text.quantities)


def found(said: str) -> list[str]:
    text = tidied(said)
    return [run.text for run in find_spelled(text.tokens, MEASURES, text.quantities)]


PLAIN = [
    ("letter, then its word", "model T W four one B, B as in bravo.", "TW41B"),
    ("then a letter", "model W T L nine ninety and then a B like bro", "WTL990B"),
    ("letter on the end", "it's a C G seven one one, with a P on the end", "CG711P"),
    ("there's a letter on the end", "it's a C G seven one one, and there's a P on the end of it", "CG711P"),
    ("unit that is a letter", "serial two two zero four K for Kenny nine one", "2204K91"),
    ("small letters and hyphen", "model dw-7055b", "DW7055B"),
    ("letters and digits", "model looks like P X W, five oh four two, W.", "PXW5042W"),
    ("joined by the recogniser", "model PXW5042W.", "PXW5042W"),
    ("in chunks", "model PXW 5042W", "PXW5042W"),
    ("last letter apart", "model PXW 5042 W, 120 volts", "PXW5042W"),
    ("hyphens", "model P-X-W-5-0-4-2-W", "PXW5042W"),
    ("dashes said", "model P X W dash five oh four two dash W", "PXW5042W"),
    ("code words", "model papa golf seven double four zero whiskey", "PG7440W"),
    ("code words with stops", "Model: bravo echo delta, six six zero, echo.", "BED660E"),
    ("niner", "serial is K K three one five niner zero two eight", "KK3159028"),
    ("as in", "model, I think that's, yeah, B as in boy, T as in Tom, six six zero X.", "BT660X"),
    ("for", "two two oh seven, A for apple, five five nine eight", "2207A5598"),
    ("zed", "model T H six two zero, zed for zebra", "TH620Z"),
    ("doubles", "serial, eight oh one, double six, four, R for Romeo, one two.", "801664R12"),
    ("triple", "Serial number's double seven, nought four, triple one, golf, hotel.", "7704111GH"),
    ("number of zeros", "serial four one seven J, three zeros, two eight eight", "417J000288"),
    ("teen inside", "model V F eight eleven", "VF811"),
    ("tens inside", "model Z six twenty", "Z620"),
    ("hundred inside", "it's R six hundred A", "R600A"),
    ("over breaths", "serial Q one eight, | triple three, zero, | L as in lemon, six.", "Q183330L6"),
    ("digits only", "part number eight eight zero, four one seven", "880417"),
    ("then words follow", "serial two zero, double one, november, and that is all of it", "2011N"),
    ("double u", "serial double u three nine five", "W395"),
    ("letter and code word", "model T D six B bravo two", "TD6B2"),
    ("code in tens", "F twenty-one", "F21"),
    ("code in digits", "E one four, dated Sunday", "E14"),
    ("code of one digit", "E three", "E3"),
    ("code and count", "Codes: F twelve, one count", "F12"),
    ("code and sentence", "F nine in there too, one count", "F9"),
]

REPAIRED = [
    ("one by one", "serial zero, six, six, K, three, one, eight. Excuse me, three, one, two.", "066K312"),
    ("begun anew in groups", "model H, five zero, R X, no, H five zero R", "H50R"),
    ("an aside", "model J N, eight two five, no, that's a smudge, eight two zero.", "JN820"),
    ("halted and begun again", "serial five one, hang on, five seven, double two, J.", "5722J"),
    ("start again", "model A R, sorry, A K, it's A K F, two one nine, S S.", "AKF219SS"),
    ("start again, joined", "model AR, sorry, AK, it's AKF219SS", "AKF219SS"),
    ("last group", "two two oh seven, A for apple, five five nine three, no I tell a lie, five five nine "
     "eight", "2207A5598"),
    ("last group without commas", "2207A5593 no I tell a lie 5598", "2207A5598"),
    ("first group", "serial, four one eight, no, four one nine, double five, zero seven, R.", "4195507R"),
    ("first group without commas", "serial four one eight no four one nine double five zero seven R",
     "4195507R"),
    ("said twice after a repair", "four one seven J, oh oh, no, three zeros, triple zero, two eight eight",
     "417J000288"),
    ("joined, repaired in the middle", "417J00, no, three zeros, triple zero, 288", "417J000288"),
    ("last letter not a two", "T D six two zero two, and that last letter's a Z, zulu, not a two", "TD620Z"),
    ("read back differently", "P X W five oh four two W, so that's P X W five oh four three W", "PXW5043W"),
]  # fmt: skip

READ_BACK = [
    ("whole", "P X W five oh four two W, so that's P X W five oh four two W", "PXW5042W"),
    ("only its start", "P X W, five oh four two, W, so that's P X W, great", "PXW5042W"),
    ("last letter made sure", "T D six two zero, and that last letter's a Z, zulu, not a two", "TD620Z"),
]

ORDINARY = [
    ("towels", "ran it with two towels, three shirts and a jacket"),
    ("readings", "fifty three, fifty two, okay it settled, fifty one degrees"),
    ("volts", "leg one to neutral, one twenty point nine, leg two, one twenty point seven"),
    ("ohms", "eleven point eight K with the room probe at seventy Fahrenheit"),
    ("words that sound like letters", "I see you are okay, be fine, why not"),
    ("year", "bought in twenty twenty two"),
    ("words of the code", "he said the hotel by the golf course was closed"),
    ("abbreviation", "the RPM is fine and the LED is OK"),
    ("units written on", "it reads 120V and 14A"),
]


@pytest.mark.parametrize(("said", "text"), [row[1:] for row in PLAIN], ids=[row[0] for row in PLAIN])
def test_spelled_string_is_read_as_on_the_plate(said: str, text: str) -> None:
    run = spelled(said)

    assert run is not None
    assert (run.text, run.repaired) == (text, False)


@pytest.mark.parametrize(("said", "text"), [row[1:] for row in REPAIRED], ids=[row[0] for row in REPAIRED])
def test_speaker_repairs_his_spelling(said: str, text: str) -> None:
    run = spelled(said)

    assert run is not None
    assert (run.text, run.repaired) == (text, True)


@pytest.mark.parametrize(("said", "text"), [row[1:] for row in READ_BACK], ids=[row[0] for row in READ_BACK])
def test_reading_back_changes_nothing(said: str, text: str) -> None:
    run = spelled(said)

    assert run is not None
    assert (run.text, run.repaired) == (text, False)


@pytest.mark.parametrize("said", [row[1] for row in ORDINARY], ids=[row[0] for row in ORDINARY])
def test_ordinary_speech_holds_no_spelled_string(said: str) -> None:
    assert found(said) == []


def test_two_strings_in_one_breath_are_both_found() -> None:
    said = "model papa golf seven double four zero whiskey serial is K K three one five niner zero two eight"

    assert found(said) == ["PG7440W", "KK3159028"]


def test_a_string_named_behind_it_does_not_go_on_from_the_breath_before() -> None:
    assert found("model K D, two two zero, S. | Six one four, C, double two, is the serial.") == [
        "KD220S",
        "614C22",
    ]


def test_a_string_goes_on_over_a_breath_before_the_next_is_announced() -> None:
    assert found("model K D, two two | zero, S. Serial six one four, C, double two.") == ["KD220S", "614C22"]


def test_measurement_after_a_model_stays_a_measurement() -> None:
    text = tidied("model PXW5042W, 120 volts")

    assert [run.text for run in text.spelled] == ["PXW5042W"]
    assert [(q.value, q.unit) for q in text.quantities] == [(120.0, "V")]


def test_alphabet_is_the_icao_alphabet() -> None:
    listed = MEASURES.spelling.code_words

    assert sorted(listed) == [word[0].upper() for word in ICAO]
    assert all(word.replace("-", " ") in listed[word[0].upper()] for word in ICAO)


ALONE = ["B,", "a.5", "5442.", "PXW", "zulu", "X-ray,", "oh,", "double", "A,"]
NOT_ALONE = ["a", "I", "pump,", "LIMESCALE", "be", "..."]


@pytest.mark.parametrize("written", ALONE)
def test_word_that_can_be_a_character_by_itself(written: str) -> None:
    assert is_character(written, lexicon_of(MEASURES))


@pytest.mark.parametrize("written", NOT_ALONE)
def test_word_that_needs_others_to_be_a_character(written: str) -> None:
    assert not is_character(written, lexicon_of(MEASURES))


PLATE = st.text("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789", min_size=4, max_size=12).filter(
    lambda text: any(sign.isdigit() for sign in text)
)


@given(PLATE)
def test_string_in_code_words_is_read_back(text: str) -> None:
    said = " ".join(DIGITS[int(sign)] if sign.isdigit() else ICAO[ord(sign) - 65] for sign in text)
    run = spelled(f"serial number {said}")

    assert run is not None
    assert run.text == text


@given(PLATE.filter(lambda text: "O" not in text))
def test_string_in_letters_and_hyphens_is_read_back(text: str) -> None:
    """Without the letter O, which is taken for a zero after a digit."""
    run = spelled(f"serial number {'-'.join(text)}")

    assert run is not None
    assert run.text == text


@pytest.mark.parametrize(
    ("said", "text"),
    [
        ("serial is K, K, 3, 1, 5, 9, or 0, 2, 8", "KK3159028"),
        ("model follows, bravo, delta, 5, 5, 9, or tango", "BD559T"),
        ("model B D 559 or so", "BD559"),
        ("serial A B 5 5 9 or 5 5 8, I cannot read it", "AB559"),
    ],
)
def test_niner_may_be_heard_as_nine_or(said: str, text: str) -> None:
    assert [run.text for run in tidied(said, 0.9).spelled] == [text]
