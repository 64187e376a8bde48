"""Work done here, and parts fitted, ordered or needed; not what others did or what is only to be done."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, rows, visit, work_and_parts

CODES_RESET = {"work fault codes: reset"}

ROWS: list[Row] = [
    (
        "what was dirty, not the dirt",
        "dishwasher",
        "Filter's got a bit of paper label and an olive pit on it. | I've rinsed it off anyway.",
        {"work filter: cleaned"},
    ),
    (
        "several things, spoken of before one",
        "gas range",
        "The burner ports are clogged. | The flame lifts. | I've cleaned them out.",
        {"work burner ports: cleaned"},
    ),
    ("replaced", "dryer", "I replaced the belt.", {"work belt: replaced", "part belt: fitted"}),
    (
        "changed",
        "dishwasher",
        "Changed the drain pump.",
        {"work drain pump: replaced", "part drain pump: fitted"},
    ),
    (
        "put a new one in",
        "refrigerator",
        "Put a new start relay in.",
        {"work start relay: replaced", "part start relay: fitted"},
    ),
    (
        "fitted",
        "front load washer",
        "Fitted a new door seal.",
        {"work door seal: replaced", "part door seal: fitted"},
    ),
    (
        "swapped out",
        "microwave",
        "Swapped out the magnetron.",
        {"work magnetron: replaced", "part magnetron: fitted"},
    ),
    (
        "two parts",
        "dryer",
        "Replaced the thermal fuse and the high limit thermostat.",
        {
            "work thermal fuse: replaced",
            "part thermal fuse: fitted",
            "work high limit thermostat: replaced",
            "part high limit thermostat: fitted",
        },
    ),
    (
        "quantity",
        "top load washer",
        "Fitted four new suspension rods.",
        {"work suspension rod: replaced", "part suspension rod: fitted, 4"},
    ),
    (
        "number",
        "dishwasher",
        "Replaced the drain pump, part number D P seven seven two one.",
        {"work drain pump: replaced", "part drain pump: fitted, DP7721"},
    ),
    (
        "number in the next breath",
        "dryer",
        "New belt fitted. | Part number B L four zero nine.",
        {"work belt: replaced", "part belt: fitted, BL409"},
    ),
    ("ordered", "refrigerator", "I've ordered a control board.", {"part control board: ordered"}),
    ("ordered, on order", "front load washer", "Door lock is on order.", {"part door lock: ordered"}),
    ("needed", "top load washer", "It needs a new clutch.", {"part clutch: needed"}),
    (
        "needed, quantity",
        "front load washer",
        "Needs two shock absorbers.",
        {"part shock absorber: needed, 2"},
    ),
    ("wants", "water heater", "It wants a new anode rod before winter.", {"part anode rod: needed"}),
    ("cleaned", "dishwasher", "Cleaned out the sump.", {"work sump: cleaned"}),
    ("tightened", "electric dryer", "Nipped up the terminal block.", {"work terminal block: tightened"}),
    ("levelled", "top load washer", "I levelled the machine.", {"work top-load washer: levelled"}),
    ("reset", "water heater", "Reset the high limit.", {"work high-limit switch: reset"}),
    ("adjusted", "gas range", "Adjusted the air shutter.", {"work air shutter: adjusted"}),
    ("lubricated", "dryer", "Greased the idler pulley.", {"work idler pulley: lubricated"}),
    (
        "reconnected",
        "dishwasher",
        "Pushed the drain hose back on its spigot and clamped it.",
        {"work drain hose: reconnected"},
    ),
    (
        "repaired",
        "electric range",
        "Soldered the joint on the oven control.",
        {"work oven control: repaired"},
    ),
    ("removed lint", "dryer", "Took a big wad of lint out of the blower housing.", {"work lint: removed"}),
    (
        "removed object",
        "dishwasher",
        "Fished a cherry stone out of the drain pump.",
        {"work food soil: removed"},
    ),
    ("descaled", "water heater", "Descaled the heat exchanger.", {"work heat exchanger: cleaned"}),
    (
        "done after fault",
        "gas dryer",
        "Igniter was cracked so I fitted a new one.",
        {"work igniter: replaced", "part igniter: fitted"},
    ),
    (
        "passive",
        "refrigerator",
        "Condenser fan has been replaced now.",
        {"work condenser fan: replaced", "part condenser fan: fitted"},
    ),
    (
        "calibrated",
        "electric range",
        "Calibrated the oven, up fifteen degrees.",
        {"work oven: calibrated"},
    ),
    (
        "new one is in",
        "dishwasher",
        "New drain pump's in and wired up.",
        {"work drain pump: replaced", "part drain pump: fitted"},
    ),
    (
        "list of notes",
        "dishwasher",
        "Filter cleaned, drain pump replaced.",
        {"work filter: cleaned", "work drain pump: replaced", "part drain pump: fitted"},
    ),
    ("water bailed", "dishwasher", "Bailed the water out of the tub.", {"work water: removed"}),
    ("codes are the object", "electric range", "Bake element, fine. Cleared the codes.", CODES_RESET),
    ("codes behind a board", "dryer", "Cleared the codes from the control board.", CODES_RESET),
    ("object in front", "front load washer", "The door seal I wiped round.", {"work door seal: cleaned"}),
    (
        "held by have",
        "refrigerator",
        "Condenser coil was thick, so I've that brushed out.",
        {"work condenser coil: cleaned"},
    ),
    (
        "instrument, then the object",
        "dryer",
        "The exhaust duct was packed, so I ran the rods right through it.",
        {"work exhaust duct: cleaned"},
    ),
    (
        "they, in notes",
        "front load washer",
        "The transit bolts were still in, I took them out.",
        {"work transit bolt: removed"},
    ),
    (
        "verb whose object is left out",
        "dryer",
        "Terminal block screws were loose, nipped them all up.",
        {"work terminal block: tightened"},
    ),
    (
        "two ordered",
        "front load washer",
        "I've ordered the door lock and the door seal.",
        {"part door lock: ordered", "part door seal: ordered"},
    ),
    (
        "new one, named behind it",
        "dishwasher",
        "New one's gone in, one drain pump, part number D P four four one two.",
        {"work drain pump: replaced", "part drain pump: fitted, DP4412"},
    ),
    (
        "under way, then in",
        "dishwasher",
        "So I'm fitting the new drain pump, and it's in.",
        {"work drain pump: replaced", "part drain pump: fitted"},
    ),
    (
        "new, and that's on",
        "refrigerator",
        "New fan motor, that's on there now, one, part F M two two one.",
        {"work fan motor: replaced", "part fan motor: fitted, FM221"},
    ),
    (
        "fitted, as a heading",
        "dishwasher",
        "Fitted. Drain pump, one. Part four one two two.",
        {"work drain pump: replaced", "part drain pump: fitted, 4122"},
    ),
    (
        "new part, counted",
        "dryer",
        "New belt on the drum, one.",
        {"work belt: replaced", "part belt: fitted"},
    ),
    (
        "given a soak",
        "dishwasher",
        "The filter was thick with grease so it got a good soak.",
        {"work filter: cleaned"},
    ),
    ("worked over", "dishwasher", "I worked the filter over with a toothbrush.", {"work filter: cleaned"}),
    ("fronted", "dishwasher", "The filter I scrubbed under the tap.", {"work filter: cleaned"}),
    ("said to the apprentice", "dishwasher", "You've rinsed the filter, good lad.", {"work filter: cleaned"}),
    ("code by pronoun", "dishwasher", "E4 was stored. | I have erased it.", {"work fault code: reset"}),
    (
        "entry",
        "dishwasher",
        "The stored list had one entry, E four. | I've cleared the entry.",
        {"work fault code: reset"},
    ),
    ("codes, passive", "dishwasher", "The codes are wiped.", CODES_RESET),
    (
        "got a drop",
        "dryer",
        "Drum rollers were dry, so they got a drop of oil.",
        {"work drum roller: lubricated"},
    ),
    (
        "grease was put",
        "dryer",
        "A dab of grease was put on the idler pulley.",
        {"work idler pulley: lubricated"},
    ),
    ("half a turn", "dryer", "I gave the terminal screw half a turn.", {"work terminal screw: tightened"}),
    ("fronted dirt", "dryer", "Lint I scooped out by hand, two fistfuls.", {"work lint: removed"}),
    (
        "a touch",
        "gas range",
        "So I'm turning the air shutter a touch, and now it's blue.",
        {"work air shutter: adjusted"},
    ),
    (
        "by degrees",
        "gas range",
        "I trimmed the offset down five degrees.",
        {"work temperature offset: calibrated"},
    ),
    (
        "foot by pronoun",
        "top load washer",
        "It rocked on the front left foot, so I wound it down.",
        {"work foot: levelled"},
    ),
    (
        "home again",
        "dishwasher",
        "Drain hose had slipped, I've pushed it back where it belongs.",
        {"work drain hose: reconnected"},
    ),
    (
        "choked and opened",
        "refrigerator",
        "Drain tube was choked, so I opened it with warm water.",
        {"work defrost drain: cleaned"},
    ),
    (
        "on order, counted",
        "dryer",
        "So it's on order, one drum roller, number D R four four one.",
        {"part drum roller: ordered, DR441"},
    ),
    ("requisition", "dryer", "Belt is on the requisition, quantity two.", {"part belt: ordered, 2"}),
    ("what's needed", "dryer", "An idler pulley, one, is what's needed.", {"part idler pulley: needed"}),
    ("was needed", "dryer", "An idler pulley was needed.", {"part idler pulley: needed"}),
    (
        "you'd want one",
        "dryer",
        "To put it right you'd want one belt, B T four four one.",
        {"part belt: needed, BT441"},
    ),
    ("office ordered", "dryer", "I've had the office order a belt.", {"part belt: ordered"}),
]

TRAPS: list[Trap] = [
    ("plan", "dryer", "I'll replace the belt tomorrow."),
    ("panels off", "top load washer", "Took the front panel off and popped the lid up."),
    ("screws out", "refrigerator", "Removed the screws from the evaporator cover."),
    ("door off for access", "front load washer", "Took the door off to get at the seal."),
    ("others did it", "water heater", "The plumber replaced the relief valve in May."),
    ("landlord did it", "dryer", "Her landlord cleaned the exhaust duct himself."),
    ("not needed", "dishwasher", "No parts needed."),
    ("doesn't need", "microwave", "It doesn't need a magnetron."),
    ("didn't fit", "gas range", "I didn't fit a new electrode."),
    ("if it needs", "refrigerator", "If it needs a compressor she'd be better off buying new."),
    (
        "order of work told to apprentice",
        "dryer",
        "You clean the lint chute first, lad, then put the belt on.",
    ),
    ("advice", "dishwasher", "I told him to clean the filter every week."),
    ("general", "electric range", "You replace the bake element and nine times out of ten that's it."),
    ("on the van", "top load washer", "I've got a spare lid switch on the van."),
    ("question", "front load washer", "Should I replace the belt while I'm in here?"),
    ("asked for a price", "microwave", "He asked what a new turntable motor costs."),
    ("part out for access", "dryer", "Pulled the belt off to get at the motor."),
    ("panel put back", "dryer", "I put the drum back and refitted the front panel."),
    ("own earlier visit", "dryer", "I fitted a belt to this one in the spring."),
    ("own earlier visit, next clause", "dryer", "I replaced the belt when I was here last time."),
    ("plan, then done", "dryer", "I was going to check the belt next, and I've done that now."),
    ("plug pulled", "microwave", "Plug removed: pulled the plug."),
    ("plugged back in", "dishwasher", "I plugged it back in."),
    ("heating again", "microwave", "The hum's gone, so we are heating."),
    ("by itself", "water heater", "Lifted the lever and it let go and reseated."),
    ("adjective", "dishwasher", "The replaced pump is quiet."),
    ("state", "dishwasher", "The drain hose is strapped up like it should be."),
    ("tool moved over a part", "front load washer", "I ran my hand round the door seal."),
    ("on the way out", "front load washer", "The bearing is on the way out."),
    ("nobody did", "dishwasher", "Nobody had ever cleaned the filter."),
    ("visitor, with an aside", "dishwasher", "A previous visitor, I understand, replaced the drain pump."),
    ("other firm, in notes", "dishwasher", "Other firm, last spring. Changed the pump. Not us."),
    ("only asked for", "dishwasher", "Told the manager, get the filter cleaned every week."),
    ("power back", "dishwasher", "Breaker's back on."),
    ("there is", "dishwasher", "There's a sticker glued over the plate."),
    ("by somebody", "dishwasher", "The plate has been scrubbed away by some enthusiastic person."),
    ("new, not in", "dishwasher", "The new pump is still in its box on the bench."),
    ("on its way out", "dishwasher", "The pump on its way out will rattle."),
    ("paper along a seal", "dishwasher", "I went over the seal with a strip of paper."),
    ("under way, next time", "dishwasher", "I'm cleaning the filter next time."),
    ("noise gone", "dishwasher", "The hum is gone."),
    ("weather coming in", "dishwasher", "Snow's coming in sideways."),
    ("got oil on himself", "dryer", "I got a spot of oil on my sleeve."),
    ("water to test", "dryer", "I ran hot water down the drain to test it."),
    ("setting wanted", "dryer", "I'd want the vent shorter."),
    ("opened to look", "dryer", "I opened the vent at the back to look."),
    ("her son did", "dryer", "Her son took the drum out to look for a coin."),
]

NOT_YET: set[str] = set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_work_done_here_and_its_parts_are_listed(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert work_and_parts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_work_not_done_here_is_not_listed(kind: str, said: str, understood: Understood) -> None:
    assert work_and_parts(understood(visit(kind, said))) == set()
