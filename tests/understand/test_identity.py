"""Which unit it is: kind, make, model, serial, when it was bought."""

from __future__ import annotations

import pytest

from fieldnotes.records import Appliance

from .spoken import Trap, Understood, rows

Fields = dict[str, str]

# A visit of its own each: nothing is said before it.
ROWS: list[tuple[str, str, Fields]] = [
    ("kind", "It's a front load washer.", {"kind": "front-load washer"}),
    ("kind, commonwealth words", "Job's a tumble dryer, vented.", {"kind": "dryer"}),
    ("kind, trade short", "Got a top loader here.", {"kind": "top-load washer"}),
    ("kind, cooker", "Gas cooker, four burners.", {"kind": "gas range"}),
    ("kind, fridge", "Fridge freezer in the kitchen.", {"kind": "refrigerator"}),
    (
        "make and model",
        "Dishwasher. | The make is Ardenvale, model number A D six two zero W.",
        {"kind": "dishwasher", "make": "Ardenvale", "model": "AD620W"},
    ),
    (
        "model with letters for words",
        "Microwave. | Model is M as in Mary, T as in Tango, nine hundred.",
        {"kind": "microwave", "model": "MT900"},
    ),
    (
        "serial",
        "Water heater. | Serial number four four one seven B nine zero two.",
        {"kind": "water heater", "serial": "4417B902"},
    ),
    (
        "serial over two breaths",
        "Dishwasher. | Serial is K seven seven one | zero zero four two.",
        {"kind": "dishwasher", "serial": "K7710042"},
    ),
    (
        "serial corrected",
        "Dryer. | Serial number three one five, no, three one six, R R two eight.",
        {"kind": "dryer", "serial": "316RR28"},
    ),
    (
        "double and triple",
        "Gas range. | Serial double five, triple zero, J.",
        {"kind": "gas range", "serial": "55000J"},
    ),
    (
        "as written",
        "Dishwasher. | Model DW4410X, serial 90311247.",
        {"kind": "dishwasher", "model": "DW4410X", "serial": "90311247"},
    ),
    (
        "age",
        "Refrigerator. | It's about three years old.",
        {"kind": "refrigerator", "purchased": "three years"},
    ),
    (
        "bought",
        "Washing machine. | They bought it in March twenty nineteen.",
        {"kind": "washer", "purchased": "march 2019"},
    ),
    (
        "bought last",
        "Electric dryer. | She bought it last October.",
        {"kind": "electric dryer", "purchased": "last october"},
    ),
    (
        "read back",
        "Microwave. | Model M K two zero. | That's M K two zero.",
        {"kind": "microwave", "model": "MK20"},
    ),
]

TRAPS: list[Trap] = [
    ("part number", "dishwasher", "Part number D P four four one."),
    ("model of another job", "dryer", "This next job's model can wait."),
    ("phone number", "microwave", "Phone number's oh seven seven one two nine."),
    ("no serial", "water heater", "The serial sticker's gone."),
    ("house number", "gas range", "They're at number forty two B."),
    ("age of a part", "refrigerator", "The compressor is two years old."),
]

# Never said, but plain from the parts.
INFERRED = [
    ("agitator", "Pulled the agitator and the suspension rods look fine.", "top-load washer"),
    ("spray arm", "Lower spray arm was blocked. The rinse aid dispenser is empty.", "dishwasher"),
    ("magnetron", "Magnetron is shorted. High voltage diode is good.", "microwave"),
    (
        "evaporator",
        "Evaporator coil iced up, the defrost heater is open. Crisper drawer is cracked.",
        "refrigerator",
    ),
]

NOT_YET: set[str] = set()


def plate(appliance: Appliance) -> Fields:
    fields = ("kind", "make", "model", "serial", "purchased")
    return {name: value for name in fields if (value := getattr(appliance, name))}


def agrees(got: Fields, expected: Fields) -> bool:
    """Plate strings to the letter; kind and purchase loosely, as they are "written as it was said"."""
    loose = ("kind", "purchased")
    return set(got) == set(expected) and all(
        set(text.lower().split()) <= set(got[name].lower().split()) if name in loose else got[name] == text
        for name, text in expected.items()
    )


@pytest.mark.parametrize(("said", "expected"), rows(ROWS, NOT_YET))
def test_unit_is_identified_as_said(said: str, expected: Fields, understood: Understood) -> None:
    got = plate(understood(said).appliance)

    assert agrees(got, expected), got


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_numbers_of_other_things_identify_nothing(kind: str, said: str, understood: Understood) -> None:
    got = plate(understood(f"{kind.capitalize()}. | {said}").appliance)

    assert set(got) == {"kind"}, got


@pytest.mark.parametrize(("said", "expected"), rows(INFERRED, NOT_YET))
def test_kind_never_said_is_marked_as_inferred(said: str, expected: str, understood: Understood) -> None:
    appliance = understood(f"Right, I'm here. | {said}").appliance

    assert (appliance.kind, appliance.kind_inferred) == (expected, True)
