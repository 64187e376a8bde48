"""How a thing was found: judging words, trade words, negation once and twice, outcome in a later breath."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, checks, rows, visit

ROWS: list[Row] = [
    ("low alone", "dishwasher", "Water pressure, nine psi, low.", {"check water pressure: fault"}),
    ("plain good", "dryer", "The belt is good.", {"check belt: good"}),
    ("plain bad", "dryer", "The belt is bad.", {"check belt: fault"}),
    ("fine without verb", "dishwasher", "Float switch, fine.", {"check float switch: good"}),
    ("within spec", "refrigerator", "Start relay is within spec.", {"check start relay: good"}),
    (
        "out of spec",
        "refrigerator",
        "The defrost thermostat is out of spec.",
        {"check defrost thermostat: fault"},
    ),
    ("no play", "top load washer", "There's no play in the bearing.", {"check bearing: good"}),
    ("play", "top load washer", "There's a lot of play in the bearing.", {"check bearing: fault"}),
    (
        "not getting continuity",
        "dryer",
        "I'm not getting continuity through the thermal fuse.",
        {"check thermal fuse: fault"},
    ),
    ("continuity", "dryer", "Thermal fuse has continuity.", {"check thermal fuse: good"}),
    ("isn't slipping", "top load washer", "The clutch isn't slipping.", {"check clutch: good"}),
    ("is slipping", "top load washer", "The clutch is slipping.", {"check clutch: fault"}),
    (
        "nothing wrong with",
        "dishwasher",
        "There's nothing wrong with the circulation pump.",
        {"check circulation pump: good"},
    ),
    ("doesn't look bad", "dishwasher", "The door seal doesn't look bad.", {"check door seal: good"}),
    ("seized", "dishwasher", "Drain pump is seized.", {"check drain pump: fault"}),
    ("weeping", "dishwasher", "The inlet valve's weeping.", {"check inlet valve: fault"}),
    ("shot", "front load washer", "Those shock absorbers are shot.", {"check shock absorber: fault"}),
    ("toast", "refrigerator", "Main control board is toast.", {"check control board: fault"}),
    ("knackered", "front load washer", "Carbon brushes are knackered.", {"check carbon brushes: fault"}),
    ("had it", "microwave", "The magnetron's had it.", {"check magnetron: fault"}),
    ("good nick", "dryer", "Drum rollers are in good nick.", {"check drum roller: good"}),
    ("no worries", "dishwasher", "No worries with the spray arm.", {"check spray arm: good"}),
    (
        "nae bother",
        "front load washer",
        "The door lock's grand, nae bother there.",
        {"check door lock: good"},
    ),
    ("crook", "dryer", "Blower wheel's crook.", {"check blower wheel: fault"}),
    ("burnt", "electric range", "The terminal block is burnt on one side.", {"check terminal block: fault"}),
    ("not burnt", "electric range", "The terminal block is not burnt.", {"check terminal block: good"}),
    ("no signs of", "water heater", "No signs of leaking at the relief valve.", {"check relief valve: good"}),
    ("without cracks", "dishwasher", "Lower spray arm is without cracks.", {"check spray arm: good"}),
    ("can't fault", "gas range", "I can't fault the spark module.", {"check spark module: good"}),
    (
        "not too bad negated",
        "top load washer",
        "The drain hose is not kinked or blocked.",
        {"check drain hose: good"},
    ),
    (
        "double negation",
        "refrigerator",
        "I wouldn't say there's nothing wrong with the door seal, it's torn.",
        {"check door seal: fault"},
    ),
    (
        "couldn't find anything wrong",
        "dryer",
        "I couldn't find anything wrong with the motor.",
        {"check motor: good"},
    ),
    (
        "neither",
        "dryer",
        "Neither the belt nor the idler pulley is worn.",
        {"check belt: good", "check idler pulley: good"},
    ),
    ("open line", "electric dryer", "Heating element reads open line.", {"check heating element: fault"}),
    ("dead short", "microwave", "High voltage diode is a dead short.", {"check high-voltage diode: fault"}),
    ("outcome a breath later", "top load washer", "I checked the belt. | Looks fine.", {"check belt: good"}),
    (
        "outcome a breath later, fault",
        "dishwasher",
        "Pulled the filter out to see. | It's split along the side.",
        {"check filter: fault"},
    ),
    (
        "one outcome for three",
        "top load washer",
        "Belt, motor and suspension rods all good.",
        {"check belt: good", "check motor: good", "check suspension rod: good"},
    ),
    (
        "one outcome for two, fault",
        "dryer",
        "The belt and the idler pulley are both worn out.",
        {"check belt: fault", "check idler pulley: fault"},
    ),
    (
        "one good, one bad",
        "dishwasher",
        "The drain hose is clear but the check valve is stuck shut.",
        {"check drain hose: good", "check check valve: fault"},
    ),
    (
        "one good, one bad, no punctuation",
        "dishwasher",
        "drain hose is clear check valve is stuck shut",
        {"check drain hose: good", "check check valve: fault"},
    ),
    (
        "what was left alone is not the thing found good before it",
        "gas dryer",
        "The motor runs, and I didn't get to the belt.",
        {"check motor: good", "check belt: not tested"},
    ),
    (
        "... even where its name is not known",
        "gas dryer",
        "The motor runs, and I didn't get into the control box.",
        {"check motor: good"},
    ),
    (
        "... and the first was measured",
        "gas dryer",
        "Thermal fuse ohmed out at point two, so that one's closed, and I didn't get to the motor.",
        {"check thermal fuse: good", "check motor: not tested"},
    ),
    (
        "it points back",
        "gas dryer",
        "The motor, I couldn't get to it behind the drum.",
        {"check motor: not tested"},
    ),
    (
        "not tested and why",
        "refrigerator",
        "I couldn't test the compressor winding, no room behind it.",
        {"check compressor winding: not tested"},
    ),
    (
        "didn't get to",
        "dryer",
        "Didn't get to the moisture sensor today.",
        {"check moisture sensor: not tested"},
    ),
    (
        "can't tell",
        "top load washer",
        "Can't tell if the clutch is glazed or not.",
        {"check clutch: unclear"},
    ),
    ("moves freely", "dishwasher", "The float moves freely up and down.", {"check float: good"}),
    ("sticks", "dishwasher", "The float sticks halfway.", {"check float: fault"}),
    ("glows and lights", "gas dryer", "The igniter glows bright orange.", {"check igniter: good"}),
    ("never glowed", "gas dryer", "The igniter never glowed.", {"check igniter: fault"}),
    ("dry", "dishwasher", "Base pan is bone dry.", {"check base pan: good"}),
    ("blocked with", "dryer", "The exhaust duct is blocked with lint.", {"check exhaust duct: fault"}),
    ("full of", "water heater", "Inlet screen is full of grit.", {"check inlet screen: fault"}),
    ("iced over", "refrigerator", "Evaporator coil's iced up solid.", {"check evaporator coil: fault"}),
    (
        "clean bill",
        "microwave",
        "Waveguide cover is clean, no scorch marks.",
        {"check waveguide cover: good"},
    ),
]

TRAPS: list[Trap] = [
    ("ends of a swing", "dryer", "Exhaust air cycles, one thirty one low, one fifty two high."),
    ("good as a filler", "dryer", "Good, the belt next."),
    ("fine print", "refrigerator", "Compressor, fine print on the label is tiny."),
    ("good-looking house", "dishwasher", "They've a good sized sink by the sump side."),
    ("bare name", "top load washer", "Suspension rods."),
    ("only reached", "dryer", "Got the belt off and the drum out."),
    ("where it sits", "refrigerator", "The start relay sits right beside the compressor."),
    ("dog is fine", "dishwasher", "The dog's fine, he's only sniffing at the door."),
    ("price is bad", "microwave", "Price of a magnetron is shocking these days."),
    ("right as a side", "gas range", "I'm on the right rear burner now."),
    ("open as a deed", "dryer", "I've opened the lint chute."),
    ("tight as a place", "dishwasher", "It's tight in here behind the drain pump."),
    ("tool is broken", "top load washer", "My torch is broken, so no light on the belt."),
]

NOT_YET: set[str] = {
    "neither",
    "where it sits",
}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_outcome_words_judge_the_part_named(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert checks(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_judging_words_of_other_things_judge_no_part(kind: str, said: str, understood: Understood) -> None:
    assert checks(understood(visit(kind, said))) == set()
