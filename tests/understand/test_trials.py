"""Cycles and tests really run: to the end, stopped, or only begun."""

from __future__ import annotations

import pytest

from fieldnotes.understand.understanding import Findings

from .spoken import Facts, Row, Trap, Understood, rows, visit

ROWS: list[Row] = [
    (
        "plugged in before it",
        "washer",
        "So then I plugged it back in and ran the spin test from the service mode, and it went right up.",
        {"spin test: passed"},
    ),
    (
        "left open in the next breath",
        "top load washer",
        "Ran a spin test and it got up to speed. | And I wouldn't want to call that either way.",
        {"spin test: unclear"},
    ),
    (
        "something else left open",
        "top load washer",
        "Ran a spin test and it got up to speed. | The belt I couldn't say if it's the right one.",
        {"spin test: passed"},
    ),
    (
        "ran to the end",
        "dishwasher",
        "Ran the drain cycle and it emptied right out.",
        {"drain cycle: passed"},
    ),
    ("passed", "top load washer", "Ran the spin test and it passed.", {"spin test: passed"}),
    ("failed", "top load washer", "Ran a spin test and it stopped halfway.", {"spin test: failed"}),
    (
        "never lit",
        "gas range",
        "Tried the ignition test five times and it never lit.",
        {"ignition test: failed"},
    ),
    (
        "lit every time",
        "gas range",
        "Did the ignition test ten times, lit first click every time.",
        {"ignition test: passed"},
    ),
    (
        "no leaks",
        "front load washer",
        "Ran a full rinse and spin, not a drop on the floor.",
        {"rinse and spin: passed"},
    ),
    (
        "result in the next breath",
        "dryer",
        "Ran it on timed dry. | Came out bone dry.",
        {"timed dry: passed"},
    ),
    ("no heat", "dryer", "Ran a timed dry and it blew cold the whole way.", {"timed dry: failed"}),
    (
        "completed",
        "dishwasher",
        "Put it through a short wash, went all the way to the end with no faults.",
        {"short wash: passed"},
    ),
    (
        "first fails, then passes",
        "top load washer",
        "Spin test, it banged and stopped. | Spin test again with the new rods, smooth to the end.",
        {"spin test: failed", "spin test: passed"},
    ),
    (
        "complaint did not show",
        "front load washer",
        "Ran the spin test three times and couldn't get it to act up.",
        {"spin test: passed"},
    ),
    ("terse", "top load washer", "Spin test, passed.", {"spin test: passed"}),
    (
        "unclear end",
        "refrigerator",
        "Put it in forced defrost, can't say if it finished, I had to leave.",
        {"forced defrost: unclear"},
    ),
    ("terse fail", "microwave", "Water test. No heat. Fail.", {"water test: failed"}),
    (
        "told over two breaths",
        "dishwasher",
        "I put it on a rinse. | It went right through and pumped out at the end.",
        {"rinse cycle: passed"},
    ),
    ("no leaks, quick wash", "dishwasher", "Ran it through a quick wash, no leaks.", {"quick cycle: passed"}),
    ("floor dry", "dishwasher", "Ran a full cycle. No water on the floor.", {"full cycle: passed"}),
    (
        "quit",
        "dishwasher",
        "Put it on a short wash and it quit at the second drain.",
        {"short wash: failed"},
    ),
    ("fault denied", "front load washer", "Spin test, and it never once banged.", {"spin test: passed"}),
    (
        "would not",
        "front load washer",
        "Ran a quick wash with her duvet in and it wouldn't spin.",
        {"quick cycle: failed"},
    ),
    (
        "end not seen",
        "dishwasher",
        "I set a rinse going but I couldn't stay to see it finish.",
        {"rinse cycle: unclear"},
    ),
    ("a load alone", "dryer", "Her own towels after that. Bone dry.", {"towels: passed"}),
    ("heat source", "gas range", "Tried the broiler and it never lit.", {"broiler: failed"}),
    (
        "start to finish",
        "dishwasher",
        "Then a short wash, start to finish, and it never quit on me.",
        {"short wash: passed"},
    ),
    ("never did it", "dryer", "Ran a timed dry and it never squealed once.", {"timed dry: passed"}),
    (
        "one word, set apart",
        "dishwasher",
        "Then the intensive, and everything came out spotless.",
        {"intensive: passed"},
    ),
    (
        "own name",
        "washer",
        "Thirty degree synthetics, half load, no leaks this time.",
        {"thirty degree synthetics: passed"},
    ),
    ("own name, verb", "washer", "I gave it a forty wash and it tripped again.", {"forty wash: failed"}),
    ("counted", "gas range", "Six starts, cold and hot, no whoomp.", {"six starts: passed"}),
    (
        "failed, then the same",
        "dryer",
        "Ran a timed dry and it quit. | Ran the timed dry again, same thing.",
        {"timed dry: failed"},
    ),
    (
        "told two breaths on",
        "microwave",
        "Heated a mug of water on high. | She's watching me like a hawk. | Comes out steaming.",
        {"water test: passed"},
    ),
    (
        "steps, then the end",
        "dishwasher",
        "I put it on a short wash. | It filled, it heated. | Then it stopped dead and sat there.",
        {"short wash: failed"},
    ),
    (
        "verdict in the next breath",
        "water heater",
        "Ran the shower ten minutes, still hot. | So I'd call that a pass.",
        {"hot tap run: passed"},
    ),
    (
        "went cold",
        "water heater",
        "Ran the shower ten minutes and it went cold on me.",
        {"hot tap run: failed"},
    ),
    ("present tense", "gas range", "New igniter in, bake again, and there's flame.", {"bake: passed"}),
    (
        "by itself",
        "freezer",
        "Advanced the timer to defrost and it came back to cooling by itself, like it should.",
        {"forced defrost: passed"},
    ),
    (
        "could not catch it",
        "washer",
        "I ran a quick wash with her sheets in, and I couldn't catch it out.",
        {"quick cycle: passed"},
    ),
    (
        "no telling",
        "washer",
        "Put a quick wash on, had to leave before it was done.",
        {"quick cycle: unclear"},
    ),
    (
        "till it stopped",
        "dryer",
        "Ran a timed dry till it shut itself off like it should.",
        {"timed dry: passed"},
    ),
    ("heater came on", "refrigerator", "Forced defrost, heater never came on.", {"forced defrost: failed"}),
    (
        "set at",
        "front load washer",
        "Synthetics at thirty, let it go the whole way, and it never missed a beat.",
        {"synthetics: passed"},
    ),
    (
        "part and programme of one name",
        "induction cooktop",
        "Boost on the front right, held for the full ten minutes, no drop.",
        {"boost: passed"},
    ),
    (
        "who ran it behind",
        "dishwasher",
        "The eco wash I ran as well, and it stopped again.",
        {"wash cycle: failed"},
    ),
    ("done", "dishwasher", "Well, that's the short wash done, and not a drip.", {"short wash: passed"}),
    (
        "broken off for a fault",
        "top load washer",
        "Ran a quick wash and I had to stop it short, it was walking across the floor.",
        {"quick cycle: failed"},
    ),
    (
        "broken off for no fault",
        "top load washer",
        "Ran a quick wash and cut it short, I had another call.",
        {"quick cycle: unclear"},
    ),
    (
        "shut down after a fault",
        "gas range",
        "Tried the broiler and it never lit, so I shut it down.",
        {"broiler: failed"},
    ),
    (
        "another go",
        "front load washer",
        "Ran the spin test and it hung at four hundred. | Gave it another go and it went straight through.",
        {"spin test: failed", "spin test: passed"},
    ),
    (
        "several goes",
        "refrigerator",
        "Tried a start cord on the compressor and it just hummed. | Gave it a few tries, no joy.",
        {"compressor test: failed"},
    ),
    (
        "counted with a name",
        "water heater",
        "First reheat, I let it fill, came right up to temperature. | Second one tripped out at the half hour.",
        {"reheat: passed", "reheat: failed"},
    ),
    (
        "starts in a row",
        "dryer",
        "Started it six times in a row, went six times.",
        {"repeated starts: passed"},
    ),
    ("two deeds", "washer dryer", "Spun out and drained, no leaks.", {"drain and spin: passed"}),
    ("glowed", "electric range", "Tried broil, and it reddened up in no time.", {"broil: passed"}),
    ("throws heat", "dryer", "Timed dry, high, and she's throwing good hot air.", {"timed dry: passed"}),
    (
        "with the customer's own",
        "induction cooktop",
        "With her pan, it beeps and goes off. | On the rear zone her pan does the same.",
        {"pan: failed", "zone: failed"},
    ),
    (
        "others running",
        "water heater",
        "I had both fans and the dryer going for an hour, and the pilot never so much as blinked.",
        {"pilot: passed"},
    ),
    ("burned", "electric range", "A loaf on the low shelf, scorched underneath.", {"loaf: failed"}),
]

