"""Fault codes: shown or recalled, or said to be none; and letters with numbers that are no code."""

from __future__ import annotations

import pytest

from fieldnotes.understand.understanding import Findings

from .spoken import Facts, Row, Trap, Understood, rows, visit

ROWS: list[Row] = [
    ("once more", "dishwasher", "It shows E nine. | Second run, and then again E nine, stop.", {"E9"}),
    (
        "said to be empty on this one",
        "dishwasher",
        "No codes on this one, I went in the memory and it's empty.",
        {"none"},
    ),
    ("F twenty one", "front load washer", "Display shows F twenty one.", {"F21"}),
    ("E three", "dishwasher", "It's throwing an E three.", {"E3"}),
    ("as figures", "dishwasher", "Code on the display is E24.", {"E24"}),
    ("two letters", "front load washer", "It's stopped on code O E.", {"OE"}),
    ("F and E", "front load washer", "Stored code is F eight E one.", {"F8E1"}),
    ("code named first", "microwave", "Fault code F three came up as I opened the door.", {"F3"}),
    ("recalled", "refrigerator", "In the service mode it's recalled a code E five.", {"E5"}),
    ("two codes", "front load washer", "There's two codes in there, F six and F nine.", {"F6", "F9"}),
    ("none stored", "top load washer", "No codes stored.", {"none"}),
    ("none in memory", "refrigerator", "Nothing in the fault memory.", {"none"}),
    ("no error codes", "dryer", "There are no error codes showing.", {"none"}),
    ("memory is clear", "electric range", "Checked for fault codes and it's got none.", {"none"}),
    ("with zero", "front load washer", "Error code E oh four.", {"E04"}),
    ("stopped with", "dishwasher", "Second try it quit on me with an E six.", {"E6"}),
    ("code word", "dishwasher", "One logged, charlie zero four.", {"C04"}),
    ("none, twice in one breath", "dishwasher", "No codes on the display, none stored.", {"none"}),
    ("blank", "dishwasher", "Pulled up the error history and it's blank.", {"none"}),
    (
        "there aren't any",
        "washer",
        "I went into the stored faults and there aren't any, it's empty.",
        {"none"},
    ),
    ("taken back", "dishwasher", "It threw E twelve, no, E twenty four.", {"E24"}),
    (
        "taken back in the next breath",
        "washer",
        "The display gave me F oh six. | Sorry, upside down, F oh nine.",
        {"F09"},
    ),
    ("signs one by one", "dishwasher", "Display's flashing E, one, five.", {"E15"}),
    ("capitals", "gas range", "Pulled the history, capital F, capital E, three.", {"FE3"}),
    ("the letter", "washer", "Diagnostics gave me the letter F and after that a seven.", {"F7"}),
    ("one letter", "induction cooktop", "It cut out, flashing the letter U.", {"U"}),
    ("counted", "washer", "In the history there's an F nine, three counts.", {"F9"}),
    ("flashes", "dishwasher", "Light's blinking a fault code, four flashes and a pause.", {"4"}),
    ("groups of blinks", "dryer", "The board light flashes, three blinks, pause, two blinks.", {"3-2"}),
    ("flashed so often", "water heater", "The control flashed four times, that's its code.", {"4"}),
    ("letter O for nought", "washing machine", "One fault in the memory, F-O-9.", {"F09"}),
    ("in the first breath", "washer", "Okay, no, E21 is showing.", {"E21"}),
    ("all but one", "electric range", "No codes showing. | One stored though, F4.", {"F4"}),
    ("only an old one", "washer", "No codes on the display. | Just an old F8 in the history.", {"F8"}),
    ("none, then another thing", "washer", "No codes stored. | One clamp was loose.", {"none"}),
    (
        "none, then one came up",
        "washer",
        "No codes stored. | Ran a rinse and it flashed a code, F8.",
        {"none", "F8"},
    ),
    ("not one", "washer", "There isn't a single error logged.", {"none"}),
    ("no entries", "dishwasher", "No error entries, I tried both menus.", {"none"}),
    ("no trace", "microwave", "No trace of any fault code.", {"none"}),
]

TRAPS: list[Trap] = [
    ("cannot show any", "microwave", "No codes, the panel doesn't do codes."),
    ("general", "front load washer", "F twenty one on these always means a slow drain."),
    ("if it shows", "dishwasher", "If it shows an E three, call me straight away."),
    ("plan to look", "top load washer", "Next I'll see if there are any codes stored."),
    ("model number", "dishwasher", "Model is D W four four zero."),
    ("relay name", "refrigerator", "The relay marked K two on the control board is hot."),
    ("postcode", "dryer", "Postcode for the next one is E five."),
    ("empty, but no memory", "dryer", "Lint screen's empty, nothing in there."),
    ("order code", "water heater", "Installed a new lower element, order code seven one five, E E, nine."),
    ("empty run", "dryer", "The empty run on high heat went the full timer, display counts down."),
    ("what it stands for", "washer", "E eighteen stands for a drain fault."),
    ("no codes on such a thing", "freezer", "There's no codes on an old thing like this."),
    ("clean, but no codes", "washer", "The drum came back clean."),
    ("parts per million", "dishwasher", "The strip shows two hundred ninety p p m."),
    ("flicker counted", "gas range", "The flame flickered three times."),
    ("letter by post", "washer", "The letter from the landlord says the lease is up."),
    ("door code", "microwave", "The code for the gate is two four six eight."),
    ("history", "front load washer", "The last fellow had an F nine on it, he told her."),
]

NOT_YET: set[str] = set()


def codes(found: Findings) -> Facts:
    return {c.code for c in found.codes}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_code_is_written_as_displayed(kind: str, said: str, expected: Facts, understood: Understood) -> None:
    assert codes(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_code_not_shown_on_this_visit_is_none(kind: str, said: str, understood: Understood) -> None:
    assert codes(understood(visit(kind, said))) == set()


def test_evidence_for_none_reaches_to_the_words_that_say_so(understood: Understood) -> None:
    said = "I cleared the codes, and there's nothing stored now."
    (code,) = understood(visit("dishwasher", said)).codes

    assert (code.code, code.evidence.quote) == (
        "none",
        "I cleared the codes, and there's nothing stored now.",
    )


def test_drained_in_a_time_is_no_empty_memory(understood: Understood) -> None:
    """The line rests on what was said of the memory, not on the water that was gone."""
    said = "Drain test again, empty in 70 seconds, pass, codes cleared, memory, empty now."

    (code,) = understood(visit("washer", said)).codes

    assert (code.code, code.evidence.quote) == ("none", "memory, empty now.")
