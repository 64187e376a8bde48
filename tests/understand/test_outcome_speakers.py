"""How one thing was found in the words of many speakers, with punctuation and without."""

from __future__ import annotations

import re

import pytest

from .spoken import Facts, Row, Trap, Understood, checks, rows, visit

ROWS: list[Row] = [
    (
        "the whole way down is no measure",
        "front load washer",
        "I felt the drain hose the whole way down and it's not split.",
        {"check drain hose: good"},
    ),
    (
        "ask for no better",
        "refrigerator",
        "The door gasket seals all round, you'd ask for no better.",
        {"check door seal: good"},
    ),
    (
        "i had a look at the belt",
        "dryer",
        "I had a look at the belt and I can't say anything bad about it.",
        {"check belt: good"},
    ),
    ("belt's got years left in it", "dryer", "Belt's got years left in it.", {"check belt: good"}),
    ("belt no issues", "dryer", "Belt: no issues.", {"check belt: good"}),
    (
        "the belt's sitting where it should",
        "dryer",
        "The belt's sitting where it should.",
        {"check belt: good"},
    ),
    ("thermal fuse checks closed", "dryer", "Thermal fuse checks closed.", {"check thermal fuse: good"}),
    (
        "the thermal fuse is still intact",
        "dryer",
        "The thermal fuse is still intact.",
        {"check thermal fuse: good"},
    ),
    (
        "drain pump's running sweet as you like",
        "dishwasher",
        "Drain pump's running sweet as you like.",
        {"check drain pump: good"},
    ),
    (
        "the drain pump kicked right on",
        "dishwasher",
        "The drain pump kicked right on.",
        {"check drain pump: good"},
    ),
    (
        "the inlet valve shuts off tight",
        "dishwasher",
        "The inlet valve shuts off tight.",
        {"check inlet valve: good"},
    ),
    (
        "inlet valve is holding not a drip",
        "dishwasher",
        "Inlet valve is holding, not a drip.",
        {"check inlet valve: good"},
    ),
    (
        "door seal is soft and it sits",
        "dishwasher",
        "Door seal is soft and it sits snug all around.",
        {"check door seal: good"},
    ),
    (
        "compressor sounds the way a compressor should",
        "refrigerator",
        "Compressor sounds the way a compressor should.",
        {"check compressor: good"},
    ),
    (
        "evaporator fan is pushing plenty of air",
        "refrigerator",
        "Evaporator fan is pushing plenty of air.",
        {"check evaporator fan: good"},
    ),
    (
        "i closed a dollar bill in the",
        "refrigerator",
        "I closed a dollar bill in the door gasket and it held all the way around.",
        {"check door seal: good"},
    ),
    (
        "i shook the start relay and nothing",
        "refrigerator",
        "I shook the start relay and nothing rattled.",
        {"check start relay: good"},
    ),
    (
        "the shock absorbers push back like they",
        "front load washer",
        "The shock absorbers push back like they should.",
        {"check shock absorber: good"},
    ),
    (
        "i ran water through the drain hose",
        "front load washer",
        "I ran water through the drain hose and it came out fine.",
        {"check drain hose: good"},
    ),
    (
        "front left burner lit right away",
        "gas range",
        "Front left burner lit right away.",
        {"check left front burner: good"},
    ),
    (
        "the relief valve opened when i lifted",
        "water heater",
        "The relief valve opened when I lifted it and closed again without dripping.",
        {"check relief valve: good"},
    ),
    (
        "the terminal block has no signs of",
        "electric range",
        "The terminal block has no signs of heat.",
        {"check terminal block: good"},
    ),
    (
        "belt is still good not even a",
        "dryer",
        "Belt is still good, not even a crack on it.",
        {"check belt: good"},
    ),
    ("belt was tight and centered", "dryer", "Belt was tight and centered.", {"check belt: good"}),
    ("belt's holding its own", "dryer", "Belt's holding its own.", {"check belt: good"}),
    (
        "that belt is nowhere near worn out",
        "dryer",
        "That belt is nowhere near worn out.",
        {"check belt: good"},
    ),
    (
        "the motor starts first time every time",
        "dryer",
        "The motor starts first time every time.",
        {"check motor: good"},
    ),
    ("motor runs cool", "dryer", "Motor runs cool.", {"check motor: good"}),
    (
        "the door switch makes and breaks like",
        "dryer",
        "The door switch makes and breaks like it should.",
        {"check door switch: good"},
    ),
    (
        "all the jets in the spray arm",
        "dishwasher",
        "All the jets in the spray arm are clear.",
        {"check spray arm: good"},
    ),
    (
        "the heating element isn't shorted to ground",
        "dishwasher",
        "The heating element isn't shorted to ground.",
        {"check heating element: good"},
    ),
    (
        "water pressure is more than enough",
        "dishwasher",
        "Water pressure is more than enough.",
        {"check water pressure: good"},
    ),
    (
        "the dispenser popped open right on time",
        "dishwasher",
        "The dispenser popped open right on time.",
        {"check detergent dispenser: good"},
    ),
    (
        "the damper opens and shuts on command",
        "refrigerator",
        "The damper opens and shuts on command.",
        {"check air damper: good"},
    ),
    (
        "condenser fan's turning and it's not noisy",
        "refrigerator",
        "Condenser fan's turning and it's not noisy.",
        {"check condenser fan: good"},
    ),
    (
        "there's no growl to the bearing",
        "front load washer",
        "There's no growl to the bearing.",
        {"check bearing: good"},
    ),
    (
        "the upper thermostat clicked over when i",
        "water heater",
        "The upper thermostat clicked over when I turned it down.",
        {"check upper thermostat: good"},
    ),
    (
        "the capacitor charges and discharges on the",
        "microwave",
        "The capacitor charges and discharges on the meter.",
        {"check capacitor: good"},
    ),
    ("the belt's seen its last days", "dryer", "The belt's seen its last days.", {"check belt: fault"}),
    ("belt is starting to come apart", "dryer", "Belt is starting to come apart.", {"check belt: fault"}),
    (
        "the belt's badly worn on one side",
        "dryer",
        "The belt's badly worn on one side.",
        {"check belt: fault"},
    ),
    (
        "rear drum roller has a flat on",
        "dryer",
        "Rear drum roller has a flat on it.",
        {"check drum roller: fault"},
    ),
    (
        "the idler pulley is squealing like a",
        "dryer",
        "The idler pulley is squealing like a pig.",
        {"check idler pulley: fault"},
    ),
    ("thermal fuse reads open", "dryer", "Thermal fuse reads open.", {"check thermal fuse: fault"}),
    (
        "heating element has a break in it",
        "dryer",
        "Heating element has a break in it.",
        {"check heating element: fault"},
    ),
    ("the drain pump only hums", "dishwasher", "The drain pump only hums.", {"check drain pump: fault"}),
    (
        "the drain pump just sits there and",
        "dishwasher",
        "The drain pump just sits there and buzzes.",
        {"check drain pump: fault"},
    ),
    (
        "the spray arm is full of toothpicks",
        "dishwasher",
        "The spray arm is full of toothpicks.",
        {"check spray arm: fault"},
    ),
    (
        "the spray arm has come off its",
        "dishwasher",
        "The spray arm has come off its mount.",
        {"check spray arm: fault"},
    ),
    (
        "the condenser coil has an inch of",
        "refrigerator",
        "The condenser coil has an inch of dust on it.",
        {"check condenser coil: fault"},
    ),
    (
        "evaporator fan isn't doing a thing",
        "refrigerator",
        "Evaporator fan isn't doing a thing.",
        {"check evaporator fan: fault"},
    ),
    (
        "the compressor is cooking hot",
        "refrigerator",
        "The compressor is cooking hot.",
        {"check compressor: fault"},
    ),
    (
        "the door gasket doesn't seal at the",
        "refrigerator",
        "The door gasket doesn't seal at the bottom corner.",
        {"check door seal: fault"},
    ),
    (
        "the bearing is roaring on spin",
        "front load washer",
        "The bearing is roaring on spin.",
        {"check bearing: fault"},
    ),
    (
        "carbon brushes are nearly down to the",
        "front load washer",
        "Carbon brushes are nearly down to the springs.",
        {"check carbon brushes: fault"},
    ),
    (
        "there's a tear in the door boot",
        "front load washer",
        "There's a tear in the door boot.",
        {"check door boot: fault"},
    ),
    (
        "front burner takes forever to light",
        "gas range",
        "Front burner takes forever to light.",
        {"check surface burner: fault"},
    ),
    (
        "lower element is grounded",
        "water heater",
        "Lower element is grounded.",
        {"check lower element: fault"},
    ),
    ("relief valve's dripping", "water heater", "Relief valve's dripping.", {"check relief valve: fault"}),
    (
        "that surface element is shorted to ground",
        "electric range",
        "That surface element is shorted to ground.",
        {"check surface element: fault"},
    ),
    (
        "one of the door switches sticks",
        "microwave",
        "One of the door switches sticks.",
        {"check door switch: fault"},
    ),
    ("belt broke", "dryer", "Belt broke.", {"check belt: fault"}),
    ("found the belt snapped", "dryer", "Found the belt snapped.", {"check belt: fault"}),
    ("the belt's not right", "dryer", "The belt's not right.", {"check belt: fault"}),
    ("the motor hums and won't start", "dryer", "The motor hums and won't start.", {"check motor: fault"}),
    (
        "the vent hose is kinked behind the",
        "dryer",
        "The vent hose is kinked behind the dryer.",
        {"check transition duct: fault"},
    ),
    (
        "door switch has to be held in",
        "dryer",
        "Door switch has to be held in to work.",
        {"check door switch: fault"},
    ),
    ("igniter never glowed", "dryer", "Igniter never glowed.", {"check igniter: fault"}),
    ("door latch is floppy", "dishwasher", "Door latch is floppy.", {"check door latch: fault"}),
    (
        "heating element is crusted over with lime",
        "dishwasher",
        "Heating element is crusted over with lime.",
        {"check heating element: fault"},
    ),
    (
        "water pressure is way down",
        "dishwasher",
        "Water pressure is way down.",
        {"check water pressure: fault"},
    ),
    (
        "the defrost thermostat stays open even frozen",
        "refrigerator",
        "The defrost thermostat stays open even frozen.",
        {"check defrost thermostat: fault"},
    ),
    (
        "the door gasket has pulled away at",
        "refrigerator",
        "The door gasket has pulled away at the top.",
        {"check door seal: fault"},
    ),
    ("the compressor won't pump", "refrigerator", "The compressor won't pump.", {"check compressor: fault"}),
    (
        "the door boot is mouldy and it",
        "front load washer",
        "The door boot is mouldy and it has a split.",
        {"check door boot: fault"},
    ),
    (
        "two of the ports on the burner",
        "gas range",
        "Two of the ports on the burner are blocked.",
        {"check burner ports: fault"},
    ),
    (
        "the thermostat is burnt at the terminal",
        "water heater",
        "The thermostat is burnt at the terminal.",
        {"check thermostat: fault"},
    ),
    (
        "the waveguide cover is burnt through",
        "microwave",
        "The waveguide cover is burnt through.",
        {"check waveguide cover: fault"},
    ),
    (
        "the belt i couldn't tell you if",
        "dryer",
        "The belt, I couldn't tell you if it's original or what, but whether it's any good I can't say.",
        {"check belt: unclear"},
    ),
    (
        "the drum roller might be worn i'm",
        "dryer",
        "The drum roller might be worn, I'm not certain.",
        {"check drum roller: unclear"},
    ),
    (
        "the inlet valve could be weak hard",
        "dishwasher",
        "The inlet valve could be weak, hard to tell.",
        {"check inlet valve: unclear"},
    ),
    (
        "the compressor i'm on the fence",
        "refrigerator",
        "The compressor, I'm on the fence.",
        {"check compressor: unclear"},
    ),
    (
        "i'm not a hundred percent on the",
        "front load washer",
        "I'm not a hundred percent on the bearing.",
        {"check bearing: unclear"},
    ),
    (
        "the magnetron is a question mark",
        "microwave",
        "The magnetron is a question mark.",
        {"check magnetron: unclear"},
    ),
    (
        "whether the motor's on its way out",
        "dryer",
        "Whether the motor's on its way out I honestly don't know.",
        {"check motor: unclear"},
    ),
    (
        "the motor might be fine might not",
        "dryer",
        "The motor might be fine, might not.",
        {"check motor: unclear"},
    ),
    (
        "i didn't get a chance to look",
        "dryer",
        "I didn't get a chance to look at the belt.",
        {"check belt: not tested"},
    ),
    (
        "i didn't look at the belt today",
        "dryer",
        "I didn't look at the belt today.",
        {"check belt: not tested"},
    ),
    (
        "didn't test the heating element",
        "dryer",
        "Didn't test the heating element.",
        {"check heating element: not tested"},
    ),
    (
        "the circulation pump was not checked",
        "dishwasher",
        "The circulation pump was not checked.",
        {"check circulation pump: not tested"},
    ),
    (
        "i couldn't get at the circulation pump",
        "dishwasher",
        "I couldn't get at the circulation pump without pulling the machine.",
        {"check circulation pump: not tested"},
    ),
    (
        "i had no way to test the",
        "refrigerator",
        "I had no way to test the compressor.",
        {"check compressor: not tested"},
    ),
    (
        "i didn't open up the evaporator coil",
        "refrigerator",
        "I didn't open up the evaporator coil.",
        {"check evaporator coil: not tested"},
    ),
    (
        "never pulled the cover so i haven't",
        "refrigerator",
        "Never pulled the cover so I haven't seen the evaporator coil.",
        {"check evaporator coil: not tested"},
    ),
    (
        "i didn't bother with the bearing",
        "front load washer",
        "I didn't bother with the bearing.",
        {"check bearing: not tested"},
    ),
    (
        "left the control board alone",
        "front load washer",
        "Left the control board alone.",
        {"check control board: not tested"},
    ),
    (
        "i'm leaving the magnetron for another day",
        "microwave",
        "I'm leaving the magnetron for another day.",
        {"check magnetron: not tested"},
    ),
    (
        "i'd have liked to see the anode",
        "water heater",
        "I'd have liked to see the anode rod but there's no headroom.",
        {"check anode rod: not tested"},
    ),
    ("i never tested the motor", "dryer", "I never tested the motor.", {"check motor: not tested"}),
    ("motor not tested", "dryer", "Motor: not tested.", {"check motor: not tested"}),
    (
        "we ran out of time for the",
        "dishwasher",
        "We ran out of time for the heating element.",
        {"check heating element: not tested"},
    ),
    (
        "can't get to the defrost heater it's",
        "refrigerator",
        "Can't get to the defrost heater, it's all ice.",
        {"check defrost heater: not tested"},
    ),
    (
        "i did not put gauges on the",
        "refrigerator",
        "I did not put gauges on the compressor.",
        {"check compressor: not tested"},
    ),
    (
        "couldn't get the anode rod out",
        "water heater",
        "Couldn't get the anode rod out.",
        {"check anode rod: not tested"},
    ),
]

