"""Classes of wordings in which things are found good, bad, unclear or left alone, and what only sounds so."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, checks, rows, visit

ROWS: list[Row] = [
    (
        "only I never got to it",
        "washer",
        "Drain pump, I had a mind to listen to it. | Only I never got to it.",
        {"check drain pump: not tested"},
    ),
    (
        "two findings with a comma between their breaths",
        "washer",
        "sump, no leaks, no cracks, | inlet valve, dry and secure.",
        {"check sump: good", "check inlet valve: good"},
    ),
    ("a complain is a complaint", "washer", "Dampers, they sat there, so I'd no complain about the dampers.", {"check shock absorber: good"}),
    ("not evaluated", "washer", "Lid lock was not evaluated.", {"check lid lock: not tested"}),
    # what hid a finding
    ("snug is no deed", "dryer", "The belt is snug on the pulley.", {"check belt: good"}),
    (
        "a test hides no denial",
        "dishwasher",
        "Heating element, no leakage to speak of.",
        {"check heating element: good"},
    ),
    ("dirt that a dog left", "refrigerator", "Condenser coil's got dog hair all over it.", {"check condenser coil: fault"}),
    ("hook behind its purpose", "gas range", "The bracket to hold it down is not engaged.", {"check bracket: fault"}),
    ("blowing in a place", "freezer", "Evaporator fan's blowing in the back.", {"check evaporator fan: good"}),
    ("quiet at it", "dryer", "The motor's quiet running up.", {"check motor: good"}),
    ("a noun that is a part", "dishwasher", "Holes in it are clear.", {"check hole: good"}),
    ("okay fills a pause", "electric dryer", "Element, okay, I've got a lead off, and it's burnt.", {"check heating element: fault"}),
    ("not stripped", "dryer", "Blower wheel isn't cracked and it isn't stripped.", {"check blower wheel: good"}),
    # paper, mirror, meter
    ("paper falls out", "refrigerator", "Door gasket, the dollar bill slides right out at the top.", {"check door seal: fault"}),
    ("paper is held", "refrigerator", "Door seal grabs the paper all round.", {"check door seal: good"}),
    ("does not reach", "freezer", "The door seal isn't touching the frame on the left.", {"check door seal: fault"}),
    ("mirror stays clear", "water heater", "Mirror at the draft hood, no misting.", {"check draft hood: good"}),
    ("neither end to earth", "water heater", "Upper element, neither terminal goes to ground.", {"check upper element: good"}),
    ("goes to earth", "water heater", "Lower element, it's leaking to the tank.", {"check lower element: fault"}),
    ("open by the meter", "electric range", "Broil element, meter says open.", {"check broil element: fault"}),
    ("open alone", "electric dryer", "Thermal cutoff, meter on it, open.", {"check thermal cutoff: fault"}),
    ("it's open", "refrigerator", "Defrost heater, I've got nothing, it's open.", {"check defrost heater: fault"}),
    ("sniffer hears nothing", "gas range", "Sniffed round the unions, not a chirp.", {"check gas leak: good"}),
    # several, the new one, the same again
    ("several click", "microwave", "Door switches, all three click.", {"check door switch: good"}),
    ("both spin", "dryer", "Both drum rollers turn by hand.", {"check drum roller: good"}),
    ("does too", "freezer", "High limit reads closed, the defrost heater does too.", {"check high limit: good", "check defrost heater: good"}),
    ("the new one", "electric dryer", "Fitted a new heating element. | New one reads ten ohms, so that's good.", {"check heating element: good"}),
    ("of its pump", "dishwasher", "The seal of the circulation pump is torn.", {"check circulation pump seal: fault"}),
    ("foot of the bracket", "electric range", "Anti-tip bracket's there but the rear leg isn't in it.", {"check anti-tip bracket: fault"}),
    ("wound down and up", "freezer", "Thermostat, wound it down and she clicked off, wound it up and she clicked on, so it works.", {"check thermostat: good"}),
    # likened
    ("gravel", "front load washer", "Hand on the drum bearing, give it a turn, and it's pure gravel.", {"check bearing: fault"}),
    ("a pillow of it", "dryer", "Lint screen, you could stuff a pillow with that.", {"check lint screen: fault"}),
    ("roasting", "refrigerator", "Hand on the compressor, it's roasting.", {"check compressor: fault"}),
    ("fuzzy", "refrigerator", "Condenser coil is fuzzy.", {"check condenser coil: fault"}),
    ("sheet of snow", "refrigerator", "Evaporator coil is one solid sheet of snow.", {"check evaporator coil: fault"}),
    ("foot up in the air", "dryer", "Front right foot was up in the air.", {"check foot: fault"}),
    ("let go", "front load washer", "Tub seal has let go.", {"check tub seal: fault"}),
    ("healthy", "refrigerator", "That's a healthy wee compressor.", {"check compressor: good"}),
    ("off the list", "dryer", "Thermal fuse has continuity, so scratch that off the list.", {"check thermal fuse: good"}),
    ("not dropped", "freezer", "Lid hinges haven't dropped.", {"check lid hinge: good"}),
    ("used up", "dishwasher", "Rinse aid, look at that, not a drop in it.", {"check rinse aid dispenser: fault"}),
    ("pan and magnet", "induction cooktop", "The magnet won't stick to the bottom of it.", {"check cookware: fault"}),
    # unclear, left alone
    ("in doubt", "dryer", "The idler pulley, I have some doubt about it.", {"check idler pulley: unclear"}),
    ("make of it", "dryer", "Drum bearing, hm, make of that what you like.", {"check bearing: unclear"}),
    ("far side unseen", "microwave", "Fan, I can't see the far side of it.", {"check fan: unclear"}),
    ("no ladder", "dryer", "The vent hood, I've got no ladder for that.", {"check vent hood: not tested"}),
    ("no fingers to it", "gas range", "The thermocouple, I couldn't get my fingers to it.", {"check thermocouple: not tested"}),
    ("not one to reach", "freezer", "Drain plug wasn't one I could get to.", {"check defrost drain: not tested"}),
    ("leaving it", "microwave", "The stirrer's well hidden, I'm leaving that.", {"check stirrer: not tested"}),
    ("found, then left", "dryer", "The idler pulley's worn a little, I'm leaving it.", {"check idler pulley: fault"}),
    ("good after all", "refrigerator", "Defrost heater, neither here nor there, no, it's as it should be.", {"check defrost heater: good"}),
]  # fmt: skip

TRAPS: list[Trap] = [
    (
        "okay while it settles",
        "refrigerator",
        "The glass of water on the middle shelf, it's 53, 52, okay, it's settled.",
    ),
    (
        "without splitting the tub",
        "washer",
        "I can see it there. | I couldn't tell you without splitting the tub.",
    ),
    ("tap is open", "top load washer", "Cord's in, faucets are open."),
    ("open to dry", "dishwasher", "Door's open to dry."),
    ("rubbed bright", "front load washer", "Scraped that terminal bright."),
    ("no leaning", "gas range", "Don't lean on the door, please."),
    ("meter's own clip", "electric dryer", "Element reads, hang on, my clip fell off."),
    ("meter trips", "refrigerator", "Clamp meter when it starts, nineteen amps, then it trips."),
    ("smell of dinner", "electric range", "Smells lovely in here."),
    ("part another day", "electric range", "A new bake element is needed, not today."),
    ("might be nothing", "microwave", "Might be the stirrer, might be nothing."),
    ("any such part", "electric dryer", "Now a cutoff doesn't open by itself."),
    ("guessed at", "dishwasher", "Or it's that flow meter missing counts."),
    ("panel taken away", "dishwasher", "Kick plate is away."),
    ("one on the rack", "electric range", "The second one on the low rack has burned."),
    ("made it run", "refrigerator", "The dial had it running longer."),
    ("asked", "microwave", "So is it the diode that killed the magnetron?"),
    ("roller drives", "dryer", "The rollers turn the drum."),
    (
        "fitted before",
        "water heater",
        "The brother in law hung a thermocouple on it, and that didn't do nothing.",
    ),
]

NOT_YET: set[str] = set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_each_class_of_wordings_finds_what_was_meant(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert checks(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_what_only_sounds_like_a_finding_is_none(kind: str, said: str, understood: Understood) -> None:
    assert checks(understood(visit(kind, said))) == set()
