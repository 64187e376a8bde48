"""What the customer reported, apart from what the technician found."""

from __future__ import annotations

import pytest

from .spoken import Row, Trap, Understood, facts, rows, told

Words = list[str]

# Said first thing, after the kind; expected: words that the quote of each complaint has to hold.
ROWS: list[Row] = [
    ("customer says", "dishwasher", "Customer says it's not draining.", ["not draining"]),
    ("she reckons", "dryer", "The lady reckons it takes three goes to dry a load.", ["three goes"]),
    ("complaint heading", "top load washer", "Complaint: won't spin.", ["won't spin"]),
    ("called out for", "refrigerator", "Called out for a fridge that's warm.", ["warm"]),
    ("bare", "gas range", "Left front burner won't light.", ["won't light"]),
    ("according to", "microwave", "According to him it hums and doesn't heat.", ["doesn't heat"]),
    (
        "two complaints",
        "front load washer",
        "She says it bangs in the spin. | She says it also leaks at the door.",
        ["bangs", "leaks"],
    ),
    (
        "goes on",
        "dishwasher",
        "He says the glasses come out cloudy. | Also a bad smell.",
        ["cloudy", "smell"],
    ),
    ("symptom with part", "refrigerator", "Customer states the ice maker isn't making any ice.", ["ice"]),
    ("tenant", "water heater", "The tenant says they run out of hot water after one shower.", ["hot water"]),
    ("ticket", "electric range", "The ticket says oven not heating.", ["not heating"]),
    (
        "indian english",
        "refrigerator",
        "Madam is telling that cooling is not there since two days.",
        ["cooling"],
    ),
]

TRAPS: list[Trap] = [
    ("customer is happy", "dryer", "She says the kettle's on if I want one."),
    ("what I hear", "top load washer", "I can hear the bearing rumbling myself."),
    ("customer history", "dishwasher", "She says they moved in last June."),
    ("general", "refrigerator", "These get noisy when they're low on gas."),
    ("other machine", "microwave", "He says the kids are at school till three."),
]

NOT_YET: set[str] = {
    "general",
}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_what_the_customer_reported_is_complaint_only(
    kind: str, said: str, expected: Words, understood: Understood
) -> None:
    found = understood(f"{kind.capitalize()}. | {said}")

    assert (told(found.complaints, expected), facts(found)) == (expected, set())


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_what_reports_no_trouble_is_no_complaint(kind: str, said: str, understood: Understood) -> None:
    assert told(understood(f"{kind.capitalize()}. | {said}").complaints, ()) == []
