"""What the customer page explains: only matters on which advice was given."""

from __future__ import annotations

import pytest

from fieldnotes.judge.explanations import explained
from fieldnotes.records import Explained, Item
from fieldnotes.vocabulary.load import load_vocabulary

from .visits import said, visit

RULES = tuple(load_vocabulary().explanations.values())
PACKS = load_vocabulary().packs


def topics(kind: str, *advice: str) -> list[str]:
    given = tuple(Item(about=f"advice {n}", text="", evidence=said(words)) for n, words in enumerate(advice))
    return [each.topic for each in explained(visit(kind).model_copy(update={"advice": given}), RULES, PACKS)]


@pytest.mark.parametrize(
    ("kind", "advice", "expected"),
    [
        ("top-load washer", "I told them to keep loads to about two thirds full", ["how-full"]),
        ("front-load washer", "don't wash a rug by itself, put some towels in", ["balance"]),
        ("top-load washer", "explained that it uses less water than what they had", ["low-water"]),
        ("front-load washer", "told him to cut back on the detergent", ["foam"]),
        ("gas dryer", "get the vent cleaned once a year", ["blocked-duct"]),
        ("electric dryer", "clean that lint trap every single load", ["lint-filter"]),
        ("dishwasher", "rinse out the filter every couple of weeks", ["dishwasher-filter"]),
        ("refrigerator", "don't pack food against the vents", ["air-in-the-cold"]),
        ("freezer", "vacuum the condenser coils", ["dusty-coil"]),
        ("gas range", "call right away if you see yellow flames", ["flame"]),
        # traps
        ("refrigerator", "I told them to keep loads to about two thirds full", []),
        ("top-load washer", "do not overload that outlet", []),
        ("top-load washer", "keep the bucket no more than half full", []),
        ("top-load washer", "call us if there is a little water on the floor", []),
        ("gas dryer", "a longer hose for the gas is on its way", []),
        ("dishwasher", "use rinse aid", []),
        ("refrigerator", "keep it away from the vents of the stove", []),
        ("washer", "level it when you move it", []),
    ],
)
def test_advice_brings_up_its_matter(kind: str, advice: str, expected: list[str]) -> None:
    assert topics(kind, advice) == expected


def test_each_matter_comes_once_and_three_at_most() -> None:
    said = (
        "keep it half full", "and never more than three quarters full", "mix heavy and light things",
        "use less detergent", "it uses very little water",
    )  # fmt: skip

    assert topics("top-load washer", *said) == ["how-full", "balance", "foam"]


def test_only_advice_is_looked_at() -> None:
    check = Item(about="load", text="", evidence=said("the drum was half full"))
    one = visit("top-load washer").model_copy(update={"complaints": (check,), "follow_ups": (check,)})

    assert explained(one, RULES, PACKS) == ()


def test_what_it_belongs_to_is_named() -> None:
    advice = Item(about="loading", text="", evidence=said("keep it half full"))
    one = visit("top-load washer").model_copy(update={"advice": (advice,)})

    assert explained(one, RULES, PACKS) == (Explained(topic="how-full", about="loading"),)
