"""Notes without grammar: one word a fact, no stops at all, announced sections, two languages mixed."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, facts, rows, visit

ROWS: list[Row] = [
    (
        "belt fine pump fine",
        "top load washer",
        "Belt, fine. Drain pump, fine.",
        {"check belt: good", "check drain pump: good"},
    ),
    (
        "one fact a breath",
        "dryer",
        "Belt okay. | Rollers okay. | Thermal fuse blown.",
        {"check belt: good", "check drum roller: good", "check thermal fuse: fault"},
    ),
    (
        "no stops",
        "dryer",
        "belt okay rollers okay thermal fuse blown",
        {"check belt: good", "check drum roller: good", "check thermal fuse: fault"},
    ),
    (
        "no stops, reading and work",
        "electric dryer",
        "heating element open replaced heating element new one ten ohms",
        {
            "check heating element: fault",
            "work heating element: replaced",
            "part heating element: fitted",
            "reading heating element: 10 ohm",
        },
    ),
    (
        "announced readings",
        "water heater",
        "Readings: upper element thirteen ohms, lower element open.",
        {"reading upper element: 13 ohm", "check lower element: fault"},
    ),
    (
        "announced checks",
        "refrigerator",
        "Checks. Condenser coil, dirty. Condenser fan, good.",
        {"check condenser coil: fault", "check condenser fan: good"},
    ),
    (
        "announced work",
        "dishwasher",
        "Work done: filter cleaned, drain pump replaced.",
        {"work filter: cleaned", "work drain pump: replaced", "part drain pump: fitted"},
    ),
    ("announced parts", "front load washer", "Parts: one door seal, fitted.", {"part door seal: fitted"}),
    (
        "run on, turns",
        "refrigerator",
        "so evaporator fan is running and the evaporator coil's clear and then the damper's stuck shut so that's no good",
        {"check evaporator fan: good", "check evaporator coil: good", "check air damper: fault"},
    ),
    (
        "spanish words",
        "dryer",
        "Okay pues, belt is good, motor bueno tambien is good.",
        {"check belt: good", "check motor: good"},
    ),
    (
        "indian english",
        "refrigerator",
        "Compressor is running only, start relay I have changed.",
        {"check compressor: good", "work start relay: replaced", "part start relay: fitted"},
    ),
    (
        "scots",
        "top load washer",
        "The belt's nae slack and the motor's braw.",
        {"check belt: good", "check motor: good"},
    ),
    (
        "caps and digits",
        "electric dryer",
        "ELEMENT 10.4 OHMS. THERMAL FUSE OK.",
        {"reading heating element: 10.4 ohm", "check thermal fuse: good"},
    ),
    (
        "dash for verb",
        "microwave",
        "Diode - shorted. Fuse - good.",
        {"check high-voltage diode: fault", "check fuse: good"},
    ),
    (
        "pass fail",
        "gas range",
        "Spark module pass. Left front electrode fail.",
        {"check spark module: good", "check left front electrode: fault"},
    ),
]

TRAPS: list[Trap] = [
    ("list of names", "dryer", "Belt, rollers, idler, glides."),
    ("list to do", "dishwasher", "To do: filter, sump, drain pump."),
    ("shopping list", "refrigerator", "Van stock: start relay, overload, capacitor."),
    ("headings alone", "top load washer", "Readings. | Checks. | Work done."),
    (
        "run on, plans",
        "dryer",
        "so next i'll pull the belt and then i'll check the motor and then the rollers",
    ),
]

NOT_YET: set[str] = {
    "announced parts",
    "indian english",
    "no stops",
    "no stops, reading and work",
    "one fact a breath",
    "pass fail",
    "run on, turns",
}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_terse_and_run_on_notes_tell_the_same(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert facts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_names_without_a_fact_report_nothing(kind: str, said: str, understood: Understood) -> None:
    assert facts(understood(visit(kind, said))) == set()
