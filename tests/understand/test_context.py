"""Who did it, when, and whether at all: done, planned, supposed, general, history, reported, asked, told, denied."""

from __future__ import annotations

import pytest

from .spoken import ARRIVAL, Facts, Row, Trap, Understood, facts, rows, visit

# What was really done or seen, beside words of another kind. Each is followed by its trap.
ROWS: list[Row] = [
    ("done, with article", "dishwasher", "I cleaned the filter under the tap.", {"work filter: cleaned"}),
    ("done, no subject", "dryer", "Vacuumed out the lint chute.", {"work lint chute: cleaned"}),
    (
        "looked and judged",
        "top load washer",
        "Had a look at the belt and it's in good shape.",
        {"check belt: good"},
    ),
    (
        "plan fulfilled in the same breath",
        "top load washer",
        "I was going to check the belt next, and I've done that now, belt is fine.",
        {"check belt: good"},
    ),
    (
        "plan, then but with a fact",
        "dishwasher",
        "I'll come back to the door seal, but the drain hose is clear right through.",
        {"check drain hose: good"},
    ),
    (
        "plan, then a fact, no punctuation",
        "dishwasher",
        "i'll come back to the door seal but the drain hose is clear right through",
        {"check drain hose: good"},
    ),
    (
        "general truth, then this one",
        "dryer",
        "These rollers usually go flat, but the ones on this one are perfect and the belt is good.",
        {"check drum roller: good", "check belt: good"},
    ),
    (
        "hypothetical, then so I",
        "top load washer",
        "If the lid switch was open it would never spin, so I metered it and the lid switch is good.",
        {"check lid switch: good"},
    ),
    (
        "hypothetical, then so I, no punctuation",
        "top load washer",
        "if the lid switch was open it would never spin so i metered it and the lid switch is good",
        {"check lid switch: good"},
    ),
    (
        "history, then anyway",
        "top load washer",
        "Somebody put a new drain pump in last spring, anyway the drain pump is seized solid now.",
        {"check drain pump: fault"},
    ),
    (
        "history, then anyway, no punctuation",
        "top load washer",
        "somebody put a new drain pump in last spring anyway the drain pump is seized solid now",
        {"check drain pump: fault"},
    ),
    (
        "history, then what is seen of it",
        "refrigerator",
        "The last bloke changed the start relay, and the start relay he fitted is burnt.",
        {"check start relay: fault"},
    ),
    (
        "report, then own finding",
        "dishwasher",
        "He reckons the pump is done for, but I've had it out and the drain pump is fine.",
        {"check drain pump: good"},
    ),
    (
        "question answered at once",
        "dryer",
        "Is the belt still on? Yes, the belt's on and it's not frayed.",
        {"check belt: good"},
    ),
    (
        "question answered in the next breath",
        "front load washer",
        "What about the shock absorbers? | They're leaking, both of them.",
        {"check shock absorber: fault"},
    ),
    (
        "lesson, then a fact",
        "gas range",
        "You want to look at the electrode first, lad. | This electrode is cracked right through.",
        {"check electrode: fault"},
    ),
    (
        "not one but the other",
        "microwave",
        "I didn't change the fuse, I only reseated the door switch connector and it's tight now.",
        {"work door switch connector: reconnected"},
    ),
    (
        "what would be, what is",
        "refrigerator",
        "With a bad condenser fan you'd feel no air at all, and here I can feel plenty, the condenser fan is spinning freely.",
        {"check condenser fan: good"},
    ),
    (
        "after an until clause",
        "water heater",
        "I waited until the tank was hot and then checked the relief valve, no drips from it.",
        {"check relief valve: good"},
    ),
    (
        "two facts around a plan",
        "dishwasher",
        "The float moves freely. I'll do the inlet valve in a minute. The spray arm isn't blocked.",
        {"check float: good", "check spray arm: good"},
    ),
]

