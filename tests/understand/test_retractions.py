"""Words taken back and restarts: only what replaces them counts."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, facts, rows, visit

ROWS: list[Row] = [
    (
        "sorry with a number",
        "dishwasher",
        "Drain pump is fourteen, sorry, forty ohms.",
        {"reading drain pump: 40 ohm"},
    ),
    (
        "no with a number",
        "electric dryer",
        "Heating element, nine point two, no, ten point two ohms.",
        {"reading heating element: 10.2 ohm"},
    ),
    (
        "said to somebody",
        "cooktop",
        "The fan is humming well. | Please, the torch, no, the other one.",
        {"check fan: good"},
    ),
    ("I mean", "dryer", "Thermistor is twelve, I mean eleven k.", {"reading thermistor: 11 kohm"}),
    (
        "make that",
        "water heater",
        "Upper element twelve ohms, make that thirteen ohms.",
        {"reading upper element: 13 ohm"},
    ),
    (
        "scratch that, next breath",
        "dishwasher",
        "Inlet valve is five hundred ohms. | Scratch that, inlet valve is nine hundred ohms.",
        {"reading inlet valve: 900 ohm"},
    ),
    (
        "no wait, other part",
        "top load washer",
        "The belt, no wait, the clutch is worn.",
        {"check clutch: fault"},
    ),
    (
        "part corrected",
        "dryer",
        "Replaced the belt, sorry, the idler pulley.",
        {"work idler pulley: replaced", "part idler pulley: fitted"},
    ),
    (
        "outcome corrected",
        "refrigerator",
        "Condenser fan's seized, no, hang on, it's running, the condenser fan is fine.",
        {"check condenser fan: good"},
    ),
    (
        "outcome corrected, next breath",
        "dishwasher",
        "Float switch is open. | No, I tell a lie, float switch is good, bad lead on my meter.",
        {"check float switch: good"},
    ),
    (
        "no to a child takes nothing back",
        "dryer",
        "The belt is cracked. | Hey, no, you can't play back here, it's sharp.",
        {"check belt: fault"},
    ),
    (
        "no to a dog, in the same breath",
        "dryer",
        "The idler pulley spins free, oi, no, leave that, good dog.",
        {"check idler pulley: good"},
    ),
    (
        "no that mends",
        "dryer",
        "The belt is fine. | Well, no, the belt's cracked right through.",
        {"check belt: fault"},
    ),
    ("repeated phrase", "front load washer", "The, the belt, the belt is good.", {"check belt: good"}),
    ("restart mid word", "dryer", "The therm, thermal fuse is blown.", {"check thermal fuse: fault"}),
    (
        "settling reading",
        "refrigerator",
        "Freezer temperature minus two, minus five, settling at minus eight degrees Fahrenheit.",
        {"reading freezer temperature: -8 degF"},
    ),
    (
        "unit corrected",
        "microwave",
        "Capacitor is nought point nine ohms, sorry, nought point nine microfarads.",
        {"reading capacitor: 0.9 uF"},
    ),
    (
        "second of two corrected",
        "electric dryer",
        "Leg one to neutral one twenty one volts and leg two to neutral one twelve, correction, one twenty two volts.",
        {"reading leg one: 121 V", "reading leg two: 122 V"},
    ),
    (
        "part corrected, no stops",
        "dryer",
        "replaced the belt sorry the idler pulley",
        {"work idler pulley: replaced", "part idler pulley: fitted"},
    ),
    (
        "leg corrected",
        "electric dryer",
        "Leg two, correction, leg one is one twenty one volts.",
        {"reading leg one: 121 V"},
    ),
    (
        "part corrected with a plain no",
        "dryer",
        "The belt, no, the idler pulley is worn.",
        {"check idler pulley: fault"},
    ),
    (
        "only the unit corrected",
        "microwave",
        "Capacitor is nought point nine ohms, sorry, microfarads.",
        {"reading capacitor: 0.9 uF"},
    ),
    (
        "no in the middle of a breath",
        "microwave",
        "Door switch is good. | Fuse, open, ah, nah, forget that.",
        {"check door switch: good"},
    ),
    (
        "only the second half taken back",
        "dryer",
        "The belt is good. | The motor is bad, no, scratch that, the motor is good.",
        {"check belt: good", "check motor: good"},
    ),
]

TRAPS: list[Trap] = [
    ("taken back, nothing in its place", "dryer", "The belt is cracked, no, scratch that, that's a hair."),
    ("taken back in the next breath", "dishwasher", "Cleaned the filter. | No, scratch that, I haven't yet."),
    ("off the record", "top load washer", "The bearing is on its way out. | Don't write that down."),
    ("leave it out", "refrigerator", "The condenser coil is filthy, leave that out of the report."),
    (
        "wrong range",
        "water heater",
        "Thermocouple is two millivolts, no, forget that, meter was on the wrong range.",
    ),
]

# "No" and "sorry" that take nothing back.
KEPT: list[Row] = [
    ("no play", "top load washer", "Checked the bearing, no play.", {"check bearing: good"}),
    ("no, an answer", "dryer", "Is it the belt? No, the belt is fine.", {"check belt: good"}),
    (
        "sorry to somebody",
        "dishwasher",
        "Drain pump is fifteen ohms. | Sorry, love, could you step back.",
        {"reading drain pump: 15 ohm"},
    ),
    (
        "wait to the dog",
        "refrigerator",
        "Start relay is good. | Wait, boy, wait.",
        {"check start relay: good"},
    ),
    (
        "no problem",
        "gas range",
        "Swapped the electrode, no problem.",
        {"work electrode: replaced", "part electrode: fitted"},
    ),
]

NOT_YET: set[str] = set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_only_what_replaces_the_retracted_counts(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert facts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_retracted_finding_leaves_no_row(kind: str, said: str, understood: Understood) -> None:
    assert facts(understood(visit(kind, said))) == set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(KEPT, NOT_YET))
def test_words_that_take_nothing_back_remove_nothing(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert facts(understood(visit(kind, said))) == expected
