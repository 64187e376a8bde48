"""Numbers taken back. A trap row is one that looks like a retraction and is none."""

from __future__ import annotations

import pytest

from tests.tidy.speech import quantities

ROWS = [
    ("another unit", "nought point nine ohms, sorry, microfarads", ["0.9 uF"]),
    ("another unit, number said again", "nought point nine ohms, sorry, nought point nine microfarads",
     ["0.9 ohm (replaced)", "0.9 uF"]),
    ("only the ending", "two forty. No, thirty eight volts", ["240 (replaced)", "238 V"]),
    ("sinking below nought", "minus two, minus five, settling at minus eight degrees Fahrenheit",
     ["-2 degF (replaced)", "-5 degF (replaced)", "-8 degF"]),
    ("sorry", "fourteen, sorry, forty", ["14 (replaced)", "40"]),
    ("correction", "nine point eight, correction, ten point eight ohms", ["9.8 ohm (replaced)", "10.8 ohm"]),
    ("sorry with hundreds", "a hundred and sixty, sorry, a hundred and sixty two ohms",
     ["160 (replaced)", "162 ohm"]),
    ("no and a reason", "fourteen point two, no, my lead slipped, fourteen point eight ohms",
     ["14.2 ohm (replaced)", "14.8 ohm"]),
    ("plain no", "six eighty, no, seven hundred and twenty rpm", ["680 (replaced)", "720 rpm"]),
    ("plain no without commas", "six eighty no seven hundred and twenty rpm", ["680 (replaced)", "720 rpm"]),
    ("number broken off", "sixteen point, uh, fifteen point nine", ["16 (replaced)", "15.9"]),
    ("hundreds broken off", "four hundred and, hang on, it's still settling, four hundred and twenty kPa",
     ["400 (replaced)", "420 kPa"]),
    ("scratch that", "average three forty, scratch that, three fifty two degrees",
     ["340 (replaced)", "352 degF"]),
    ("unit of the retracted", "Point one amps. | Wait, clamp's round both wires. | One point two.",
     ["0.1 A (replaced)", "2 (count)", "1.2 A"]),
    ("climbing", "point nine no it's still climbing point nine four inches of water",
     ["0.9 (replaced)", "0.94 inH2O"]),
    ("reclamp", "point nine, hold on, let me reclamp it, one point one amps", ["0.9 (replaced)", "1.1 A"]),
    ("across breaths", "it's thirty one feet | no I lied twenty nine feet", ["31 ft (replaced)", "29 ft"]),
    ("settled", "fifty three, fifty two, okay it settled, fifty one degrees",
     ["53 (replaced)", "52 (replaced)", "51 degF"]),
    ("drift to more exact", "one seventeen, one eighteen, one eighteen point two volts",
     ["117 V (replaced)", "118 V (replaced)", "118.2 V"]),
    ("call it", "twenty, twenty one, call it twenty one and a half ohms",
     ["20 (replaced)", "21 (replaced)", "21.5 ohm"]),
    ("sign taken back", "minus, no, it's plus nine", ["9 degF"]),
    ("count taken back", "three, no, four beeps", ["3 (count) (replaced)", "4 (count)"]),
    # traps
    ("trap: two readings", "one thirty one low, one fifty two high", ["131", "152"]),
    ("trap: two legs", "one twenty point nine, one twenty point seven volts", ["120.9 V", "120.7 V"]),
    ("trap: range", "between ten and twelve", ["10", "12"]),
    ("trap: should be", "should be fifty, I've got fifty two", ["50", "52"]),
    ("trap: set point", "bake at three fifty. Average two seventy five degrees", ["350", "275 degF"]),
    ("trap: no play", "two ohms, no play, three ohms", ["2 ohm", "3 ohm"]),
    ("trap: no continuity", "fourteen ohms no continuity to ground sixteen ohms", ["14 ohm", "16 ohm"]),
    ("trap: another unit", "fourteen ohms, sorry, one twenty volts", ["14 ohm", "120 V"]),
    ("trap: sorry to the customer", "fourteen ohms. Sorry, phone. Outlet is at sixteen ohms",
     ["14 ohm", "16 ohm"]),
    ("trap: takes back its own sign", "fifty one degrees | Freezer's at minus, no, it's plus nine.",
     ["51 degF", "9 degF"]),
    ("trap: three equal windings", "fourteen point one, fourteen point two, fourteen point one ohms",
     ["14.1 ohm", "14.2 ohm", "14.1 ohm"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), [row[1:] for row in ROWS], ids=[row[0] for row in ROWS])
def test_later_number_replaces_what_was_taken_back(said: str, expected: list[str]) -> None:
    assert quantities(said) == expected
