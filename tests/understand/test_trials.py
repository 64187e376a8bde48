"""Cycles and tests really run: to the end, stopped, or only begun."""

from __future__ import annotations

import pytest

from fieldnotes.understand.understanding import Findings

from .spoken import Facts, Row, Trap, Understood, rows, visit

ROWS: list[Row] = [
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
    ("heater came on", "refrigerator", "Forced defrost, heater never came on.", {"forced defrost: failed"}),
]

TRAPS: list[Trap] = [
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
