"""A word that sounds like a unit is one where its number or its sentence says so, and is marked as guessed."""

from __future__ import annotations

import pytest

from tests.tidy.speech import quantities, tidied

HEARD = [
    ("no count of bolts", "I had 238 bolts there.", ["238 V"]),
    ("a decimal", "120.2 bolts", ["120.2 V"]),
    ("in words", "two hundred and thirty eight bolts at the valve", ["238 V"]),
    ("in the sentence of an outlet", "24 bolts across the leads", ["24 V"]),
    ("ohms", "heater reads 14.2 homes", ["14.2 ohm"]),
    ("ohms of a winding", "main winding, 12 homes", ["12 ohm"]),
    ("amps", "it's pulling 8.1 ants", ["8.1 A"]),
    ("kilohms", "sensor reads 16.3 kylem", ["16.3 kohm"]),
    ("megohms", "element can to chassis, 40 megomes", ["40 Mohm"]),
    ("bolts on a tub", "four bolts on the tub", ["4 (count)"]),
    ("bolts beside a terminal", "two bolts at the terminals", ["2 (count)"]),
    ("many bolts", "24 bolts in the drum spider", ["24 (count)"]),
    ("homes", "I did 12 homes this week", ["12 (count)"]),
    ("in another sentence", "24 bolts. Meter on the leads.", ["24 (count)"]),
]


@pytest.mark.parametrize(("said", "expected"), [pytest.param(*row[1:], id=row[0]) for row in HEARD])
def test_misheard_unit_is_read_where_the_number_tells_it(said: str, expected: list[str]) -> None:
    assert quantities(said) == expected


@pytest.mark.parametrize(
    ("said", "word"),
    [
        ("bolts at the pump while humming, 119.3", "volts"),
        ("bolts at the pump, two of them", "bolts"),
        ("bolts were loose, 119.3", "bolts"),
    ],
)
def test_unit_that_heads_a_reading(said: str, word: str) -> None:
    assert tidied(said).tokens[0].text == word


def test_misheard_unit_keeps_the_word_as_heard() -> None:
    token = tidied("I had 238 bolts there.").tokens[3]

    assert (token.text, token.heard, token.guessed) == ("volts", "bolts", True)
