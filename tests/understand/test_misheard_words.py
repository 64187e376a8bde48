"""Headings and verdicts that are said aloud, and small words, as a recogniser writes them."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Understood, facts, rows, told, visit

ROWS: list[Row] = [
    ("heading", "dryer", "Checks: drive belt, right on the money.", {"check belt: good"}),
    ("check for checks", "dryer", "Check, drive belt, right on the money.", {"check belt: good"}),
    (
        "past for passed",
        "water heater",
        "Trail, full recovery from cold, and it shut off by itself, past.",
        {"trial recovery test: passed"},
    ),
    (
        "in for and",
        "top load washer",
        "I push the tub down, it comes up once in settles.",
        {"check tub bounce: good"},
    ),
    ("in", "washer", "The lid lock pulls in, and it holds.", {"check lid lock: good"}),
    (
        "nought is no denial",
        "dryer",
        "Earth is not point one ohms, spot on.",
        {"check earth: good", "reading earth: 0.1 ohm"},
    ),
    (
        "ducked for duct",
        "dryer",
        "Ducked, I taped eighteen feet plus two elbows.",
        {"reading exhaust duct: 18 ft"},
    ),
    (
        "a participle behind a programme",
        "top load washer",
        "So that's the automatic test finish, start to end, and I never heard it bang.",
        {"trial automatic test: passed"},
    ),
    ("the finish of a part", "dryer", "The drum finish, it's smooth all round.", {"check drum: good"}),
    (
        "I'll for all",
        "gas dryer",
        "So I'll hooked up, back pressure, 0.38 inches.",
        {"reading back pressure: 0.38 inH2O"},
    ),
    ("a plan", "gas dryer", "So I'll hook up the hose.", set()),
    (
        "yes to what was looked for",
        "gas cooktop",
        "Now the electrode. | I have my light on the white ceramic. | And yes, there is a crack running from the tip.",
        {"check electrode: fault"},
    ),
    ("cause", "dryer", "Cause: drive belt, worn through.", {"cause belt: certain"}),
]


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, set()))
def test_heading_is_no_thing_and_verdict_is_one(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert facts(understood(visit(kind, said))) == expected


def test_complaint_is_one_also_as_its_verb(understood: Understood) -> None:
    found = understood("Dryer. | Complain, no heat. | I opened the door.")

    assert told(found.complaints, ["no heat"]) == ["no heat"]


def test_participle_alone_behind_a_heading_is_done(understood: Understood) -> None:
    found = understood(visit("microwave", "Safety. Unplug. | And the cord hangs in front of me."))
    advised = understood(visit("microwave", "If it trips, unplug, wait a minute and try again."))

    assert [item.about for item in found.safety] == ["power disconnected"]
    assert not advised.safety


def test_receipts_are_a_receipt(understood: Understood) -> None:
    said = "Receipts on the fridge under a magnet, would you believe March 2021?"

    assert understood(visit("washer", said)).appliance.purchased == "March 2021"


def test_heading_of_follow_ups_alone_is_none(understood: Understood) -> None:
    said = "Drive belt replaced. | Follow up. | I'm back Thursday week with the hose."

    assert told(understood(visit("dryer", said)).follow_ups, ["back thursday week"]) == ["back thursday week"]


def test_sentence_leaves_the_heading_to_the_report(understood: Understood) -> None:
    (cause,) = understood(visit("dryer", "Cause: drive belt, worn through.")).causes

    assert cause.text == "Cause: drive belt, worn through."

    (cause,) = understood(visit("dryer", "The cause was the blocked duct, no doubt about it.")).causes

    assert cause.text == "Cause: the blocked duct, no doubt about it."
