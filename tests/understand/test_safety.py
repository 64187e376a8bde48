"""Safety steps taken, hazards found, and the state in which the unit was left."""

from __future__ import annotations

import pytest

from .spoken import Row, Trap, Understood, rows, told, visit

Words = list[str]

ROWS: list[Row] = [
    ("plug out, lost 's", "washer", "First job, plugs out of the wall.", ["plugs out of the wall"]),
    ("breaker flipped", "dryer", "I had the breaker flipped before I touched it.", ["breaker flipped"]),
    (
        "two pole",
        "electric dryer",
        "I killed the two-pole breaker and hung my tag on it.",
        ["two-pole breaker"],
    ),
    ("fuses out", "cooktop", "Both fuses are out, and I've verified no voltage is there.", ["fuses are out"]),
    ("cock, closed", "gas dryer", "The gas cock, I have closed it.", ["closed it"]),
    ("solution", "gas dryer", "Bubble solution on every joint, and no bubbles.", ["bubble solution"]),
    ("brushed soap", "gas range", "I brushed soap all round the union, no bubbles.", ["brushed soap"]),
    ("brown plug", "freezer", "The plug on it is brown and melted.", ["brown and melted"]),
    ("taped up", "microwave", "Cord's taped up with a note on it.", ["taped up"]),
    ("off at the plug", "refrigerator", "I've got it off at the plug now.", ["off at the plug"]),
    ("in the bracket", "electric range", "Pushed it back and it's caught in the bracket.", ["bracket"]),
    ("in service", "dishwasher", "Disconnect's back on, it's in service.", ["in service"]),
    ("nothing live", "refrigerator", "Cover's on, so nothing's hanging out live.", ["live"]),
    ("left, heard as let", "dishwasher", "It's let switched on.", ["let switched on"]),
    (
        "power point as a brand",
        "refrigerator",
        "Switched it off at the PowerPoint.",
        ["off at the powerpoint"],
    ),
    ("unplugged", "dryer", "I've unplugged it.", ["unplugged"]),
    ("plug out", "dishwasher", "Plug's out at the wall.", ["plug's out"]),
    ("breaker off", "electric range", "Breaker's off at the panel.", ["breaker's off"]),
    ("gas off", "gas range", "Gas is off at the shutoff.", ["gas is off"]),
    ("water off", "top load washer", "Turned the taps off before I took the hoses off.", ["taps off"]),
    ("proved dead", "electric range", "Proved it dead at the terminal block.", ["proved it dead"]),
    ("capacitor discharged", "microwave", "Discharged the capacitor through the resistor.", ["discharged"]),
    ("left unplugged", "refrigerator", "Left it unplugged with a note on the door.", ["left it unplugged"]),
    ("left running", "refrigerator", "Left it plugged in and running.", ["left it plugged in"]),
    ("left off", "water heater", "Gas left off and the heater tagged.", ["left off"]),
    (
        "hazard, scorching",
        "electric dryer",
        "There's a scorch mark on the outlet, that's a fire hazard.",
        ["scorch mark"],
    ),
    ("hazard, no bracket", "gas range", "No anti tip bracket fitted, that's a hazard.", ["anti tip"]),
    (
        "leak test, told by its result",
        "gas dryer",
        "Both unions, and I'm not getting any bubbles.",
        ["not getting any bubbles"],
    ),
    (
        "test with its reading in a clause of its own",
        "gas range",
        "Carbon monoxide in the kitchen after a quarter of an hour is two parts per million.",
        ["two parts per million"],
    ),
    ("leak test", "gas dryer", "Soap tested the gas joint, no bubbles.", ["soap tested"]),
    ("leakage survey", "microwave", "Leakage test round the door, nothing on the survey meter.", ["leakage"]),
    ("cold supply", "water heater", "Cold supply shut, tank drained down.", ["cold supply"]),
    ("as I went", "freezer", "It was on and humming along when I walked out.", ["humming along"]),
    (
        "survey, announced",
        "microwave",
        "Leakage, door edge, point six milliwatts per square centimeter. Well under.",
        ["leakage"],
    ),
    ("what is dangerous", "dryer", "Lint. Heaps of it round the motor, a fire risk.", ["lint"]),
    (
        "test with its number put right",
        "gas range",
        "Carbon monoxide was measured at four, correction, three parts per million.",
        ["carbon monoxide"],
    ),
    ("window", "refrigerator", "I cracked the window before I opened the system.", ["window"]),
    (
        "switched off",
        "dishwasher",
        "Switched it off at the isolator before putting my hands in.",
        ["switched it off"],
    ),
    ("mains", "microwave", "The mains is disconnected.", ["mains"]),
    ("out comes", "microwave", "Out comes the plug.", ["plug"]),
    ("cut", "induction cooktop", "I cut the breaker in the panel.", ["breaker"]),
    ("fuse", "electric range", "Fuse is out and in my pocket.", ["fuse"]),
    ("absence of voltage", "electric range", "I verified the absence of voltage.", ["absence"]),
    ("tested dead", "water heater", "I tested both sets of screws for power, dead as can be.", ["dead"]),
    ("capacitor first", "microwave", "The capacitor I discharged with the probe.", ["capacitor"]),
    ("soaping", "gas range", "I'm soaping the joint at the gas cock, and no bubbles.", ["soaping"]),
    ("no tipping", "electric range", "The rear foot is caught in its bracket, so it can't tip.", ["bracket"]),
    ("chewed lead", "freezer", "Her extension lead's been chewed, there's copper showing.", ["chewed"]),
    ("no earth", "dishwasher", "There's no earth at this socket.", ["no earth"]),
    (
        "plug's out, misheard",
        "washer",
        "Plugs out, I should say, before I went round the back.",
        ["plugs out"],
    ),
    ("flipped back on", "dishwasher", "The breaker, I flipped it back on.", ["flipped it back on"]),
    ("somebody scalded", "water heater", "That pipe, somebody's going to get scalded.", ["scalded"]),
    ("left humming", "freezer", "Shelves are in, left her humming.", ["left her humming"]),
    ("stays running", "refrigerator", "The refrigerator stays running.", ["stays running"]),
    ("fine to use", "dishwasher", "It's fine to use.", ["fine to use"]),
]

