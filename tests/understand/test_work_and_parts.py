"""Work done here, and parts fitted, ordered or needed; not what others did or what is only to be done."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, rows, visit, work_and_parts

CODES_RESET = {"work fault codes: reset"}

ROWS: list[Row] = [
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
        {"work electric range: calibrated"},
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