TRAPS: list[Trap] = [
    ("once that's fine i'll close it up", "dryer", "Once that's fine I'll close it up."),
    ("if the belt was worn you'd hear", "dryer", "If the belt was worn you'd hear it slap."),
    ("the belt is a common fault on", "dryer", "The belt is a common fault on these."),
    ("a dry bearing will squeal", "dryer", "A dry bearing will squeal."),
    ("i put the spray arm back on", "dishwasher", "I put the spray arm back on and it clicked into place."),
    ("i moved the drain hose out of", "dishwasher", "I moved the drain hose out of the way."),
    ("she says the door seal is leaking", "dishwasher", "She says the door seal is leaking."),
    ("he thought the pump was shot", "dishwasher", "He thought the pump was shot."),
    ("is the compressor running", "refrigerator", "Is the compressor running?"),
    (
        "the old start relay was replaced last",
        "refrigerator",
        "The old start relay was replaced last year, it was burnt.",
    ),
    ("now i'm going to see whether the", "refrigerator", "Now I'm going to see whether the fan is stuck."),
    ("you want the condenser coil clean", "refrigerator", "You want the condenser coil clean."),
    (
        "i need to get the bearing off",
        "front load washer",
        "I need to get the bearing off, it's tight in here.",
    ),
    ("the door lock on my own machine", "front load washer", "The door lock on my own machine is broken."),
    ("i never saw a bearing like it", "front load washer", "I never saw a bearing like it."),
    ("turn the burner on and see if", "gas range", "Turn the burner on and see if it's blue."),
    ("i turned the gas off at the", "gas range", "I turned the gas off at the shut off valve."),
    (
        "the thermostat should be closed when it's",
        "water heater",
        "The thermostat should be closed when it's cold.",
    ),
    (
        "a bad element is what everybody thinks",
        "water heater",
        "A bad element is what everybody thinks of first.",
    ),
    ("i'd hate for the magnetron to be", "microwave", "I'd hate for the magnetron to be dead."),
    ("no two ways about it the door", "microwave", "No two ways about it, the door switch is next."),
    ("i discharged the capacitor so that's safe", "microwave", "I discharged the capacitor, so that's safe."),
    ("before i do the belt i'll check", "dryer", "Before I do the belt I'll check the motor runs free."),
    ("motors on these are pretty tough", "dryer", "Motors on these are pretty tough."),
    ("i never trust a belt that looks", "dryer", "I never trust a belt that looks good."),
    ("the new belt will be tight at", "dryer", "The new belt will be tight at first."),
    ("i hope the pump isn't seized", "dishwasher", "I hope the pump isn't seized."),
    (
        "shouldn't be any trouble getting the pump",
        "dishwasher",
        "Shouldn't be any trouble getting the pump out.",
    ),
    ("wouldn't surprise me if the fan was", "refrigerator", "Wouldn't surprise me if the fan was iced up."),
    ("we'll see if the compressor is any", "refrigerator", "We'll see if the compressor is any good."),
    ("compressor could be weak we'll find out", "refrigerator", "Compressor could be weak, we'll find out."),
    (
        "when the damper sticks the fresh food",
        "refrigerator",
        "When the damper sticks the fresh food gets warm.",
    ),
    ("i need a dry towel for the", "front load washer", "I need a dry towel for the door boot."),
    ("the last guy left the drain hose", "front load washer", "The last guy left the drain hose loose."),
    ("what could make the bearing noisy", "front load washer", "What could make the bearing noisy?"),
    ("the burner's got to be level for", "gas range", "The burner's got to be level for this."),
    ("i'd expect the element to be open", "water heater", "I'd expect the element to be open."),
    ("never run it with the door switch", "microwave", "Never run it with the door switch stuck."),
    ("it would be nice if the bake", "electric range", "It would be nice if the bake element was fine."),
]

NOT_YET: set[str] = {"the relief valve opened when i lifted"}


def unpunctuated(said: str) -> str:
    """As recognition may give it."""
    return re.sub(r"[.,;:!?](?=\s|$)", "", said).lower()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_finding_is_understood_in_many_words(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert checks(understood(visit(kind, said))) == expected
    assert checks(understood(visit(kind, unpunctuated(said)))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_hope_plan_hearsay_and_rule_find_nothing(kind: str, said: str, understood: Understood) -> None:
    assert checks(understood(visit(kind, said))) == set()
    assert checks(understood(visit(kind, unpunctuated(said)))) == set()
