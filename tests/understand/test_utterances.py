"""A breath that only names a thing or only judges one is understood with its neighbour."""

from __future__ import annotations

import pytest

from fieldnotes.hear.breaths import moved
from fieldnotes.tidy import tidy
from fieldnotes.understand.understanding import Understanding
from fieldnotes.vocabulary.load import Vocabulary

from .spoken import Facts, Row, Understood, facts, transcript, visit

ROWS: list[Row] = [
    (
        "judged behind a rest",
        "washer",
        "Drain pump, fourteen ohms. | Good.",
        {"reading drain pump: 14 ohm", "check drain pump: good"},
    ),
    ("named, looked at, judged", "washer", "Lid lock. | Pulls in, holds. | Good.", {"check lid lock: good"}),
    ("two words of judgement", "dryer", "I turned the drum by hand. | All good.", {"check drum rotation: good"}),
    ("the name first", "dishwasher", "Then the float switch. | Not sticking, clicks fine.", {"check float switch: good"}),
    ("went on behind a comma", "washer", "The drain hose, | it isn't kinked.", {"check drain hose: good"}),
    ("a name behind a name", "washer", "The lid lock. | The drain pump. | Good.", {"check drain pump: good"}),
    ("nothing was named", "washer", "Right, that's the kettle on. | Good.", set()),
    (
        "half a sentence first",
        "top load washer",
        "And when I push the tub down and let go. | It comes up once and settles.",
        {"check tub bounce: good"},
    ),
    (
        "taken back with a rest within",
        "dryer",
        "The plug looks burnt. | No. | Tell a lie. | That's grease.",
        set(),
    ),
    (
        "guesses at what was seen before a rest",
        "dishwasher",
        "There's damp around the drain pump. | Could be from the hose, could be condensation, I can't tell.",
        {"check drain pump: unclear"},
    ),
    (
        "a guess with a subject of its own",
        "dishwasher",
        "The drain pump is leaking. | The hose could be loose, I can't tell.",
        {"check drain pump: fault", "check hose: unclear"},
    ),
    ("only an opener", "dishwasher", "Next I'll drop the pump out and look at the impeller. | Okay.", set()),
    ("an opener behind a name", "washer", "Now the lid lock. | Right.", set()),
    (
        "okay behind what was measured",
        "dryer",
        "Motor main winding, 2.4 ohms. | Okay. | Belt's off for that.",
        {"reading motor windings: 2.4 ohm", "check motor windings: good"},
    ),
    (
        "alright at the end",
        "dishwasher",
        "Drain pump winding, 14 ohms. | Alright.",
        {"reading drain pump: 14 ohm", "check drain pump: good"},
    ),
    (
        "okay opens the next thing",
        "dishwasher",
        "Drain pump winding, 14 ohms. | Okay. | Now the float switch.",
        {"reading drain pump: 14 ohm"},
    ),
    (
        "okay without its stop",
        "dishwasher",
        "Drain pump winding, 14 ohms. | Okay | the float switch next.",
        {"reading drain pump: 14 ohm"},
    ),
    (
        "okay before a plan",
        "dishwasher",
        "Drain pump winding, 14 ohms. | Right. | I'm going to pull the float switch.",
        {"reading drain pump: 14 ohm"},
    ),
    ("okay behind a mere number", "washer", "Four screws in the back panel. | Okay.", set()),
    (
        "held against the plate behind a rest",
        "dryer",
        "Element, 10.8 ohms. | Plate says 5400 watts, so that's right where it belongs.",
        {"reading heating element: 10.8 ohm", "check heating element: good"},
    ),
    (
        "held against the book behind a rest",
        "dishwasher",
        "Drain pump, 18 ohms. | The book says 15 to 30, so it's within spec.",
        {"reading drain pump: 18 ohm", "check drain pump: good"},
    ),
    (
        "what should be, without a judgement",
        "dishwasher",
        "Drain pump, 18 ohms. | The book says 15 to 30. | I'll ohm the float switch.",
        {"reading drain pump: 18 ohm"},
    ),
    (
        "another thing's plate",
        "dishwasher",
        "Drain pump, 18 ohms. | Plate says 1200 watts on the heating element, so the element is fine.",
        {"reading drain pump: 18 ohm", "check heating element: good"},
    ),
    ("an answer to a question", "washer", "Is it the belt? | Good.", set()),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "said", "expected"), [pytest.param(*row[1:], id=row[0]) for row in ROWS])
def test_breaths_that_belong_together_report_together(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert facts(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(
    ("said", "breaths"),
    [
        ("Lid lock. | Pulls in, holds.", 1),
        ("Lid lock and drain pump. | Good news all round, they said.", 2),
        ("The lid lock is fine. | The drain pump. | It hums.", 2),
        ("Drain pump. | Belt. | Motor.", 3),
        ("We looked at the tub, | and at the belt.", 1),
        ("When I let go. | It comes up.", 1),
        ("When I let go, it comes up. | It settles.", 2),
        ("When did it start? | It leaks.", 2),
        ("It was open. | Where it should be closed.", 1),
        ("It was open. | Where it should be I can't say?", 2),
        ("The plug is burnt. | No. | Scratch that.", 2),
        ("The plug is burnt. | No. | The belt is.", 3),
        ("We looked at the tub, | And at the belt.", 2),
    ],
)
def test_only_such_breaths_are_joined(said: str, breaths: int, vocabulary: Vocabulary) -> None:
    text = tidy(transcript(said), vocabulary.measures)

    assert len(Understanding(vocabulary).read(text).breaths) == breaths


def test_okay_belongs_to_the_nearer_breath(vocabulary: Vocabulary) -> None:
    said = transcript("Drain pump winding, 14 ohms. | Okay. | Float switch clicks.")
    measured, okay, rest = said.breaths
    late = said.model_copy(update={"breaths": (measured, moved(okay, 5.0, 0), moved(rest, 5.0, 0))})

    assert len(Understanding(vocabulary).read(tidy(said, vocabulary.measures)).breaths) == 2
    assert len(Understanding(vocabulary).read(tidy(late, vocabulary.measures)).breaths) == 3


def test_a_long_silence_parts_a_name_from_what_follows(vocabulary: Vocabulary) -> None:
    said = transcript("Lid lock. | Pulls in, holds.")
    name, rest = said.breaths
    silent = said.model_copy(update={"breaths": (name, moved(rest, 60.0, 0))})

    assert len(Understanding(vocabulary).read(tidy(silent, vocabulary.measures)).breaths) == 2
