"""Words by which works.py tells one deed from another."""

# What is reset where it is the object of wiping.
CODES = frozenset(
    [
        "code",
        "codes",
        "fault",
        "faults",
        "error",
        "errors",
        "memory",
        "history",
        "log",
        "list",
        "count",
        "counts",
        "entry",
        "entries",
    ]
)
# Of codes: "there was a code stored and I've wiped it".
WIPING = frozenset(
    ["cleared", "clear", "wiped", "wipe", "erased", "erase", "deleted", "delete", "reset", "zeroed"]
)
# Of nothing but codes.
ERASING = frozenset(["erased", "erase", "deleted", "delete"])
# Verbs that only foreign matter is the object of; a part is "taken out" to get at something.
PICKED = frozenset(
    [
        "fished",
        "scooped",
        "picked",
        "plucked",
        "dug",
        "tweezered",
        "chipped",
        "melted",
        "steamed",
        "sucked",
        "bailed",
        "baled",
        "siphoned",
        "syphoned",
        "untangled",
        "fish",
        "scoop",
        "pick",
        "dig",
        "melt",
        "suck",
    ]
)
# Verbs that water is removed by.
POURED = frozenset(
    [
        "bailed",
        "baled",
        "siphoned",
        "syphoned",
        "sucked",
        "pumped",
        "drained",
        "mopped",
        "tipped",
        "scooped",
        "emptied",
        "removed",
        "got",
    ]
)
# Of a place ("scooped the sump out") they clean it.
EMPTIED = frozenset(
    [
        "emptied",
        "scooped",
        "picked",
        "picking",
        "poked",
        "raked",
        "mopped",
        "sucked",
        "dug",
        "shook",
        "tapped",
        "steamed",
        "scraped",
        "scraping",
        "rooted",
        "knocked",
        "worked",
    ]
)
# Where dirt sits.
PLACES = frozenset(
    [
        "ports",
        "port",
        "holes",
        "hole",
        "jets",
        "jet",
        "slots",
        "slot",
        "channel",
        "groove",
        "folds",
        "fold",
        "tray",
        "trough",
        "well",
        "base",
        "pan",
        "nozzle",
        "nozzles",
        "screen",
        "screens",
        "mesh",
        "grille",
        "vent",
        "duct",
        "fins",
        "louvers",
    ]
)
# What is cleaned by opening it.
OPENINGS = frozenset(
    ["drain", "hole", "holes", "tube", "port", "ports", "jet", "jets", "nozzle", "orifice", "channel", "vent"]
)
# ... where it was.
BLOCKED = frozenset(
    [
        "choked",
        "blocked",
        "clogged",
        "plugged",
        "closed",
        "stopped",
        "bunged",
        "frozen",
        "iced",
        "shut",
        "jammed",
    ]
)
# What is plugged in as a mending; a plug is not.
PLUGGED = frozenset(
    [
        "harness",
        "connector",
        "lead",
        "wire",
        "wires",
        "cable",
        "ribbon",
        "terminal",
        "loom",
        "connection",
        "sensor",
        "switch",
    ]
)
