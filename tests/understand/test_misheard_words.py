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


def test_heading_of_follow_ups_alone_is_none(understood: Understood) -> None:
    said = "Drive belt replaced. | Follow up. | I'm back Thursday week with the hose."

    assert told(understood(visit("dryer", said)).follow_ups, ["back thursday week"]) == ["back thursday week"]


def test_sentence_leaves_the_heading_to_the_report(understood: Understood) -> None:
    (cause,) = understood(visit("dryer", "Cause: drive belt, worn through.")).causes

    assert cause.text == "Cause: drive belt, worn through."
