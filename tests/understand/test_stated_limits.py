"""Limits that the technician states, and the readings that they are meant for. Expected bounds are written from the
sentences."""

from __future__ import annotations

import pytest

from fieldnotes.records import Limit

from .spoken import Understood, visit

Bounds = tuple[float | None, float | None, str]
ROWS: list[tuple[str, str, str, list[tuple[str, Bounds | None]]]] = [
    (
        "in the breath behind",
        "dishwasher",
        "The drain pump reads forty ohms. | The book says fifteen to thirty ohms for this pump.",
        [("40 ohm", (15, 30, "ohm"))],
    ),
    (
        "in the same breath, without a unit",
        "microwave oven",
        "Leakage at the door is point two milliwatts per square centimetre, and the limit's five.",
        [("0.2 mW/cm2", (None, 5, "mW/cm2"))],
    ),
    (
        "in the breath before",
        "gas range",
        "The sheet calls for at least three point two amps. | The igniter is pulling two point nine amps.",
        [("2.9 A", (3.2, None, "A"))],
    ),
    (
        "and of the same thing later",
        "dishwasher",
        "The drain pump reads forty ohms. | The book says fifteen to thirty ohms. | I fitted a new drain pump."
        " | The drain pump reads twenty two ohms.",
        [("40 ohm", (15, 30, "ohm")), ("22 ohm", (15, 30, "ohm"))],
    ),
    (
        "book misheard",
        "dishwasher",
        "Across the drain pump winding I get two hundred and forty ohms. | The boat says 15 to 30 ohms for this pump.",
        [("240 ohm", (15, 30, "ohm"))],
    ),
    (
        "the lower end said short",
        "washer",
        "The inlet valve reads nine hundred ohms. | The sheet says eight to twelve hundred for these.",
        [("900 ohm", (800, 1200, "ohm"))],
    ),
    (
        "or better",
        "gas range",
        "The igniter is pulling two point four amps. | It wants three point two or better.",
        [("2.4 A", (3.2, None, "A"))],
    ),
    (
        "should be under",
        "gas dryer",
        "Back pressure is point eight inches of water. | It should be under point six.",
        [("0.8 inH2O", (None, 0.6, "inH2O"))],
    ),
    (
        "another thing is named",
        "washer",
        "The drain pump reads fourteen ohms. | The book says twenty to thirty ohms for the drive motor.",
        [("14 ohm", None)],
    ),
    (
        "meant for one of two",
        "washer",
        "The drain pump reads fourteen ohms and the inlet valve nine hundred ohms. | The book says ten to twenty ohms.",
        [("14 ohm", None), ("900 ohm", None)],
    ),
    (
        "another unit",
        "washer",
        "The drain pump reads fourteen ohms. | The book says one to two amps.",
        [("14 ohm", None)],
    ),
    (
        "a unit that was not understood",
        "electric oven",
        "The bake element reads two kilohms. | It should be more than one mega.",
        [("2 kohm", None)],
    ),
    (
        "a single figure",
        "dishwasher",
        "The drain pump reads fourteen ohms. | The book says twenty ohms.",
        [("14 ohm", None)],
    ),
    (
        "a limit that may be either end",
        "dishwasher",
        "The supply is two hundred and eleven volts. | One ninety is the limit.",
        [("211 V", None)],
    ),
    (
        "what was seen to swing",
        "electric oven",
        "The probe cycles between three thirty and three sixty Fahrenheit. | The outlet reads 240 volts.",
        [("330 degF", None), ("360 degF", None), ("240 V", None)],
    ),
    (
        "a question",
        "dishwasher",
        "The drain pump reads forty ohms. | Does the book say fifteen to thirty ohms?",
        [("40 ohm", None)],
    ),
    (
        "two breaths on",
        "dishwasher",
        "The drain pump reads forty ohms. | The kids are out. | Lovely garden. | The book says fifteen to thirty ohms.",
        [("40 ohm", None)],
    ),
]


def bounds_of(limit: Limit | None) -> Bounds | None:
    return None if limit is None else (limit.minimum, limit.maximum, limit.unit)


@pytest.mark.parametrize(("kind", "said", "expected"), [pytest.param(*row[1:], id=row[0]) for row in ROWS])
def test_reading_has_the_limit_that_was_stated_for_it(
    understood: Understood, kind: str, said: str, expected: list[tuple[str, Bounds | None]]
) -> None:
    readings = understood(visit(kind, said)).readings

    assert [(f"{r.value:g} {r.unit}", bounds_of(r.limit)) for r in readings] == expected
    for reading in readings:
        assert reading.limit is None or reading.limit.status == "stated by the technician"


def test_limit_says_in_which_words_it_was_stated(understood: Understood) -> None:
    said = "The drain pump reads forty ohms. | The book says fifteen to thirty ohms for this pump."
    (reading,) = understood(visit("dishwasher", said)).readings

    assert reading.limit is not None
    assert reading.limit.source == "The book says fifteen to thirty ohms for this pump"
