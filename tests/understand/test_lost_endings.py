"""Speech recognition loses past-tense endings: a bare verb with an object is a deed, unless a cue makes it a plan."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, facts, rows, visit

ROWS: list[Row] = [
    ("blocked duct", "electric dryer", "The block duct is crushed.", {"check exhaust duct: fault"}),
    (
        "scrape out a place",
        "dryer",
        "Scrape the vent hood out too, and now the flap swings wide open.",
        {"work vent hood: cleaned", "check vent hood: good"},
    ),
    ("scoop out a place", "dishwasher", "I scoop the sump out and now it drains.", {"work sump: cleaned"}),
    (
        "replace and it run",
        "dishwasher",
        "Replace the inlet valve and it run.",
        {"work inlet valve: replaced", "part inlet valve: fitted"},
    ),
    (
        "clean, then fine",
        "dryer",
        "Clean the lint chute, it was packed.",
        {"work lint chute: cleaned", "check lint chute: fault"},
    ),
    (
        "I replace",
        "top load washer",
        "I replace the lid switch.",
        {"work lid switch: replaced", "part lid switch: fitted"},
    ),
    (
        "so I clean",
        "refrigerator",
        "Condenser coil was full of dust so I clean the condenser coil.",
        {"check condenser coil: fault", "work condenser coil: cleaned"},
    ),
    ("check, looks fine", "dryer", "Check the belt, looks fine.", {"check belt: good"}),
    ("test, good", "microwave", "Test the thermal fuse, it's good.", {"check thermal fuse: good"}),
    (
        "bare verb at the start",
        "dishwasher",
        "Replace the drain pump.",
        {"work drain pump: replaced", "part drain pump: fitted"},
    ),
    (
        "lower case, no stops",
        "front load washer",
        "replace the carbon brushes and tighten the motor bolts",
        {"work carbon brushes: replaced", "part carbon brushes: fitted", "work motor mount: tightened"},
    ),
    ("adjust the", "gas range", "Adjust the air shutter.", {"work air shutter: adjusted"}),
    (
        "then bare verbs in a row",
        "dryer",
        "Vacuum the blower housing, replace the belt.",
        {"work blower housing: cleaned", "work belt: replaced", "part belt: fitted"},
    ),
    ("grease", "dryer", "Grease the idler pulley and put it back.", {"work idler pulley: lubricated"}),
    (
        "reset and it hold",
        "water heater",
        "Reset the high limit and it hold.",
        {"work high-limit switch: reset", "check high-limit switch: good"},
    ),
]

TRAPS: list[Trap] = [
    ("now and then", "dishwasher", "Clean the filter and now and then check the spray arm."),
    ("every so often", "dryer", "Scrape the vent hood out every now and again."),
    ("I'll", "dishwasher", "I'll replace the inlet valve."),
    ("going to", "dryer", "Going to clean the lint chute."),
    ("need to", "top load washer", "Need to replace the lid switch."),
    ("have to", "refrigerator", "I have to clean the condenser coil."),
    ("must", "gas range", "Must adjust the air shutter yet."),
    ("please", "dryer", "Please check the belt."),
    ("you", "microwave", "You test the thermal fuse, I'll hold the torch."),
    ("don't forget to", "dishwasher", "Don't forget to clean the filter."),
    ("they replace", "front load washer", "They replace the carbon brushes every few years."),
    ("can I", "water heater", "Can I reset the high limit from here?"),
    ("would", "dryer", "I would grease the idler pulley if I had any."),
    ("tomorrow", "dishwasher", "Replace the drain pump tomorrow when it's in."),
]

NOT_YET: set[str] = {
    "clean, then fine",
    "reset and it hold",
}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_bare_verb_with_object_was_done(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert facts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_bare_verb_after_a_cue_of_intent_was_not(kind: str, said: str, understood: Understood) -> None:
    assert facts(understood(visit(kind, said))) == set()