TRAPS: list[Trap] = [
    ("plan, next", "top load washer", "Next I'll check the belt for wear."),
    ("plan, going to", "dishwasher", "I'm going to pull the drain pump and see if it's jammed."),
    ("plan, gonna, no punctuation", "dryer", "okay gonna take a look at the idler pulley and the belt"),
    ("plan, want to", "refrigerator", "I want to test the defrost heater before I condemn anything."),
    ("plan, need to", "dishwasher", "I need to clean that filter before I leave."),
    ("plan, let's", "dryer", "Let's have a look at that thermal fuse then."),
    ("plan, about to", "front load washer", "I'm about to replace the door seal."),
    ("plan, after this", "water heater", "Then once the tank's empty I can change the lower element."),
    ("intended and not done", "top load washer", "I was going to replace the belt but I've none on the van."),
    ("hypothetical, if", "top load washer", "If the belt is worn you'd smell rubber."),
    ("hypothetical, would", "dishwasher", "A blocked drain hose would give you the same thing."),
    ("hypothetical, had", "refrigerator", "Had the evaporator fan been seized, there'd be no air up top."),
    ("hypothetical, unless", "gas dryer", "Won't ever light unless the igniter is glowing."),
    ("hypothetical, in case", "microwave", "Always pull the plug in case the capacitor is still charged."),
    ("general, usually", "dryer", "Usually on these the idler pulley is worn and squealing."),
    ("general, most of them", "dishwasher", "Most of them go at the door seal, it gets hard and leaks."),
    ("general, they", "top load washer", "They always crack at the suspension rod, this brand."),
    ("general, a bad one", "electric range", "A bad bake element shows open on the meter."),
    ("general, when", "front load washer", "When a bearing goes on one of these it roars like a train."),
    ("history, last fellow", "dishwasher", "The last fellow put a circulation pump in it."),
    ("history, last year", "refrigerator", "Had the defrost heater replaced last year, from the sticker."),
    ("history, husband", "dryer", "Her husband cleaned out the exhaust duct in March."),
    ("history, passive", "water heater", "The anode rod was changed by the plumber two years ago."),
    ("history, our own earlier visit", "top load washer", "On my first visit I replaced the lid lock."),
    (
        "history, no punctuation",
        "dryer",
        "some guy from the other shop swapped the thermal fuse back in june",
    ),
    ("report, customer blames a part", "refrigerator", "Customer thinks the compressor is bad."),
    ("report, she says the part", "dishwasher", "She says the spray arm isn't turning."),
    ("report, according to", "gas range", "According to him the igniter glows but it's weak."),
    ("question", "dryer", "Is the blower wheel cracked?"),
    ("question, wonder", "refrigerator", "I wonder if the air damper is stuck shut."),
    ("question, how", "top load washer", "How's the clutch on this thing?"),
    ("lesson, order", "electric range", "Check the terminal block for burning, and mind your fingers."),
    ("lesson, you want to", "dishwasher", "You want to replace the door seal if you see it's split."),
    ("lesson, always", "water heater", "Always clean the inlet screen while you're there, son."),
    ("lesson, make sure", "dryer", "Make sure the belt is on the pulley before you close up."),
    ("lesson, never", "microwave", "Never clean the waveguide cover with a wire brush."),
    ("denied, didn't", "top load washer", "I didn't replace the belt."),
    ("denied, haven't", "refrigerator", "Haven't cleaned the condenser coil."),
    ("denied, no need", "front load washer", "No need to change the carbon brushes."),
    ("denied, never", "dishwasher", "I never changed the inlet valve."),
    ("denied, without", "dryer", "Got it going without replacing the motor."),
    ("chat, the weather", "dryer", "It's good and hot out there today, I'm fried."),
    ("chat, the van", "top load washer", "My van needs a new belt, it squeals like a pig."),
    ("what the advert says", "refrigerator", "The brochure says the compressor is quiet."),
]

NOT_YET: set[str] = {
    "general truth, then this one",
    "history, our own earlier visit",
    "history, then what is seen of it",
}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_what_was_done_or_seen_is_reported(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert facts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_what_only_names_a_part_reports_nothing(kind: str, said: str, understood: Understood) -> None:
    assert facts(understood(visit(kind, said))) == set()


def test_the_arrival_of_every_row_tells_only_the_complaint(understood: Understood) -> None:
    found = understood(visit("dryer", "Right then."))

    assert facts(found) == set()
    assert [c.evidence.quote for c in found.complaints] == [ARRIVAL[0]]