TRAPS: list[Trap] = [
    ("somebody else has", "gas range", "He's lit it so many times he has blisters."),
    (
        "a leg of the unit",
        "top load washer",
        "It was rocking on the left rear, so I ran that one down and it sat level.",
    ),
    ("dropped into", "water heater", "I dropped my torch in the pan, it's fine."),
    ("a thought", "gas range", "Sixth time I'm thinking, great, I'll be here till supper."),
    ("what one is for", "washer", "That's the spin cycle for you."),
    ("no programme", "dryer", "Normal at this stage."),
    ("the same with a part", "washer", "Did the same with the belt."),
    ("taken apart and emptied", "washer", "The trap was emptied and drained."),
    ("still wanted", "freezer", "I don't want to see it go through a forced defrost before I say more."),
    ("plan", "dishwasher", "I'll run a drain cycle before I go."),
    ("only started", "dryer", "I've started a timed dry."),
    ("general", "top load washer", "The spin test always runs fine empty on these."),
    ("hypothetical", "front load washer", "If the spin test failed it'd be the bearing."),
    ("history", "refrigerator", "Last fellow ran a forced defrost and it passed, he said."),
    ("advice", "dishwasher", "Told her to run a vinegar wash once a month."),
    ("denied", "microwave", "I didn't run the water test."),
    ("customer", "top load washer", "She says the spin cycle stops halfway."),
    ("question", "gas range", "Did the self clean pass last time?"),
    ("never ran", "dryer", "Never ran the timed dry."),
    ("left running", "dishwasher", "Started a normal wash and left it going."),
    ("customer ran it", "dishwasher", "She ran a normal wash last night and it stopped."),
    ("part turned by hand", "front load washer", "I gave the drum a spin by hand and it's quiet."),
    ("no time", "front load washer", "I didn't have time for a full wash."),
    ("tool run round a part", "front load washer", "I ran my hand round the seal, no tears."),
    ("outcome of a check", "electric range", "Nothing to ground on either, so bake and broil are both good."),
    ("during a programme", "washer", "During the wash I felt the hose, dry as a bone."),
    ("in a programme", "dishwasher", "Water hit sixty degrees in the main wash, plenty hot."),
    ("nail run over it", "cooktop", "I ran my nail over it and it isn't a crack."),
    ("under load", "microwave", "Mains at the socket under load, two hundred and twenty eight volts, good."),
    ("piece of a part", "freezer", "The float in the pan, I lifted it up and down, it doesn't stick."),
    ("every load", "dryer", "Clean the filter every single load, and ditch the softener sheets, that's all."),
    ("part run on the bench", "washer", "The pump ran fine on the bench."),
    ("part tried", "dryer", "Cycled the door switch ten times and it worked every time."),
    ("what she does", "dryer", "She runs two loads a day and it never gets dry."),
    ("leak test", "gas range", "Leak test on the union, no bubbles, good."),
    ("name as a verb", "dishwasher", "It filled, it washed, it wouldn't pump out."),
]

NOT_YET: set[str] = set()


def trials(found: Findings) -> Facts:
    return {f"{t.about}: {t.outcome}" for t in found.trials}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_cycle_that_was_run_ends_as_said(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert trials(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_cycle_not_run_through_here_is_no_trial(kind: str, said: str, understood: Understood) -> None:
    assert trials(understood(visit(kind, said))) == set()
