"""A plural that stands where a verb is missing is the part with "'s": nobody hears the apostrophe."""

from __future__ import annotations

import pytest

from fieldnotes.tidy import tidy
from fieldnotes.understand.understanding import Understanding
from fieldnotes.vocabulary.load import Vocabulary

from .spoken import Facts, Row, Understood, facts, transcript, visit

ROWS: list[Row] = [
    ("clean", "dryer", "Lint screens clean no film on it.", {"check lint screen: good"}),
    ("fine", "washer", "So the boards fine.", {"check control board: good"}),
    ("not", "washer", "The belts not slipping.", {"check belt: good"}),
    ("doing its job", "dryer", "So the thermostats doing its job.", {"check thermostat: good"}),
    ("drawing", "electric range", "Bakes pulling eleven point one amps.", {"reading bake: 11.1 A"}),
    ("what was rinsed", "dishwasher", "Filters got a bit of paper on it. I've rinsed it off.", {"work filter: cleaned"}),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "said", "expected"), [pytest.param(*row[1:], id=row[0]) for row in ROWS])
def test_lost_apostrophe_is_understood(kind: str, said: str, expected: Facts, understood: Understood) -> None:
    assert facts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("Power's back.", "power 's back"),
        ("Powers back.", "power 's back"),
        ("Breakers off at the panel.", "breaker 's off at the panel"),
        ("And the cords hanging down.", "and the cord 's hanging down"),
        ("The burners are fine.", "the burners are fine"),
        ("Both burners fine.", "both burners fine"),
        ("Drains fine.", "drains fine"),
        ("Pulls in, holds.", "pulls in holds"),
        ("Switches over with a snap.", "switches over with a snap"),
        ("I heard the bearings grinding.", "i heard the bearings grinding"),
        ("Rollers spin free.", "rollers spin free"),
        ("See if that changes anything.", "see if that changes anything"),
        ("It reads ten, which ties up with the chart.", "it reads ten which ties up with the chart"),
        ("The codes not stored.", "the codes not stored"),
    ],
)
def test_only_such_plurals_are_parted(said: str, words: str, vocabulary: Vocabulary) -> None:
    narration = Understanding(vocabulary).read(tidy(transcript(said), vocabulary.measures))

    assert " ".join(narration.words) == words


def test_names_written_together_are_parted(vocabulary: Vocabulary) -> None:
    narration = Understanding(vocabulary).read(
        tidy(transcript("Off at the PowerPoint, runcaps good."), vocabulary.measures)
    )

    assert " ".join(narration.words) == "off at the power point run caps good"
    assert [t.heard for t in narration.tokens if t.heard] == [
        "Off",
        "at",
        "the",
        "PowerPoint,",
        "runcaps",
        "good.",
    ]
