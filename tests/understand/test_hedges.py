"""What was said with doubt: kept as doubt, never made certain."""

from __future__ import annotations

import pytest

from fieldnotes.understand.understanding import Findings

from .spoken import Facts, Row, Trap, Understood, rows, visit

# The doubt shows in the check's certainty where a judgement was still made, in "unclear" where none was.
ROWS: list[Row] = [
    ("seems", "dryer", "The belt seems fine.", {"belt: good, likely"}),
    ("appears", "dishwasher", "Drain hose appears clear.", {"drain hose: good, likely"}),
    ("I think", "top load washer", "Suspension rods are good, I think.", {"suspension rod: good, likely"}),
    ("probably", "refrigerator", "Start relay's probably okay.", {"start relay: good, likely"}),
    (
        "as far as I can tell",
        "top load washer",
        "The clutch isn't slipping, as far as I can tell.",
        {"clutch: good, likely"},
    ),
    ("I reckon", "front load washer", "I reckon the bearing's gone.", {"bearing: fault, likely"}),
    ("I'd guess", "dryer", "Idler pulley is worn, I'd guess.", {"idler pulley: fault, likely"}),
    ("suppose", "microwave", "The door latch is all right, I suppose.", {"door latch: good, likely"}),
    (
        "might be",
        "dishwasher",
        "The diverter might be sticking, I can't say.",
        {"diverter: unclear, certain"},
    ),
    (
        "could be either",
        "top load washer",
        "The clutch could be glazed, or it could be just dirt, hard to say.",
        {"clutch: unclear, certain"},
    ),
    (
        "not sure",
        "refrigerator",
        "I'm not sure about the air damper, it moved once and then it didn't.",
        {"air damper: unclear, certain"},
    ),
    ("not convinced", "dryer", "Drum seal, I'm not convinced either way.", {"drum seal: unclear, certain"}),
    (
        "inconclusive",
        "gas range",
        "Test on the spark module was inconclusive.",
        {"spark module: unclear, certain"},
    ),
    (
        "hard to tell",
        "water heater",
        "Hard to tell whether the dip tube is broken.",
        {"dip tube: unclear, certain"},
    ),
    ("borderline", "gas range", "The oven igniter's borderline.", {"oven igniter: unclear, certain"}),
    ("no hedge", "dryer", "The belt is definitely good.", {"belt: good, certain"}),
    (
        "doubt settled in the next breath",
        "dishwasher",
        "I thought the float was stuck. | It isn't, the float moves freely.",
        {"float: good, certain"},
    ),
    (
        "doubt belongs to another part",
        "top load washer",
        "The belt is fine. | The clutch seems fine.",
        {"belt: good, certain", "clutch: good, likely"},
    ),
    (
        "doubt about another part, one breath",
        "top load washer",
        "The belt is good, and the clutch is probably good too.",
        {"belt: good, certain", "clutch: good, likely"},
    ),
]

TRAPS: list[Trap] = [
    ("guess before looking", "dryer", "I'm thinking it might be the belt, let's see."),
    (
        "what it could be",
        "refrigerator",
        "Could be the start relay, could be the compressor, we'll find out.",
    ),
    ("customer's guess", "dishwasher", "He thinks maybe the drain pump is blocked."),
    ("general maybe", "gas range", "Sometimes the igniter seems fine and still draws too little."),
    ("wondering", "microwave", "Makes you wonder if the diode is shorted."),
]

NOT_YET: set[str] = {
    "inconclusive",
}


def with_certainty(found: Findings) -> Facts:
    return {f"{c.about}: {c.outcome}, {c.certainty}" for c in found.checks}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_hedge_shows_in_certainty_or_outcome(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert with_certainty(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_guess_without_a_look_is_no_check(kind: str, said: str, understood: Understood) -> None:
    assert with_certainty(understood(visit(kind, said))) == set()