TRAPS: list[Trap] = [
    ("wall duct", "dryer", "I took two pounds of lint out of the wall duct."),
    ("a plug-in tester", "gas dryer", "Earth at the socket is sound, I had the plug-in tester on it."),
    ("a hose pushed back on", "washer", "The hose came off the spigot. | Pushed it back on."),
    ("run on a programme", "dryer", "Ran it on timed dry."),
    ("what anything would do", "water heater", "Anything over that'll scald a baby."),
    ("sniffing for what cools", "freezer", "Bit short of gas. | Had the sniffer on it, nothing."),
    ("of a part", "dryer", "The display harness is unplugged at the board."),
    ("even with", "microwave", "That capacitor holds a charge even with the plug out."),
    ("suds in a wash", "top load washer", "There's suds all round the tub."),
    ("no leakage to earth", "microwave", "No leakage to ground."),
    ("a light switched on", "refrigerator", "I switched the light on to see."),
    ("bracket that is wanted", "gas range", "An anti tip bracket's needed."),
    ("plan", "dryer", "I'll unplug it in a second."),
    (
        "plan behind a stop",
        "dishwasher",
        "Next, I'll turn the breaker off again, drop the pump out and look at it.",
    ),
    ("lesson", "microwave", "Always discharge the capacitor before you touch anything."),
    ("customer did it", "dishwasher", "She says she unplugged it last night."),
    ("if", "gas range", "If you smell gas you turn it off and get out."),
    ("denied", "refrigerator", "I haven't unplugged it yet."),
    ("power as strength", "top load washer", "Plenty of power in the spin."),
    ("plug as plumbing", "water heater", "Drain plug is brass on this one."),
    ("before", "dishwasher", "Before I pull the plug I run it a second."),
    ("with it off", "front load washer", "One drip in two minutes with the power off."),
    ("a valve unplugged", "dishwasher", "Water valve, I unplugged it."),
    ("on order", "freezer", "It's on order."),
    ("on his phone", "freezer", "He wants to record it on his phone."),
    ("never smelled", "gas dryer", "She never smelled gas."),
    ("dead motor", "dryer", "I tested the motor and it's dead."),
    ("could kill", "microwave", "That capacitor could kill you if you let it."),
    ("isolated from", "refrigerator", "The thermostat is isolated from the cabinet."),
    ("off as away", "front load washer", "Top's off and the belt's off."),
]

NOT_YET: set[str] = set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_safety_step_hazard_or_state_is_listed(
    kind: str, said: str, expected: Words, understood: Understood
) -> None:
    assert told(understood(visit(kind, said)).safety, expected) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_safety_only_spoken_of_is_not_listed(kind: str, said: str, understood: Understood) -> None:
    assert told(understood(visit(kind, said)).safety, ()) == []


@pytest.mark.parametrize(
    ("said", "about", "text"),
    [
        ("I'm leaving it plugged in.", "leaving it plugged in", "Leaving it plugged in."),
        ("There's a gas can right next to it.", "gas can", "There was a gas can right next to it."),
    ],
)
def test_line_is_named_as_its_sentence_tells_it(
    said: str, about: str, text: str, understood: Understood
) -> None:
    """The page leaves out a name that its sentence has."""
    (item,) = understood(visit("water heater", said)).safety

    assert (item.about, item.text) == (about, text)
