"""The same finding said again is one line; a finding of another kind or value is another line."""

from __future__ import annotations

import pytest

from fieldnotes.understand.understanding import Findings

from .spoken import Row, Trap, Understood, rows, visit

# Lists, not sets: a line too many shows.
ROWS: list[Row] = [
    ("once in a breath", "dryer", "The belt is good, it's good, the belt is good.", ["check belt good"]),
    ("two judging words", "dryer", "The belt is good, no cracks, nice and tight.", ["check belt good"]),
    (
        "work repeated",
        "dishwasher",
        "Cleaned the filter, cleaned the filter twice in fact.",
        ["work filter cleaned"],
    ),
    (
        "part named with its work",
        "top load washer",
        "Replaced the lid switch, new lid switch fitted.",
        ["work lid switch replaced", "part lid switch fitted"],
    ),
    (
        "ordered once",
        "refrigerator",
        "I've ordered the control board. | So the control board is on order.",
        ["part control board ordered"],
    ),
    (
        "reading and judgement",
        "dryer",
        "Thermistor ten point one k, that's good.",
        ["check thermistor good", "reading thermistor 10.1 kohm"],
    ),
    (
        "two readings of one part",
        "electric range",
        "Bake element nineteen ohms cold and twenty one ohms hot.",
        ["reading bake element 19 ohm", "reading bake element 21 ohm"],
    ),
    ("two parts, one outcome", "dryer", "Belt and motor are good.", ["check belt good", "check motor good"]),
    (
        "fault and its work",
        "gas dryer",
        "Igniter is cracked, replaced the igniter.",
        ["check igniter fault", "work igniter replaced", "part igniter fitted"],
    ),
    (
        "needed is not fitted",
        "front load washer",
        "Fitted a new door seal, and it needs a door lock.",
        ["work door seal replaced", "part door seal fitted", "part door lock needed"],
    ),
    (
        "two trials of one name",
        "top load washer",
        "Spin test, failed. | Levelled it. | Spin test, passed.",
        ["trial spin test failed", "trial spin test passed", "work top-load washer levelled"],
    ),
    (
        "the same reading for two parts",
        "water heater",
        "Upper element thirteen ohms. | Lower element thirteen ohms.",
        ["reading upper element 13 ohm", "reading lower element 13 ohm"],
    ),
]

DOUBTED: list[Row] = [
    ("not tested, looks", "dryer", "I didn't test the belt, it looks worn.", ["check belt not tested"]),
    (
        "not tested, acts",
        "dryer",
        "I haven't had the motor out, it spins freely though.",
        ["check motor not tested"],
    ),
    (
        "not tested, doubt",
        "water heater",
        "Anode rod, I didn't check it, so I don't know what's left of it.",
        ["check anode rod not tested"],
    ),
]

TRAPS: list[Trap] = [
    ("asked twice", "dryer", "Is the belt good? Is the belt good though?"),
    ("planned twice", "dishwasher", "I'll clean the filter. | Yeah, I'll clean the filter."),
    ("named twice", "refrigerator", "Start relay, start relay, where are you."),
    ("reported twice", "top load washer", "She says the lid switch is broken, she says broken."),
]

NOT_YET: set[str] = set()


def lines(found: Findings) -> list[str]:
    """All lines on the unit, in the order of the alphabet."""
    return sorted(
        [f"check {c.about} {c.outcome}" for c in found.checks]
        + [f"reading {r.about} {r.value:g} {r.unit}" for r in found.readings]
        + [f"trial {t.about} {t.outcome}" for t in found.trials]
        + [f"work {w.about} {w.action}" for w in found.work]
        + [f"part {p.about} {p.status}" for p in found.parts]
    )


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS + DOUBTED, NOT_YET))
def test_each_finding_is_one_line(kind: str, said: str, expected: list[str], understood: Understood) -> None:
    assert lines(understood(visit(kind, said))) == sorted(expected)


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_saying_it_twice_makes_no_finding(kind: str, said: str, understood: Understood) -> None:
    assert lines(understood(visit(kind, said))) == []


def test_quote_begins_with_the_sentence_where_the_thing_was_named_long_before(understood: Understood) -> None:
    said = "Drain pump winding, I get nine ohms. | No, scratch that. | It slipped. It's ninety ohms, and that is far too high."
    checks = understood(visit("dishwasher", said)).checks

    assert [c.evidence.quote for c in checks if c.about == "drain pump"] == [
        "It's ninety ohms, and that is far too high."
    ]


def test_plug_of_a_part_keeps_the_name_of_its_part(understood: Understood) -> None:
    (reading,) = understood(visit("dishwasher", "I had 119 volts at the drain pump plug.")).readings

    assert reading.about == "drain pump plug"
