"""The same words, cut into other breaths or written with other stops and commas, report the same."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Understood, facts, told, visit

ROWS: list[Row] = [
    (
        "how far is no part",
        "top load washer",
        "Ran the rinse and spin. | Start to finish, and it never walked.",
        {"trial rinse and spin: passed"},
    ),
    ("from side to side", "dryer", "I rocked it. | Side to side, and no squeak at all.", set()),
    (
        "two loads in one breath",
        "top load washer",
        "Her blanket, by itself, tripped off balance, same blanket plus two sheets. | Ran clean to the end.",
        {"trial blanket: failed", "trial loaded spin: passed"},
    ),
    (
        "two loads without a stop between",
        "top load washer",
        "One duvet alone, stopped off balance and the same duvet with four towels ran clean to the end.",
        {"trial duvet: failed", "trial loaded spin: passed"},
    ),
    (
        "the same as what was run is no other run",
        "top load washer",
        "One duvet alone, ran clean to the end, same as the towels did.",
        {"trial duvet: passed"},
    ),
    (
        "what was found, without the comma behind it",
        "dishwasher",
        "Filter, two cherry stones, a label and something furry all cleaned out now.",
        {"work filter: cleaned"},
    ),
    (
        "praise for what was found",
        "dishwasher",
        "The sump, well, that was lovely, a dead mouse and a sock, all cleaned out now.",
        {"work sump: cleaned"},
    ),
    (
        "a treat of a filter",
        "front load washer",
        "Filter, that was a right treat, a button and two coins, all cleaned out now.",
        {"work filter: cleaned"},
    ),
    ("it runs a treat", "dishwasher", "The drain pump runs a treat.", {"check drain pump: good"}),
    (
        "praise for one thing, another cleaned",
        "dishwasher",
        "The drain pump, that was fine, and I cleaned the filter out.",
        {"check drain pump: good", "work filter: cleaned"},
    ),
    (
        "all belongs to the subject",
        "dishwasher",
        "The spray arm was all cleaned out.",
        {"work spray arm: cleaned"},
    ),
    (
        "what an instrument does judges nothing",
        "gas dryer",
        "The air goes out the back of the cabinet, the manometer drops to point two.",
        set(),
    ),
    (
        "from one part to another",
        "refrigerator",
        "Compressor, run to common 3 ohms. | Start to common 7 ohms, good.",
        {
            "reading compressor winding: 3 ohm",
            "reading compressor winding: 7 ohm",
            "check compressor winding: good",
        },
    ),
]


@pytest.mark.parametrize(("kind", "said", "expected"), [pytest.param(*row[1:], id=row[0]) for row in ROWS])
def test_facts_whatever_the_cuts(kind: str, said: str, expected: Facts, understood: Understood) -> None:
    assert facts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Dryer. | He reckons it doesn't. | It doesn't heat at all.", ["it doesn't heat"]),
        ("Refrigerator, and she says it won't. | It won't get cold.", ["it won't get"]),
        ("Dryer. | She says it won't heat.", ["it won't heat"]),
        ("Washer. | She says it just won't.", []),
    ],
)
def test_a_complaint_that_breaks_off_says_nothing(
    said: str, expected: list[str], understood: Understood
) -> None:
    assert told(understood(said).complaints, expected) == expected


@pytest.mark.parametrize(
    ("said", "complaints", "safety"),
    [
        ("Cord's out before anyone tells me off and the taps shut.", [], ["cord's out"]),
        ("Power's off before the missus tells me off, and the tap's closed.", [], ["power's off"]),
        ("Plugged out before nobody says I didn't.", [], ["plugged out"]),
        ("The fella upstairs tells me it leaks.", ["it leaks"], []),
    ],
)
def test_who_may_yet_say_something_reports_nothing(
    said: str, complaints: list[str], safety: list[str], understood: Understood
) -> None:
    found = understood(f"Front load washer. | {said}")

    assert told(found.complaints, complaints) == complaints
    assert told(found.safety, safety) == safety


@pytest.mark.parametrize(
    ("said", "safety"),
    [
        (
            "Cover's on, plugged in, left in service, | verdict, fault found, and it's mended.",
            ["left in service"],
        ),
        ("Left unplugged with a note on it, verdict, fault found.", ["left unplugged"]),
        ("Verdict, fault found, and it's mended.", []),
    ],
)
def test_a_verdict_begins_at_its_heading(said: str, safety: list[str], understood: Understood) -> None:
    found = understood(visit("microwave", said))

    assert told(found.safety, safety) == safety
    assert found.verdict.finding == "fault found"


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (
            "I've told her not to use it till Friday. | Not even for a rinse. | And to go light on the salt.",
            ["told her not", "light on the salt"],
        ),
        (
            "I've told her not to use it till Friday. | The belt is fine. | And to get at it I had the lid off.",
            ["told her not"],
        ),
        (
            "Told him to leave the door ajar and get somebody to turn the boiler down.",
            ["door ajar", "get somebody"],
        ),
        ("Told him to clean the filter and get the fluff out of the trap.", ["clean the filter"]),
    ],
)
def test_points_of_advice_whatever_the_cuts(said: str, expected: list[str], understood: Understood) -> None:
    assert told(understood(visit("washer", said)).advice, expected) == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (
            "The lady says it bangs, from what she's telling me it's mostly the heavy towels that do it.",
            ["it bangs", "heavy towels"],
        ),
        ("The lady says it bangs, from what she says.", ["it bangs"]),
        ("It squeals, according to her.", ["it squeals"]),
    ],
)
def test_what_is_passed_on_anew_is_another_complaint(
    said: str, expected: list[str], understood: Understood
) -> None:
    assert told(understood(f"Top load washer. | {said}").complaints, expected) == expected
