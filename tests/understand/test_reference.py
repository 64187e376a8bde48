""" "It", "that one", "the other", "same": the last thing that fits."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, facts, rows, visit

ROWS: list[Row] = [
    ("it, same breath", "dryer", "I had a good look at the belt and it isn't cracked.", {"check belt: good"}),
    (
        "it, next breath",
        "dishwasher",
        "Next up the float switch. | It clicks every time.",
        {"check float switch: good"},
    ),
    (
        "it, work",
        "dishwasher",
        "Filter was choked with grease. | I cleaned it.",
        {"check filter: fault", "work filter: cleaned"},
    ),
    (
        "it, replaced",
        "top load washer",
        "The lid switch is broken, so I replaced it.",
        {"check lid switch: fault", "work lid switch: replaced", "part lid switch: fitted"},
    ),
    (
        "that one",
        "gas range",
        "Left rear electrode is cracked, so that one's bad.",
        {"check left rear electrode: fault"},
    ),
    (
        "they",
        "front load washer",
        "Carbon brushes next. | They're worn right down.",
        {"check carbon brushes: fault"},
    ),
    (
        "both of them",
        "dryer",
        "Checked the thermal fuse and the high limit thermostat. | Both of them are good.",
        {"check thermal fuse: good", "check high limit thermostat: good"},
    ),
    (
        "latest of two",
        "dryer",
        "The belt is fine. | Then the idler pulley. | It squeals.",
        {"check belt: good", "check idler pulley: fault"},
    ),
    (
        "it, reading",
        "dishwasher",
        "Meter on the circulation pump. | It reads nine ohms.",
        {"reading circulation pump: 9 ohm"},
    ),
    (
        "same reading words",
        "water heater",
        "Upper element is good. | Lower element, same.",
        {"check upper element: good", "check lower element: good"},
    ),
    (
        "the upper one, the lower one",
        "water heater",
        "Upper thermostat is good. | The lower thermostat isn't.",
        {"check upper thermostat: good", "check lower thermostat: fault"},
    ),
    (
        "across a line of chat",
        "refrigerator",
        "I'm on the evaporator fan. | Yes please, milk and one sugar. | It spins fine.",
        {"check evaporator fan: good"},
    ),
    (
        "it after a deed",
        "dryer",
        "I pulled the blower wheel out and it's stripped.",
        {"check blower wheel: fault"},
    ),
    (
        "so is the",
        "dryer",
        "The belt is good and so is the motor.",
        {"check belt: good", "check motor: good"},
    ),
]

SET_APART: list[Row] = [
    (
        "head, then a deed",
        "dishwasher",
        "Float switch, I lifted it with my finger and it clicks.",
        {"check float switch: good"},
    ),
    (
        "head without a comma",
        "dryer",
        "drum rollers i spun each one by hand and they turn freely",
        {"check drum roller: good"},
    ),
    (
        "head, another part in between",
        "refrigerator",
        "Evaporator fan, held the door switch in, it's running quietly.",
        {"check evaporator fan: good"},
    ),
    (
        "head, lever pulled",
        "water heater",
        "Relief valve, pulled the lever, and it's leaking now.",
        {"check relief valve: fault"},
    ),
    (
        "head, another part pressed",
        "top load washer",
        "Lid lock, I pressed the plunger in, it's cracked.",
        {"check lid lock: fault"},
    ),
    (
        "head, not tested",
        "dryer",
        "Thermistor I never got round to, no time.",
        {"check thermistor: not tested"},
    ),
    (
        "named in full, then short",
        "front load washer",
        "Looked at the shaft seal, and that seal is leaking.",
        {"check tub seal: fault"},
    ),
    (
        "both of two breaths",
        "dryer",
        "The belt, then the idler. | Both of them look good.",
        {"check belt: good", "check idler pulley: good"},
    ),
    (
        "both, measured",
        "water heater",
        "Upper element nine ohms, lower element nine ohms, both fine.",
        {
            "check upper element: good",
            "check lower element: good",
            "reading upper element: 9 ohm",
            "reading lower element: 9 ohm",
        },
    ),
    (
        "state before the work",
        "front load washer",
        "The pump filter was blocked solid so I cleared it.",
        {"check filter: fault", "work filter: cleaned"},
    ),
]

PLACED: list[Row] = [
    (
        "left and right of a pair",
        "dryer",
        "Drum rollers, the left one's flat spotted and the right one's good.",
        {"check left drum roller: fault", "check right drum roller: good"},
    ),
    (
        "bare places",
        "front load washer",
        "Shock absorbers. Left is weak, right is fine.",
        {"check left shock absorber: fault", "check right shock absorber: good"},
    ),
    (
        "burners by place",
        "gas range",
        "front left good front right good back left won't light",
        {"check left front burner: good", "check right front burner: good", "check left rear burner: fault"},
    ),
    (
        "ditto",
        "dryer",
        "Thermal fuse, continuity, good. High limit, ditto.",
        {"check thermal fuse: good", "check high limit thermostat: good"},
    ),
    (
        "same for",
        "dryer",
        "the belt's fine | same for the idler pulley",
        {"check belt: good", "check idler pulley: good"},
    ),
]

OWN_NAMES: list[Row] = [
    ("own name, state", "dryer", "The outer sleeve's split.", {"check outer sleeve: fault"}),
    ("own name without stops", "gas range", "the flash tube's clear", {"check flash tube: good"}),
    ("own topic", "dryer", "Rear yoke. Snapped.", {"check rear yoke: fault"}),
    (
        "own name, then a deed",
        "dryer",
        "Strain relief screw, half a turn, it was loose.",
        {"check strain relief screw: fault"},
    ),
    (
        "piece of its own",
        "dishwasher",
        "Cup lid pops open, spring's strong.",
        {"check cup lid: good", "check spring: good"},
    ),
]

TRAPS: list[Trap] = [
    ("towels", "dryer", "Every towel was dry to the hem."),
    ("plates", "dishwasher", "The plates are clean."),
    ("place of something else", "dryer", "The right one is in the van."),
    ("asked again", "dryer", "So is the belt any good?"),
    ("same as ever", "dryer", "Belt, same as last time."),
    ("no name at all", "dishwasher", "Note: they use cheap tablets, that's fine."),
    ("words that open a summary", "dishwasher", "Bottom line, it's fixed."),
    ("my own lead", "gas dryer", "My meter's fine, and my lamp is bright."),
    ("it is the weather", "dryer", "I'm at the belt now. | It's lovely out there, mind."),
    ("it is the job", "dishwasher", "Drain pump next. | It's a long way back to the shop from here."),
    ("that is the dog", "refrigerator", "On to the condenser fan. | That's a fine dog you have."),
    (
        "it is the traffic",
        "top load washer",
        "I'll look at the clutch after. | It was terrible on the bypass.",
    ),
]

NOT_YET: set[str] = {
    "across a line of chat",
    "it is the weather",
    "the upper one, the lower one",
}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS + SET_APART + PLACED + OWN_NAMES, NOT_YET))
def test_pronoun_means_the_last_fitting_part(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert facts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_it_of_the_world_outside_means_no_part(kind: str, said: str, understood: Understood) -> None:
    assert facts(understood(visit(kind, said))) == set()
