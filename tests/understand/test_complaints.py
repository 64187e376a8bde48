"""What the customer reported, apart from what the technician found."""

from __future__ import annotations

import pytest

from .spoken import Row, Trap, Understood, facts, rows, told

Words = list[str]

# Said first thing, after the kind; expected: words that the quote of each complaint has to hold.
ROWS: list[Row] = [
    ("reported condition", "gas dryer", "Reported condition, no heat, per the owner.", ["no heat"]),
    ("gripe", "dryer", "The guy's gripe is it never dries.", ["never dries"]),
    (
        "said on the phone",
        "microwave",
        "What they said on the phone was, soup stays freezing.",
        ["soup stays freezing"],
    ),
    (
        "on her nerves",
        "refrigerator",
        "She says it never stops. | And there's a tick, now and again, that gets on her nerves.",
        ["never stops", "gets on her nerves"],
    ),
    (
        "something about",
        "dishwasher",
        "She says the glasses are cloudy. | And there was something about the tablets not dissolving.",
        ["cloudy", "tablets not dissolving"],
    ),
    (
        "somebody at the desk, two troubles",
        "electric range",
        "The girl at the desk said the door won't shut, and the bulb keeps flickering.",
        ["won't shut", "flickering"],
    ),
    (
        "how often",
        "dishwasher",
        "Going by what the caretaker told me, it trips the breaker. | Twice since Sunday.",
        ["trips the breaker", "since sunday"],
    ),
    (
        "other talk of hers",
        "refrigerator",
        "The nurse reports the milk is freezing. | She told me she likes the colour.",
        ["freezing"],
    ),
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
    ("by name", "dryer", "Mister Halloran says the drum's stopped turning.", ["stopped turning"]),
    (
        "when it began",
        "dishwasher",
        "He says it smells of drains. | Started about a month ago.",
        ["smells of drains", "a month ago"],
    ),
    (
        "how often, then who says so",
        "top load washer",
        "Reason for call, leaving water in the tub. | Not every load, maybe one in three, the son says.",
        ["leaving water", "one in three"],
    ),
    (
        "why I was sent",
        "freezer",
        "The alarm keeps going off, that's what I've been sent for. | Happened three times this week.",
        ["alarm", "three times"],
    ),
    (
        "according to him",
        "electric range",
        "It won't come up to heat, according to Mr Teague.",
        ["come up to heat"],
    ),
    ("worried that", "freezer", "The lady is worried because the food on top has thawed.", ["thawed"]),
    ("complaining", "refrigerator", "The tenants are complaining it's not keeping the milk cold.", ["milk"]),
    ("two in one breath", "dryer", "She says it squeals, and it smells of burning.", ["squeals", "burning"]),
    (
        "in her words",
        "electric range",
        "It goes dead on me, her words, right in the middle of supper.",
        ["dead"],
    ),
    (
        "day put right",
        "refrigerator",
        "She says it's not cooling. | Since Monday, no, Tuesday, she said Tuesday night.",
        ["not cooling", "tuesday"],
    ),
]

TRAPS: list[Trap] = [
    ("some would", "front load washer", "Some people would say that's the pump."),
    ("customer is happy", "dryer", "She says the kettle's on if I want one."),
    ("what I hear", "top load washer", "I can hear the bearing rumbling myself."),
    ("customer history", "dishwasher", "She says they moved in last June."),
    ("general", "refrigerator", "These get noisy when they're low on gas."),
    ("all that was done", "freezer", "She's had her cousin round and he changed the plug, she says."),
    ("what is all right", "front load washer", "Washes fine otherwise, by her account."),
    ("who is coming", "dishwasher", "She tells me the plumber is coming at three."),
    ("when it was bought", "water heater", "She says her sister bought it in twenty eighteen."),
    ("other machine", "microwave", "He says the kids are at school till three."),
]

NOT_YET: set[str] = set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_what_the_customer_reported_is_complaint_only(
    kind: str, said: str, expected: Words, understood: Understood
) -> None:
    found = understood(f"{kind.capitalize()}. | {said}")

    assert (told(found.complaints, expected), facts(found)) == (expected, set())


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_what_reports_no_trouble_is_no_complaint(kind: str, said: str, understood: Understood) -> None:
    assert told(understood(f"{kind.capitalize()}. | {said}").complaints, ()) == []


def test_what_was_measured_is_no_complaint(understood: Understood) -> None:
    said = (
        "Refrigerator. | She says it's not cold. | The glass of water. | 51 degrees Fahrenheit, way too warm."
    )

    assert [item.evidence.quote for item in understood(said).complaints] == ["She says it's not cold."]


def test_complaint_leaves_out_what_machine_it_is(understood: Understood) -> None:
    said = "Right, integrated dishwasher this, and it's knocking the electrics off in every wash."
    found = understood(said)

    assert [item.evidence.quote for item in found.complaints] == [
        "and it's knocking the electrics off in every wash."
    ]


def test_complaint_ends_where_the_plate_is_read(understood: Understood) -> None:
    found = understood("Microwave. Owner says nothing warms up. It's a Brantley, model M C two one.")

    assert [item.evidence.quote for item in found.complaints] == ["Owner says nothing warms up."]


@pytest.mark.parametrize(
    ("said", "text"),
    [
        ("Job two, a dishwasher, and the complaint is it won't drain.", "Customer reported: it won't drain."),
        ("It won't drain, the customer says.", "Customer reported: It won't drain, the customer says."),
        ("It's a dishwasher, and she says it leaks.", "Customer reported: it leaks."),
    ],
)
def test_sentence_leaves_out_what_only_announces_the_complaint(
    said: str, text: str, understood: Understood
) -> None:
    assert [item.text for item in understood(f"Hello. | {said}").complaints] == [text]
