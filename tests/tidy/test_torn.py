"""Numbers that were torn apart where the voice rested are whole again, and marked as guessed."""

from __future__ import annotations

import pytest

from tests.tidy.speech import quantities, tidied

TORN = [
    ("one nineteen point three", "it reads 1.19.3 volts.", ["119.3 V"]),
    ("two thirty eight point six", "at the plug, 2.38.6 volts", ["238.6 V"]),
    ("begun again", "Broil element, 16.15.9 ohms.", ["15.9 ohm"]),
    ("neither", "Broil element, 16.45.9 ohms.", []),
    ("a comma in the decimals", "it's point nine, four inches of water", ["0.94 inH2O"]),
    ("two numbers", "it's point nine, fourteen inches of water", ["0.9 inH2O", "14 inH2O"]),
    ("no unit behind", "point nine, four clips on it", ["0.9", "4 (count)"]),
    ("noughts written not", "it's reading not point, not four megohms", ["0.04 Mohm"]),
    ("unit misheard, too", "it's reading not point, not four megomes", ["0.04 Mohm"]),
    ("noughts without commas", "it's reading not point not four megohms", ["0.04 Mohm"]),
    ("a comma behind the point", "leakage is point, four milliamps", ["0.4 mA"]),
    ("nought and a comma", "it came to nought point, three ohms", ["0.3 ohm"]),
    ("not, as said", "that is not the point, not four volts more", ["4 V"]),
    ("a decimal with its unit", "point nine ohms, four inches of water", ["0.9 ohm", "4 inH2O"]),
    ("a noun", "at the power point nine, four inches off", ["9 in", "4 in"]),
]


@pytest.mark.parametrize(("said", "expected"), [pytest.param(*row[1:], id=row[0]) for row in TORN])
def test_torn_number_is_put_together(said: str, expected: list[str]) -> None:
    assert quantities(said) == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Spin speed is 1100 in 80 rpm", ["1180 rpm"]),
        ("it got to 1100 in 80 seconds", ["1100", "80 s"]),
        ("it was 100 in 19 volts", ["119 V"]),
    ],
)
def test_and_within_a_number_may_be_heard_as_in(said: str, expected: list[str]) -> None:
    assert quantities(said, 0.9) == expected


@pytest.mark.parametrize(
    ("said", "stop"),
    [
        ("It was empty in. Let's see, 42 seconds.", ","),
        ("Supply's at. Hang on, 119 volts.", ","),
        ("I plugged it in. Okay, the fan runs.", "."),
        ("I plugged it in. 42 seconds.", "."),
        ("It was empty. Let's see, 42 seconds.", "."),
    ],
)
def test_full_stop_before_an_aside_and_a_number_is_none(said: str, stop: str) -> None:
    assert next(token.stop for token in tidied(said).tokens if token.stop) == stop


@pytest.mark.parametrize(
    ("said", "stops"),
    [
        ("The element. It's open.", ",."),
        ("The element. | It's open.", ".."),
        ("Is it open. Or shut? It's open.", ".?."),
        ("Is it open? It's shut. Good.", "?,."),
        ("It was open; bad. | Cold! Now. What?", ";.!.?"),
    ],
)
def test_full_stop_that_was_heard_ends_no_sentence_inside_a_breath(said: str, stops: str) -> None:
    """But before a question; a stop that somebody wrote is left."""
    heard, written = tidied(said, confidence=0.9).tokens, tidied(said).tokens

    assert "".join(token.stop for token in heard) == stops
    assert "".join(token.stop for token in written) == "".join(c for c in said if c in ".?;!")


def test_number_put_together_is_marked_as_guessed() -> None:
    tokens = tidied("it reads 1.19.3 volts.").tokens

    assert [(t.text, t.heard, t.guessed) for t in tokens if t.guessed] == [("119.3", "1.19.3", True)]
