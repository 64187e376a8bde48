"""How a thing was found, sense by sense: each said in other ways, with and without punctuation and capitals."""

from __future__ import annotations

import re

import pytest

from .spoken import Facts, Row, Trap, Understood, checks, rows, visit

ROWS: list[Row] = [
    ("worn 1", "dryer", "The belt's wore right through on one side.", {"check belt: fault"}),
    ("worn 2", "dryer", "Drum rollers have gone flat on two sides.", {"check drum roller: fault"}),
    ("worn 3", "front load washer", "Carbon brushes are down to nothing.", {"check carbon brushes: fault"}),
    ("worn 4", "front load washer", "Brushes have bags of life in them yet.", {"check carbon brushes: good"}),
    ("worn 5", "dishwasher", "Door seal's gone hard and it's lost its spring.", {"check door seal: fault"}),
    ("worn 6", "dishwasher", "The door gasket is still soft and supple.", {"check door seal: good"}),
    ("worn 7", "water heater", "Anode rod's eaten away to the wire.", {"check anode rod: fault"}),
    (
        "worn 8",
        "front load washer",
        "Shock absorbers have no resistance left in them.",
        {"check shock absorber: fault"},
    ),
    ("blocked 1", "dishwasher", "The filter was choked solid with grease.", {"check filter: fault"}),
    ("blocked 2", "dishwasher", "Drain hose is bunged up.", {"check drain hose: fault"}),
    (
        "blocked 3",
        "dryer",
        "Exhaust duct is wide open, I can see daylight all the way through.",
        {"check exhaust duct: good"},
    ),
    ("blocked 4", "dryer", "The blower wheel's full up with lint.", {"check blower wheel: fault"}),
    ("blocked 5", "dishwasher", "The sump was swimming in grease.", {"check sump: fault"}),
    ("blocked 6", "refrigerator", "Evaporator coil is one lump of ice.", {"check evaporator coil: fault"}),
    (
        "blocked 7",
        "refrigerator",
        "The evaporator coil has a nice even frost.",
        {"check evaporator coil: good"},
    ),
    (
        "broken 1",
        "top load washer",
        "Suspension rod is snapped clean in two.",
        {"check suspension rod: fault"},
    ),
    ("broken 2", "dishwasher", "Found a split in the drain hose.", {"check drain hose: fault"}),
    ("broken 3", "dishwasher", "There's a cracked float in here.", {"check float: fault"}),
    ("broken 4", "dishwasher", "No cracks in the sump that I could find.", {"check sump: good"}),
    ("broken 5", "electric range", "Bake element has a blister on it.", {"check bake element: fault"}),
    ("loose 1", "front load washer", "The counterweight was flapping loose.", {"check counterweight: fault"}),
    (
        "loose 2",
        "front load washer",
        "Counterweight bolts are good and tight.",
        {"check counterweight: good"},
    ),
    ("loose 3", "dryer", "Idler pulley is wobbling all over.", {"check idler pulley: fault"}),
    ("loose 4", "dryer", "There's not a bit of wobble in the idler pulley.", {"check idler pulley: good"}),
    ("loose 5", "dryer", "Blower wheel had come off its shaft.", {"check blower wheel: fault"}),
    ("electrical 1", "dryer", "The thermal fuse is open.", {"check thermal fuse: fault"}),
    ("electrical 2", "dryer", "Thermal fuse isn't open.", {"check thermal fuse: good"}),
    ("electrical 3", "dryer", "Thermal fuse reads nothing at all.", {"check thermal fuse: fault"}),
    (
        "electrical 4",
        "water heater",
        "Lower element reads infinite, so it's gone.",
        {"check lower element: fault"},
    ),
    (
        "electrical 5",
        "water heater",
        "Upper element to the tank, open line, just what you want.",
        {"check upper element: good"},
    ),
    ("electrical 6", "dryer", "Motor winding's not shorted.", {"check motor windings: good"}),
    ("electrical 7", "microwave", "The diode conducts both ways.", {"check high-voltage diode: fault"}),
    (
        "electrical 8",
        "dryer",
        "Got a good clean continuity through the door switch.",
        {"check door switch: good"},
    ),
    ("electrical 9", "refrigerator", "The start relay's dead.", {"check start relay: fault"}),
    ("sound 1", "front load washer", "Bearing growls when you spin the drum.", {"check bearing: fault"}),
    ("sound 2", "front load washer", "The bearing doesn't make a sound.", {"check bearing: good"}),
    ("sound 3", "refrigerator", "Evaporator fan runs quiet as a mouse.", {"check evaporator fan: good"}),
    ("sound 4", "refrigerator", "Evaporator fan is squealing like a pig.", {"check evaporator fan: fault"}),
    ("sound 5", "dishwasher", "The circulation pump just hums.", {"check circulation pump: fault"}),
    (
        "sound 6",
        "dishwasher",
        "I gave the circulation pump a listen and it's purring.",
        {"check circulation pump: good"},
    ),
    ("heat 1", "electric range", "The bake element never glowed.", {"check bake element: fault"}),
    ("heat 2", "electric range", "The broil element won't heat.", {"check broil element: fault"}),
    ("heat 3", "microwave", "The waveguide cover is scorched.", {"check waveguide cover: fault"}),
    ("heat 4", "microwave", "No burn marks on the waveguide cover.", {"check waveguide cover: good"}),
    ("wet 1", "dishwasher", "Inlet valve isn't dripping any.", {"check inlet valve: good"}),
    ("wet 2", "dishwasher", "Dry as anything under the sump.", {"check sump: good"}),
    ("wet 3", "water heater", "Relief valve seeps a little.", {"check relief valve: fault"}),
    ("wet 4", "front load washer", "There's water getting past the door gasket.", {"check door seal: fault"}),
    (
        "wet 5",
        "water heater",
        "The relief valve lifted and reseated with no drip.",
        {"check relief valve: good"},
    ),
    ("wet 6", "water heater", "Relief valve won't stop dripping.", {"check relief valve: fault"}),
    ("moves 1", "dishwasher", "Float moves up and down, no sticking.", {"check float: good"}),
    ("moves 2", "dishwasher", "Float's not moving at all.", {"check float: fault"}),
    ("moves 3", "dishwasher", "Door latch won't catch at all.", {"check door latch: fault"}),
    (
        "moves 4",
        "dishwasher",
        "The detergent dispenser stuck half open.",
        {"check detergent dispenser: fault"},
    ),
    ("moves 5", "refrigerator", "Air damper stuck wide open.", {"check air damper: fault"}),
    ("moves 6", "top load washer", "Lid lock engages with a firm clunk.", {"check lid lock: good"}),
    (
        "moves 7",
        "refrigerator",
        "Condenser fan's not turning, stiff as you like.",
        {"check condenser fan: fault"},
    ),
    ("moves 8", "refrigerator", "Door seal grips the paper all the way round.", {"check door seal: good"}),
    ("dialect 1", "dryer", "Idler pulley's goosed.", {"check idler pulley: fault"}),
    ("dialect 2", "front load washer", "The door lock's nae working.", {"check door lock: fault"}),
    ("dialect 3", "front load washer", "Door lock isnae catching.", {"check door lock: fault"}),
    ("dialect 4", "front load washer", "I cannae fault the drain pump.", {"check drain pump: good"}),
    ("dialect 5", "dryer", "Idler pulley don't spin worth a darn.", {"check idler pulley: fault"}),
    ("dialect 6", "dishwasher", "The float she move free.", {"check float: good"}),
    ("dialect 7", "dishwasher", "Filter is block with rice.", {"check filter: fault"}),
    ("dialect 8", "refrigerator", "Start relay is burn.", {"check start relay: fault"}),
    ("dialect 9", "dishwasher", "Drain pump not turning free.", {"check drain pump: fault"}),
    ("dialect 10", "dishwasher", "The filter's manky.", {"check filter: fault"}),
    ("judged 1", "dryer", "Belt looks rough but it's within limits.", {"check belt: good"}),
    ("judged 2", "dryer", "The drum seal's a bit worn, I'd still pass it.", {"check drum seal: good"}),
    ("judged 3", "microwave", "Door latch, couldn't ask for better.", {"check door latch: good"}),
    ("judged 4", "microwave", "The door latch is not how I'd want it.", {"check door latch: fault"}),
    ("judged 5", "refrigerator", "Door seal, I'd be happy with that.", {"check door seal: good"}),
    ("judged 6", "dryer", "The motor leaves a lot to be desired.", {"check motor: fault"}),
    ("judged 7", "dishwasher", "The diverter isn't the problem.", {"check diverter: good"}),
    ("judged 8", "electric range", "Oven sensor matches the chart.", {"check oven sensor: good"}),
    ("judged 9", "gas range", "Spark module clicks away like a good one.", {"check spark module: good"}),
    ("open 1", "dryer", "I wouldn't like to swear to the idler pulley.", {"check idler pulley: unclear"}),
    (
        "open 2",
        "dishwasher",
        "Whether the diverter is fully home I can't make out.",
        {"check diverter: unclear"},
    ),
    ("open 3", "refrigerator", "Door seal is a question mark.", {"check door seal: unclear"}),
    ("open 4", "top load washer", "The clutch might be slipping, might not.", {"check clutch: unclear"}),
    ("open 5", "top load washer", "I'm in two minds about the belt.", {"check belt: unclear"}),
    ("open 6", "dryer", "Moisture sensor, didn't get round to it.", {"check moisture sensor: not tested"}),
    ("open 7", "dishwasher", "Skipped the diverter.", {"check diverter: not tested"}),
    ("open 8", "dishwasher", "Left the circulation pump alone.", {"check circulation pump: not tested"}),
    (
        "open 9",
        "refrigerator",
        "Control board, no access without pulling the unit out.",
        {"check control board: not tested"},
    ),
    ("open 10", "dryer", "Thermal fuse no tested.", {"check thermal fuse: not tested"}),
    ("open 11", "top load washer", "The belt I wasn't able to see.", {"check belt: not tested"}),
    ("open 12", "top load washer", "Not had a look at the belt today.", {"check belt: not tested"}),
]

TRAPS: list[Trap] = [
    ("made safe", "dryer", "I turned the breaker off and it's dead, safe to touch."),
    ("off and locked", "dryer", "Breaker's off and locked, no voltage at the block."),
    ("discharged", "microwave", "Discharged the capacitor, it's dead."),
    (
        "only the way in",
        "dishwasher",
        "I can't reach the sump without taking the kick plate off, so off it comes.",
    ),
    ("cleaned till", "dishwasher", "I cleaned the filter till it was spotless."),
    ("cleaned, so clean", "dryer", "I vacuumed the lint screen and it's clean now."),
    ("deed, stuck", "dishwasher", "I stuck the drain hose back on."),
    ("deed, broke", "dryer", "I broke the seal on the new belt."),
    ("deed, cracked open", "dryer", "I cracked the lid open to see the belt."),
    ("supposed, when", "dryer", "When it sticks the belt squeals."),
    ("supposed, once", "gas range", "Once the igniter glows the valve opens."),
    ("supposed, whether", "gas range", "Whether the igniter's weak I'll know in a minute."),
    ("what was off", "dryer", "I ran the motor with the belt off."),
    ("warning", "gas range", "Don't jam the drawer against the igniter."),
    ("wrong box", "dishwasher", "The wrong filter was in the box, so back it goes."),
    ("read wrong", "dryer", "I read that wrong, the motor again."),
    ("sort of part", "dryer", "A dirty lint screen makes it run hot."),
    ("frost free", "refrigerator", "Frost free fridge, the compressor's at the back."),
    ("firm in doing", "refrigerator", "I tightened the door hinge till it was firm."),
    ("good job", "dishwasher", "Good job the drain hose was long."),
    ("good question", "dishwasher", "That's a good question about the filter."),
    ("my hands", "dryer", "My hands are dirty from the belt."),
    ("somebody's joy", "dryer", "He was happy with the belt."),
    ("a wonder", "dishwasher", "It's a wonder the float works at all."),
    ("how it was left", "water heater", "Left it heating with the breaker on."),
]

NOT_YET: set[str] = set()


def unpunctuated(said: str) -> str:
    """As recognition may give it."""
    return re.sub(r"[.,;:!?](?=\s|$)", "", said).lower()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_sense_is_found_with_and_without_punctuation(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert checks(understood(visit(kind, said))) == expected
    assert checks(understood(visit(kind, unpunctuated(said)))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_words_that_only_look_like_a_judgement_find_nothing(
    kind: str, said: str, understood: Understood
) -> None:
    assert checks(understood(visit(kind, said))) == set()
    assert checks(understood(visit(kind, unpunctuated(said)))) == set()
